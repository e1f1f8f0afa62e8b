using CommonGround.Reports.Charts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>The yard as a square of its area and its beds as squares of theirs, on one scale: how much of the ground is habitat.</summary>
public static class BedSketch
{
    private const double Width = 358;

    public static Chart Draw(YardFacts yard, IReadOnlyList<BedView> beds, Units units)
    {
        var metres = Math.Sqrt(yard.AreaSquareMetres);
        var scale = (Width - 4) / metres;
        var marks = new List<Mark> { new RectMark("yard-ground", 2, 2, Width - 4, Width - 4) };
        var square = units.Customary ? 20 / Words.FeetPerMetre : 5.0;
        for (var m = square; m < metres; m += square)
        {
            marks.Add(new LineMark("g-rule", 2 + (m * scale), 2, 2 + (m * scale), Width - 2));
            marks.Add(new LineMark("g-rule", 2, 2 + (m * scale), Width - 2, 2 + (m * scale)));
        }

        double x = 14, y = 14, rowHeight = 0;
        foreach (var bed in beds.Where(b => b.AreaSquareMetres is not null).OrderByDescending(b => b.AreaSquareMetres))
        {
            var side = Math.Max(8, Math.Sqrt(bed.AreaSquareMetres!.Value) * scale);
            var label = $"{bed.Name} {units.AreaWords(bed.AreaSquareMetres.Value)}";
            var wide = Math.Max(side, (label.Length * 6.3) + 6);
            if (x + wide > Width - 10)
            {
                (x, y, rowHeight) = (14, y + rowHeight + 30, 0);
            }

            marks.Add(new RectMark("bed", x, y, side, side, 6));
            marks.Add(new TextMark("small-lab lab", x, y + side + 15, label));
            x += wide + 12;
            rowHeight = Math.Max(rowHeight, side);
        }

        marks.Add(new TextMark("axis", Width - 8, Width - 10, units.Customary ? "one square is 20 ft" : "one square is 5 m", Anchor.End));
        var words = string.Join(", ", beds.Select(b => b.AreaSquareMetres is { } a ? $"{b.Name} {units.AreaWords(a)}"
            : $"{b.Name}, area not known"));
        return new Chart(Width, Width, $"Yard of {units.AreaWords(yard.AreaSquareMetres)} with {words}", marks);
    }
}
