using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>How the walk says things.</summary>
public static class WalkWords
{
    private const double SquareFeet = 10.763910416709722; // exact: (1 / 0.3048)², international foot
    private const double GramsPerOunce = 28.349523125; // exact: international avoirdupois ounce

    public static string Of(Answer answer) => answer switch
    {
        Answer.InFlower => "In flower",
        Answer.Finished => "Finished",
        Answer.StillHere => "Still here",
        Answer.NotSure => "Not sure",
        Answer.NotFound => "Not found",
        _ => "Gone",
    };

    /// <summary>What an answer says of the planting.</summary>
    public static LookSaid Said(Answer answer) => answer switch
    {
        Answer.InFlower => new() { Finding = Finding.Growing, GrowthStage = GrowthStage.Flowering },
        Answer.Finished => new() { Finding = Finding.Growing, GrowthStage = 7 },
        Answer.StillHere => new() { Finding = Finding.Growing },
        Answer.NotSure => new() { Finding = Finding.Growing, Certainty = Certainty.Tentative },
        Answer.NotFound => new() { Finding = Finding.NotFound },
        _ => new() { Finding = Finding.Ended },
    };

    public static string Stage(int stage) => stage switch
    {
        0 => "sprouting",
        1 or 2 or 3 or 4 => "in leaf",
        5 => "in bud",
        6 => "in flower",
        7 => "finished flowering",
        8 => "ripe seed",
        _ => "dormant",
    };

    public static string Date(DateOnly day) => DayWords.Date(day);

    /// <summary>"until August 31": the end of a half-month.</summary>
    public static string Until(int halfMonth, int year) => DayWords.DayMonth(HalfMonth.LastDay(halfMonth, year));

    public static string From(int halfMonth, int year) => DayWords.DayMonth(HalfMonth.FirstDay(halfMonth, year));

    public static string Area(double squareMetres, bool customary) => customary
        ? (squareMetres * SquareFeet).ToString("0.#", CultureInfo.InvariantCulture) + " ft²"
        : squareMetres.ToString("0.##", CultureInfo.InvariantCulture) + " m²";

    public static string AreaUnit(bool customary) => customary ? "ft²" : "m²";

    public static double ToSquareMetres(double typed, bool customary) => customary ? typed / SquareFeet : typed;

    public static string MassUnit(bool customary) => customary ? "oz" : "g";

    public static double ToGrams(double typed, bool customary) => customary ? typed * GramsPerOunce : typed;

    public static string Mass(double grams, bool customary) => (customary ? grams / GramsPerOunce : grams)
        .ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A figure as typed, with a point or a comma; null where it is none.</summary>
    public static double? Figure(string typed) =>
        double.TryParse((typed ?? "").Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture,
            out var figure) && double.IsFinite(figure) ? figure : null;

    public static string Of(WildlifeKind kind) => kind switch
    {
        WildlifeKind.BumbleBee => "Bumble bee",
        WildlifeKind.Bee => "Other bee",
        WildlifeKind.Other => "Something else",
        _ => kind.ToString(),
    };

    public static string Of(CountClass count) => count switch
    {
        CountClass.One => "one",
        CountClass.TwoToFive => "2 to 5",
        CountClass.SixToTwenty => "6 to 20",
        _ => "more than 20"
    };

    /// <summary>What was said of a planting, in a few words.</summary>
    public static string Of(LookSaid said, bool customary)
    {
        ArgumentNullException.ThrowIfNull(said);
        var words = new List<string>();
        if (said.Finding is Finding.NotFound or Finding.Ended or Finding.Died)
        {
            words.Add(said.Finding switch { Finding.NotFound => "not found", Finding.Ended => "gone", _ => "died" });
        }
        else
        {
            words.Add(said.GrowthStage is { } stage ? Stage(stage) : "still here");
        }

        if (said.CoverSquareMetres is { } cover) words.Add(Area(cover, customary));
        else if (said.Count is { } count) words.Add($"{count} plants");
        if (said.Certainty is { } sure) words.Add(sure switch
        {
            Certainty.Certain => "certain",
            Certainty.Probable => "probable",
            _ =>
            "name not sure"
        });
        if (said.SeedCollectedGrams is { } seed) words.Add($"{Mass(seed, customary)} {MassUnit(customary)} of seed collected");
        if (said.Place is { Length: > 0 } place) words.Add(place);
        if (said.Remark is { Length: > 0 } remark) words.Add($"“{remark}”");
        return string.Join(", ", words);
    }

    /// <summary>"1 note", "3 notes".</summary>
    public static string Count(int count, string one, string? many = null) => count == 1 ? $"1 {one}" : $"{count} {many ?? one + "s"}";
}
