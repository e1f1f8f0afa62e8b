using System.Globalization;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>The files of seed-data/unwanted, shipped beside the catalogue.</summary>
public static class UnwantedFiles
{
    private static readonly Dictionary<string, ControlMethod> s_methods = new(StringComparer.Ordinal)
    {
        ["pull"] = ControlMethod.Pull,
        ["dig"] = ControlMethod.Dig,
        ["cut"] = ControlMethod.Cut,
        ["mow"] = ControlMethod.Mow,
        ["smother"] = ControlMethod.Smother,
        ["deadhead"] = ControlMethod.Deadhead,
        ["girdle"] = ControlMethod.Girdle,
        ["cut_below_water"] = ControlMethod.CutBelowWater,
        ["cut_stump_or_foliar_by_label"] = ControlMethod.Herbicide,
        ["burn_by_trained_crew"] = ControlMethod.Burn,
        ["leave_and_watch"] = ControlMethod.LeaveAndWatch,
        ["report_first"] = ControlMethod.ReportFirst,
    };

    /// <summary>Every plant of the control calendar, by scientific name.</summary>
    /// <param name="open">Gives the bytes of a file by its name.</param>
    /// <exception cref="FormatException">A column is missing or a value is broken; the message names file, line and column.</exception>
    public static IReadOnlyDictionary<string, UnwantedTaxon> Read(Func<string, byte[]> open)
    {
        ArgumentNullException.ThrowIfNull(open);
        var alike = ShippedRows.Read("lookalikes.csv", open).ToList();
        var marks = alike.GroupBy(r => (r.Text("scientific_name"), r.Text("looks_like")))
            .ToDictionary(g => g.Key, g => g.First().Text("marks_of_the_first"));
        var pairs = alike.ToLookup(r => r.Text("scientific_name"), StringComparer.Ordinal);
        var spread = ShippedRows.Read("dispersal.csv", open).ToDictionary(r => r.Text("scientific_name"), Spread, StringComparer.Ordinal);
        var stages = ShippedRows.Read("stages.csv", open).ToDictionary(r => r.Text("scientific_name"), Marks, StringComparer.Ordinal);
        return ShippedRows.Read("control.csv", open).GroupBy(r => r.Text("scientific_name"), StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => new UnwantedTaxon(g.Key, g.First().Text("common_name"), g.First().Text("status") == "native",
                [.. g.Select(Control)],
                [.. pairs[g.Key].Select(r => Alike(r, marks)).OrderBy(l => l.Order).ThenBy(l => l.CommonName, StringComparer.Ordinal)],
                spread.GetValueOrDefault(g.Key), stages.GetValueOrDefault(g.Key))
            {
                NameFirst = g.Select(r => r.Text("name_first")).FirstOrDefault(w => w.Length > 0, ""),
            }, StringComparer.Ordinal);
    }

    /// <summary>The shares to reckon with where nothing is published.</summary>
    /// <param name="open">Gives the bytes of a file by its name.</param>
    public static EfficacyClasses ReadClasses(Func<string, byte[]> open) => new(ShippedRows.Read("efficacy-classes.csv", open)
        .ToDictionary(r => (r.Text("method"), r.Text("plant_group")),
            r => new Span(r.Number("efficacy_low", 0, 1), r.Number("efficacy_mid", 0, 1), r.Number("efficacy_high", 0, 1))));

    private static ControlAdvice Control(ShippedRow row)
    {
        double? mid = row.MaybeNumber("efficacy_mid", 0, 1);
        return new(
            s_methods.TryGetValue(row.Text("method"), out var method) ? method : throw row.Wrong("method", "it is not one of the methods"),
            row.Text("advised") switch
            {
                "yes" => Advice.Yes,
                "last resort" => Advice.LastResort,
                "no" => Advice.No,
                _ => throw row.Wrong("advised", "it is yes, last resort or no"),
            },
            [.. new[] { row.Window("from_half_month", "to_half_month"), row.Window("from_half_month_2", "to_half_month_2") }
                .OfType<BloomWindow>()],
            row.Half("bag_from_half_month"),
            row.Text("growth_stage_rule"),
            row.Text("must_not"),
            mid is { } m ? new Span(row.MaybeNumber("efficacy_low", 0, 1) ?? m, m, row.MaybeNumber("efficacy_high", 0, 1) ?? m) : null,
            row.Text("efficacy_basis"),
            row.MaybeNumber("years_of_follow_up", 0, 200) is { } years ? (int)years : null,
            row.Text("follow_up_basis"),
            row.Text("disposal"),
            new(row.MaybeNumber("hours_per_10m2_low", 0, 100) ?? 0, row.MaybeNumber("hours_per_10m2_mid", 0, 100) ?? 0,
                row.MaybeNumber("hours_per_10m2_high", 0, 100) ?? 0),
            row.Text("ppe"),
            row.Text("hazard"),
            row.Text("source"),
            row.Text("read_as"))
        {
            Visits = row.Text("visits"),
        };
    }

    private static LookAlike Alike(ShippedRow row, Dictionary<(string, string), string> marks) => new(row.Text("looks_like"),
        row.Text("looks_like_common_name"), row.Text("looks_like_role"), row.Text("marks_of_the_first"),
        marks.GetValueOrDefault((row.Text("looks_like"), row.Text("scientific_name")), ""), row.Text("best_seen"), row.Text("source"));

    private static SpreadFacts Spread(ShippedRow row)
    {
        double? life = row.MaybeNumber("seedbank_half_life_y", 0.01, 200);
        return new(Three(row, "dispersal_m_"), row.Text("dispersal_basis"), Three(row, "growth_per_year_"),
            life is { } mid ? new Span(row.MaybeNumber("half_life_low_y", 0.01, 200) ?? mid, mid,
                row.MaybeNumber("half_life_high_y", 0.01, 200) ?? mid) : null,
            row.Text("half_life_source"));
    }

    private static Span Three(ShippedRow row, string stem) =>
        new(row.Number(stem + "low", 0, 100_000), row.Number(stem + "mid", 0, 100_000), row.Number(stem + "high", 0, 100_000));

    private static SeasonMarks Marks(ShippedRow row) => new(row.Text("seedling_or_rosette"), row.Text("spring"), row.Text("flower"),
        row.Text("seed_or_fruit"), row.Text("winter"), row.Window("flower_from", "flower_to"), row.Window("seed_from", "seed_to"));
}

/// <summary>The rows of a shipped file, each cell by the name of its column.</summary>
internal sealed record ShippedRow(string File, IReadOnlyDictionary<string, int> At, CsvRecord Record)
{
    public string Text(string column) => At.TryGetValue(column, out var at) ? Record.Cells[at].Trim()
        : throw new FormatException($"{File} has no column {column}.");

    public double? MaybeNumber(string column, double low, double high) => Text(column).Length == 0 ? null : Number(column, low, high);

    public double Number(string column, double low, double high) =>
        double.TryParse(Text(column), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= low && value <= high
            ? value : throw Wrong(column, string.Create(CultureInfo.InvariantCulture, $"it is a number from {low} to {high}"));

    /// <summary>"4a" is April 1–15, "12b" December 16–31; <c>null</c> where blank.</summary>
    public int? Half(string column) => Text(column) is not { Length: > 0 } text ? null
        : text[^1] is 'a' or 'b' && int.TryParse(text[..^1], CultureInfo.InvariantCulture, out var month) && month is >= 1 and <= 12
            ? (2 * (month - 1)) + (text[^1] - 'a') : throw Wrong(column, "a half-month is 1a to 12b");

    public BloomWindow? Window(string from, string to) => (Half(from), Half(to)) switch
    {
        ({ } first, { } last) => new BloomWindow(first, last),
        (null, null) => null,
        _ => throw Wrong(from, "a window has both ends"),
    };

    public FormatException Wrong(string column, string why) =>
        new($"{File}, line {Record.Line.ToString(CultureInfo.InvariantCulture)}, {column}: “{Text(column)}” will not do: {why}.");
}

internal static class ShippedRows
{
    public static IEnumerable<ShippedRow> Read(string name, Func<string, byte[]> open)
    {
        var table = CsvTable.ReadShipped(name, open(name));
        var at = table.Header.Index().ToDictionary(p => p.Item, p => p.Index, StringComparer.Ordinal);
        return table.Records.Select(r => new ShippedRow(name, at, r));
    }
}
