using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;

namespace CommonGround.Reports.YardReports;

/// <summary>Figures, units, dates and field words as they are printed.</summary>
internal static class Wording
{
    /// <summary>Stands where a value is not defined or not known; the reason is printed near it.</summary>
    public const string Undefined = "–";

    private const double SquareMetresPerSquareFoot = 0.3048 * 0.3048;
    private const double MetresPerFoot = 0.3048;
    private static readonly string[] s_small = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve"];

    public static string Date(DateOnly day) => DayWords.Date(day);

    public static string Count(int n) => n >= 0 && n < s_small.Length ? s_small[n] : n.ToString(CultureInfo.InvariantCulture);

    /// <summary>"one plant", "three plants", "27 plants".</summary>
    public static string Count(int n, string one, string many) => $"{Count(n)} {(n == 1 ? one : many)}";

    public static string AreaUnit(Units units) => units == Units.Metric ? "m²" : "ft²";

    public static double SquareMetresPerUnit(Units units) => units == Units.Metric ? 1 : SquareMetresPerSquareFoot;

    /// <summary>Without its unit: one decimal under 100.</summary>
    public static string AreaFigure(double squareMetres, Units units) => Figure(squareMetres / SquareMetresPerUnit(units));

    /// <summary>The unit stays on the line of its figure.</summary>
    public static string Area(double squareMetres, Units units) => $"{AreaFigure(squareMetres, units)}\u00A0{AreaUnit(units)}";

    public static string HeightUnit(Units units) => units == Units.Metric ? "m" : "ft";

    public static string HeightFigures(CatalogueTaxon taxon, Units units)
    {
        string One(double metres) => units == Units.Metric
            ? metres.ToString(metres < 0.2 ? "0.0#" : "0.0", CultureInfo.InvariantCulture)
            : (Math.Round(metres / MetresPerFoot * 2) / 2).ToString("0.#", CultureInfo.InvariantCulture);
        return (taxon.HeightMinMetres, taxon.HeightMaxMetres) switch
        {
            ({ } low, { } high) when One(low) != One(high) => $"{One(low)}–{One(high)}",
            (_, { } high) => One(high),
            ({ } low, _) => One(low),
            _ => Undefined,
        };
    }

    public static string Height(double metres, Units units) => units == Units.Metric
        ? $"{metres.ToString("0.#", CultureInfo.InvariantCulture)}\u00A0m"
        : $"{(Math.Round(metres / MetresPerFoot * 2) / 2).ToString("0.#", CultureInfo.InvariantCulture)}\u00A0ft";

    /// <summary>A measure such as mean C, one decimal.</summary>
    public static string Measure(double? value) => value?.ToString("0.0", CultureInfo.InvariantCulture) ?? Undefined;

    public static string Figure(double value) => value.ToString(value < 100 ? "0.0" : "#,0", CultureInfo.InvariantCulture);

    /// <summary>"April 1–30, October 16–31" with "and" before the last.</summary>
    public static string Runs(IEnumerable<BloomGap> runs) => Listed([.. runs.Select(r => Unbroken(HalfMonthWords.Run(r.From, r.To)))]);

    /// <summary>Kept on one line: a date.</summary>
    public static string Unbroken(string text) => text.Replace(' ', '\u00A0');

    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static string Listed(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "",
        1 => words[0],
        _ => $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}",
    };

    public static string Window(CatalogueTaxon taxon) => taxon.Bloom is { } window
        ? HalfMonthWords.RunShort(window.Start, window.End)
        : taxon.LifeForm switch
        {
            LifeForm.Grass => "grass",
            LifeForm.Sedge => "sedge",
            LifeForm.Fern => "fern",
            LifeForm.Turf => "turf grass",
            _ => "not known",
        };

    /// <summary>What stands in the strip instead of a line.</summary>
    public static string NoWindow(CatalogueTaxon taxon) => taxon.LifeForm switch
    {
        LifeForm.Grass or LifeForm.Turf => "grass: no bloom for pollinators",
        LifeForm.Sedge => "sedge: no bloom for pollinators",
        LifeForm.Fern => "fern: no flowers",
        _ => "flowering dates not known",
    };

    public static string Of(Light light) => light switch { Light.FullSun => "full sun", Light.PartShade => "part shade", _ => "shade" };

    public static string Of(Moisture moisture) => moisture switch
    {
        Moisture.Dry => "dry",
        Moisture.Medium => "medium",
        Moisture.Moist => "moist",
        _ => "wet"
    };

    public static string Of(Origin origin) => origin switch
    {
        Origin.Planted => "planted",
        Origin.SelfSown => "self-sown",
        Origin.Relict => "relict",
        _ => "unknown"
    };

    public static string Of(Certainty certainty) => certainty switch
    {
        Certainty.Certain => "certain",
        Certainty.Probable => "probable",
        _ => "tentative"
    };

    /// <summary>Visitors in words, the two groups of bees together.</summary>
    public static string Visitors(IReadOnlyList<string> groups)
    {
        const string Long = "long-tongued bees", Short = "short-tongued bees";
        var named = groups.Contains(Long) && groups.Contains(Short)
            ? groups.Where(g => g is not (Long or Short)).Prepend("long- and short-tongued bees") : groups;
        return groups.Count == 0 ? "not known" : string.Join(", ", named).Replace("butterflies and moths", "butterflies, moths",
            StringComparison.Ordinal);
    }

    /// <summary>Genus cf. epithet: the qualifier stands before what is doubted.</summary>
    public static string Latin(string scientificName, string qualifier)
    {
        var genus = scientificName.IndexOf(' ', StringComparison.Ordinal);
        return qualifier.Length == 0 ? scientificName
            : genus < 0 ? $"{qualifier} {scientificName}"
            : $"{scientificName[..genus]} {qualifier}{scientificName[genus..]}";
    }

    public static int Covered(BloomCoverage bloom, Season season, int from) =>
        Enumerable.Range(from, season.Last - from + 1).Count(t => bloom.HalfMonths[t].N >= season.Norm);

    public static int[] InFlower(BloomCoverage bloom) => [.. bloom.HalfMonths.Select(h => h.N)];

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
