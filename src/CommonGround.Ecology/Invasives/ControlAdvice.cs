using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Invasives;

/// <summary>What is done against an unwanted plant.</summary>
public enum ControlMethod
{
    Pull, Dig, Cut, Mow, Smother, Deadhead, Girdle, CutBelowWater,

    /// <summary>Cut stumps or leaves, by the label and nobody else's word.</summary>
    Herbicide,

    /// <summary>By a trained crew only.</summary>
    Burn,
    LeaveAndWatch, ReportFirst,
}

/// <summary>Whether the control calendar advises a method for a plant.</summary>
public enum Advice { Yes, LastResort, No }

/// <summary>A value with the range that is published or assumed for it.</summary>
/// <param name="Low">Least.</param>
/// <param name="Mid">The one to reckon with.</param>
/// <param name="High">Most.</param>
public readonly record struct Span(double Low, double Mid, double High);

/// <summary>One method against one plant, as the control calendar has it.</summary>
/// <param name="Windows">When it is done, half-months of an ordinary year; none where it is not a method for this plant.</param>
/// <param name="BagFrom">Half-month 0–23 from which seed ripens: bag first or leave alone; <c>null</c> where none is told.</param>
/// <param name="StageRule">The plant's stage that matters more than the date.</param>
/// <param name="MustNot">What makes it worse.</param>
/// <param name="Efficacy">Share of plants or cover removed a treatment, 0–1; <c>null</c> where nothing published was read.</param>
/// <param name="EfficacyBasis">Where the share is from.</param>
/// <param name="FollowUpYears">Years of yearly visits that managers ask, after the last seed; <c>null</c> where none is told.</param>
/// <param name="FollowUpBasis">Where the years are from.</param>
/// <param name="Disposal">What becomes of the plants.</param>
/// <param name="HoursPerTenSquareMetres">Person-hours for 10 m² of dense patch, without the way there.</param>
/// <param name="Protection">What to wear.</param>
/// <param name="Hazard">What hurts; never an all-clear.</param>
/// <param name="Source">Who says so.</param>
/// <param name="ReadAs">How much of the source was read.</param>
/// <remarks>See docs/measures.md#control-calendar.</remarks>
public sealed record ControlAdvice(ControlMethod Method, Advice Advised, IReadOnlyList<BloomWindow> Windows, int? BagFrom, string StageRule,
    string MustNot, Span? Efficacy, string EfficacyBasis, int? FollowUpYears, string FollowUpBasis, string Disposal,
    Span HoursPerTenSquareMetres, string Protection, string Hazard, string Source, string ReadAs)
{
    /// <summary>How often it is done in one year, in words; empty where once is all the source asks.</summary>
    public string Visits { get; init; } = "";

    /// <summary>Whether volunteers do it with tools: no herbicide, fire, mere watching or report.</summary>
    public bool IsByHand => Method is not (ControlMethod.Herbicide or ControlMethod.Burn or ControlMethod.LeaveAndWatch
        or ControlMethod.ReportFirst);

    /// <summary>Whether a half-month, 0–23, lies in one of its windows.</summary>
    public bool IsOpen(int half) => Advised != Advice.No && Windows.Any(w => w.Contains(half));

    /// <summary>Whether plants handled in a half-month are in seed: from <see cref="BagFrom"/> to the year's end.</summary>
    public bool BagsIn(int half) => half >= BagFrom;
}

/// <summary>A plant that is taken for another.</summary>
/// <param name="ScientificName">The other plant.</param>
/// <param name="CommonName">Its common name.</param>
/// <param name="Role">native, introduced, unwanted, deadly or rash.</param>
/// <param name="MarksOfThis">By what the unwanted one is known.</param>
/// <param name="MarksOfOther">By what the other is known; may be empty.</param>
/// <param name="BestSeen">When the marks are seen.</param>
/// <param name="Source">Who says so.</param>
public sealed record LookAlike(string ScientificName, string CommonName, string Role, string MarksOfThis, string MarksOfOther,
    string BestSeen, string Source)
{
    /// <summary>The gravest first: deadly, rash, native, the rest.</summary>
    public int Order => Role switch { "deadly" => 0, "rash" => 1, "native" => 2, _ => 3 };
}

/// <summary>How a plant spreads and lasts.</summary>
/// <param name="Metres">Distance of seed or pieces, m.</param>
/// <param name="MetresBasis">Where the distance is from.</param>
/// <param name="GrowthPerYear">Logistic rate of area, per year.</param>
/// <param name="SeedHalfLifeYears">Half-life of seed in the soil; <c>null</c> where none is published.</param>
/// <param name="SeedHalfLifeSource">Who says so.</param>
public sealed record SpreadFacts(Span Metres, string MetresBasis, Span GrowthPerYear, Span? SeedHalfLifeYears, string SeedHalfLifeSource);

/// <summary>What a plant looks like through the year.</summary>
/// <param name="Young">Seedling or rosette.</param>
/// <param name="Flowering">Half-months in flower; <c>null</c> where not told.</param>
/// <param name="Seeding">Half-months in seed; <c>null</c> where not told.</param>
public sealed record SeasonMarks(string Young, string Spring, string Flower, string Seed, string Winter, BloomWindow? Flowering,
    BloomWindow? Seeding);

/// <summary>All that is held of one unwanted plant: control, look-alikes, spread, marks.</summary>
/// <param name="IsNative">Native here and sometimes too much: thinned, never wiped out.</param>
public sealed record UnwantedTaxon(string ScientificName, string CommonName, bool IsNative, IReadOnlyList<ControlAdvice> Methods,
    IReadOnlyList<LookAlike> LookAlikes, SpreadFacts? Spread, SeasonMarks? Marks)
{
    /// <summary>Why its exact kind is settled before anybody treats it, "a native kind exists"; empty where its name is enough.</summary>
    public string NameFirst { get; init; } = "";

    /// <summary>Methods that set when it is due: advised and by hand where there is one, else all advised. The season of a herbicide never
    /// makes that of a hand method longer.</summary>
    public IEnumerable<ControlAdvice> Timed => Methods.Any(m => m.Advised == Advice.Yes && m.IsByHand && m.Windows.Count > 0)
        ? Methods.Where(m => m.Advised == Advice.Yes && m.IsByHand) : Methods.Where(m => m.Advised == Advice.Yes);

    /// <summary>Years of yearly visits after the last seed that managers ask: the longest of its methods.</summary>
    public int? ManagersYears => Methods.Max(m => m.FollowUpYears);

    /// <summary>Years until 5 % of the seed is left, from its published half-life; <c>null</c> where none is published.</summary>
    /// <remarks>See docs/measures.md#seed-bank.</remarks>
    public int? SeedYears => SeedBank.FollowUpYearsForHalfLife(Spread?.SeedHalfLifeYears?.Mid);
}
