using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>Ten years of money as bank notes to count: one row of notes for what stands there now, one for the planting. What is paid at
/// the start is filled, the difference is set apart.</summary>
public static class NotesChart
{
    private const double Wide = 30, High = 17, Gap = 4, Most = 44;

    /// <param name="money">Sums so far, years 0 and on.</param>
    /// <param name="ground">What stands there now: "lawn".</param>
    /// <param name="currency">Sign before the figure.</param>
    /// <param name="width">px, 240 or more.</param>
    public static Chart Draw(MoneyComparison money, string ground, string currency, double width)
    {
        ArgumentNullException.ThrowIfNull(money);
        var (now, planting, start) = (money.LawnByYear[^1].Mid, money.PlantingByYear[^1].Mid, money.PlantingByYear[0].Mid);
        var note = Note(Math.Max(now, planting));
        int Notes(double value) => (int)Math.Round(Math.Max(0, value) / note);
        var years = money.PlantingByYear.Count - 1;
        var marks = new List<Mark>();
        var y = 14.0;
        marks.Add(new TextMark("lab strong", 0, y, $"Keeping the {ground}, {years} years: {Scale.Money(now, currency)}"));
        y = Rows(marks, Notes(now), 0, Notes(now) - Math.Max(0, Notes(now) - Notes(planting)), y + 9, width);
        y += 24;
        marks.Add(new TextMark("lab strong", 0, y, $"The planting, {years} years: {Scale.Money(planting, currency)}"));
        y = Rows(marks, Notes(planting), Math.Min(Notes(planting), Notes(start)), Math.Min(Notes(planting), Notes(now)), y + 9, width);
        y += 18;
        marks.Add(new TextMark("axis", 0, y, $"One note is {Scale.Money(note, currency)}. Black: to start. Framed: what the "
            + $"{(planting >= now ? "planting" : ground)} costs more."));
        return new Chart(width, y + 6, $"Money of {years} years in notes of {Scale.Money(note, currency)}: keeping the {ground} "
            + $"{Scale.Money(now, currency)}, the planting {Scale.Money(planting, currency)}, of it {Scale.Money(start, currency)} to "
            + "start.", marks);
    }

    /// <summary>What a note is worth: 1, 2 or 5 times a power of ten, so that the dearer way takes no more notes than can be
    /// counted.</summary>
    public static double Note(double most) => Scale.Step(Math.Max(most, 1), (int)Most);

    /// <returns>Where the last row ends.</returns>
    private static double Rows(List<Mark> marks, int notes, int filled, int level, double y, double width)
    {
        var inRow = Math.Max(5, (int)((width + Gap) / (Wide + Gap)));
        for (var i = 0; i < notes; i++)
        {
            var (left, top) = (2 + (i % inRow * (Wide + Gap)), y + (i / inRow * (High + Gap)));
            marks.Add(new RectMark(i < filled ? "st-on" : i < level ? "before" : "g-under", left, top, Wide - 2, High, 3));
            // Paid at the start, and more than the other way costs: black in a frame.
            if (i < filled && i >= level) marks.Add(new RectMark("g-gap", left - 2, top - 2, Wide + 2, High + 4, 3));
        }

        return y + (Math.Max(1, (notes + inRow - 1) / inRow) * (High + Gap));
    }
}
