using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Put in as seed, as plugs, or some of each.</summary>
public enum PlantedAs { Seed, Plug, SeedAndPlug }

/// <summary>One taxon of a plan, over all areas.</summary>
/// <param name="Share">Of the converted ground, 0–1, as the plants are expected to stand; for the eye, nothing is decided by it.</param>
/// <param name="SquareMetres">Share × ground.</param>
/// <param name="SeedsPerSquareMetre">Pure live seeds per m² of sown ground: all but a planted band; 0 for plugs alone.</param>
/// <param name="PlsGrams">Pure live seed, g; 0 for plugs alone.</param>
/// <param name="BulkGrams">Seed as sold, g: pure live seed ÷ (purity × germination).</param>
/// <param name="Plugs">Whole plants; 0 for seed alone.</param>
/// <param name="PriceEstimated">The group has no price for it; a default was used.</param>
/// <param name="Reasons">Why it is in, for the reader, its role first; at most four.</param>
public sealed record PlannedTaxon(
    CatalogueTaxon Taxon, PlantedAs As, double Share, double SquareMetres, double SeedsPerSquareMetre, double PlsGrams, double BulkGrams,
        int Plugs,
    double Cost, bool PriceEstimated, IReadOnlyList<string> Reasons)
{
    /// <summary>Live seed that is paid for, g: a packet at least.</summary>
    public double BoughtGrams { get; init; } = PlsGrams;

    /// <summary>What of <see cref="Cost"/> is for seed.</summary>
    public double SeedCost { get; init; } = Plugs == 0 ? Cost : 0;

    /// <summary>Recorded kinds of visitors by group; empty where the record has nothing of this plant.</summary>
    public IReadOnlyDictionary<string, int> VisitorKinds { get; init; } = new Dictionary<string, int>(StringComparer.Ordinal);

    /// <summary>Role, spread, longevity and the rest; guessed from its form where nobody has described it.</summary>
    public MixTraits Traits { get; } = Taxon.Mix ?? CandidateRules.Guessed(Taxon);

    /// <summary>Whether its visitors are written down, only those of its relatives, or none.</summary>
    public VisitorBasis VisitorBasis { get; init; } = VisitorBasis.Unknown;

    /// <summary>The taxon with the heights of its traits where the catalogue's are known to be off.</summary>
    public CatalogueTaxon Grown => Traits.HeightMaxMetres is { } tall
        ? Taxon with { HeightMinMetres = Traits.HeightMinMetres ?? Taxon.HeightMinMetres, HeightMaxMetres = tall } : Taxon;

    /// <summary>Seed and plugs, as a lock keeps them.</summary>
    public PlantedAmount Amount => new(SeedsPerSquareMetre, Plugs);
}

/// <summary>What goes into one area.</summary>
public sealed record AreaPlanting(ConversionArea Area, IReadOnlyList<PlannedTaxon> Taxa);

/// <summary>How good the chosen mix is, and how good any mix could be.</summary>
/// <param name="CoveredHalves">Half-months of the season with at least the norm in flower in this planting.</param>
/// <param name="SeasonHalves">Half-months of the season.</param>
/// <param name="Support">Kinds of bees recorded on the plants of the mix.</param>
/// <param name="Objective">Points for visitors with one plant and bees with two; <paramref name="Bound"/> what no mix with as good a bloom
/// can pass, same unit.</param>
/// <param name="Gap">(Bound − Objective) / Bound, 0 when none can do better.</param>
/// <param name="ProvenBest">Bloom is proven, and of mixes with that bloom none feeds more visitors than <paramref name="Bound"/>; the mix
/// keeps 90 % of it or more.</param>
public sealed record MixQuality(int CoveredHalves, int SeasonHalves, double Support, double Objective, double Bound, double Gap,
    bool ProvenBest)
{
    /// <summary>Half-months in which enough suitable taxa flower: no mix can pass that.</summary>
    public int CoveredBound { get; init; } = CoveredHalves;

    /// <summary>Kinds of bees that any suitable plants feed.</summary>
    public int BeesPossible { get; init; }

    /// <summary>Most points that a mix of the same bloom was found to have; the mix may give up a tenth of them for sound craft.</summary>
    public double Best { get; init; } = Objective;
}

/// <summary>A mix that obeys every limit.</summary>
/// <param name="InFlower">Native taxa of the mix in flower, 24 half-months.</param>
/// <param name="Cost">Seed and plants.</param>
/// <param name="Binding">Limits the mix has run up against, in words.</param>
public sealed record ConversionMix(IReadOnlyList<PlannedTaxon> Taxa, IReadOnlyList<AreaPlanting> Areas, IReadOnlyList<int> InFlower,
    double Cost, MixQuality Quality, IReadOnlyList<string> Binding)
{
    /// <summary>Taxa by first, then last flowering; their place, from 1, is the number they go by on plan and list.</summary>
    public IReadOnlyList<PlannedTaxon> Numbered =>
        [.. Taxa.OrderBy(t => t.Taxon.Bloom?.Start ?? 99).ThenBy(t => t.Taxon.Bloom?.End ?? 99).ThenBy(t => t.Taxon.ScientificName,
            StringComparer.Ordinal)];

    /// <summary>Who comes to the plants of the mix, by the record.</summary>
    public VisitorSupport Visitors { get; init; } = new(new HalfMonthVisitors[Ecology.Phenology.HalfMonth.Count], 0, 0, 0);

    /// <summary>What was left out or done otherwise than usual, in words: a thin sowing, a guild that nothing suits for, plants asked for
    /// against advice.</summary>
    public IReadOnlyList<string> Advice { get; init; } = [];

    /// <summary>What suits the ground and the household's limits and is not offered all the same, because good practice advises against it
    /// here; by scientific name. The proof of <see cref="Quality"/> holds without these.</summary>
    public IReadOnlyList<LeftOutTaxon> LeftOut { get; init; } = [];

    /// <summary>What is sown and planted: seed alone, plugs alone, or a sowing with a planted band.</summary>
    public Method Method { get; init; } = Method.Mixed;
}

/// <summary>Who finds food on one site before and after.</summary>
/// <param name="Before">24 half-months; <paramref name="After"/> with the plan grown up.</param>
/// <param name="NewBees">Kinds of bees with nothing on the site before.</param>
public sealed record VisitorChange(string Site, VisitorSupport Before, VisitorSupport After, IReadOnlyList<string> NewBees);

/// <summary>Why there is no mix, and the nearest request that has one.</summary>
/// <param name="Conflict">Smallest set of limits that cannot hold together, in words.</param>
/// <param name="Relaxed">What to change, all of it together, in words; empty when no change of limits helps.</param>
/// <param name="Request">The request with that change; null when there is none.</param>
public sealed record NoMix(IReadOnlyList<string> Conflict, IReadOnlyList<string> Relaxed, ConversionRequest? Request);

/// <summary>A point of the curve of cost against support.</summary>
public sealed record TradeOff(double Cost, int CoveredHalves, double Support, int Taxa, ConversionMix Mix);

/// <summary>A year of water for lawn and planting on the converted ground, litres.</summary>
/// <param name="Method">"Penman–Monteith" or "Hargreaves".</param>
/// <param name="ReferenceMillimetres">Reference evapotranspiration of the year, mm.</param>
/// <param name="RainMillimetres">Rain of the same year, mm.</param>
/// <param name="LawnByMonth">Irrigation need of the lawn, 12 months, litres, middle figure.</param>
public sealed record WaterComparison(
    string Method, double ReferenceMillimetres, double RainMillimetres, Spread LawnLitres, Spread PlantingLitres,
    IReadOnlyList<double> LawnByMonth, IReadOnlyList<double> PlantingByMonth, IReadOnlyList<string> Assumptions);

/// <summary>A storm and what runs off the converted ground before and after.</summary>
public sealed record StormRunoff(double RainMillimetres, string Name, Spread BeforeMillimetres, Spread AfterMillimetres);

/// <summary>Runoff before and after, curve-number method.</summary>
/// <param name="CurveBefore">Curve number, middle; the spread carries poor to good cover.</param>
/// <param name="YearBeforeLitres">Over the daily rain series; null without one.</param>
public sealed record RunoffComparison(Spread CurveBefore, Spread CurveAfter, IReadOnlyList<StormRunoff> Storms, Spread? YearBeforeLitres,
    Spread? YearAfterLitres, IReadOnlyList<string> Assumptions);

/// <summary>Money over ten years, discounted, both ways.</summary>
/// <param name="Establishment">Year 0: ground, seed, plants.</param>
/// <param name="PlantingByYear">Sum so far, years 0–10, discounted.</param>
/// <param name="LawnByYear">The same for keeping the lawn.</param>
/// <param name="BreakEvenYear">First year in which the planting has cost less, middle figures; null when it does not within ten
/// years.</param>
/// <param name="BreakEvenEarliest">With the planting's low and the lawn's high; <paramref name="BreakEvenLatest"/> the other way.</param>
public sealed record MoneyComparison(
    Spread Establishment, IReadOnlyList<Spread> PlantingByYear, IReadOnlyList<Spread> LawnByYear, int? BreakEvenYear,
        int? BreakEvenEarliest, int? BreakEvenLatest,
    bool PricesInvented, IReadOnlyList<string> Assumptions);

/// <summary>Hours of work by month.</summary>
/// <param name="Years">Four rows of 12 months: years 1, 2, 3 and a later one.</param>
/// <param name="LawnByMonth">Mowing the same ground, 12 months, middle figure.</param>
/// <param name="FuelLitresYear">Petrol no longer burnt.</param>
public sealed record WorkComparison(IReadOnlyList<IReadOnlyList<double>> Years, IReadOnlyList<double> LawnByMonth, Spread LawnHoursYear,
    Spread FuelLitresYear)
{
    /// <summary>Carbon dioxide of that petrol, kg: 8,887 g a US gallon (US EPA 2014).</summary>
    public Spread CarbonDioxideKilogramsYear { get; init; }

    /// <summary>What the hours rest on, in words.</summary>
    public IReadOnlyList<string> Assumptions { get; init; } = [];
}

/// <summary>Bloom before and after on one site.</summary>
/// <param name="Before">Native taxa in flower, 24 half-months; <paramref name="After"/> with the plan grown up.</param>
public sealed record BloomChange(string Site, IReadOnlyList<int> Before, IReadOnlyList<int> After, int CoveredBefore, int CoveredAfter,
    int LateBefore, int LateAfter);

/// <summary>Reachable bloom at the yard's point, m², before and after, by half-month.</summary>
public sealed record ReachChange(string Forager, IReadOnlyList<double> Before, IReadOnlyList<double> After);

/// <summary>One step of the calendar.</summary>
/// <param name="Year">1–3, the growing seasons; 0 is the time before the first, in which the ground is cleared; 4 is every year after the
/// third.</param>
/// <param name="FromMonth">1–12; <paramref name="ToMonth"/> included.</param>
/// <param name="Expect">What it looks like then, honestly; empty when nothing is to be said.</param>
/// <param name="Caution">Danger and to whom one defers; empty when there is none.</param>
public sealed record CalendarStep(int Year, int FromMonth, int ToMonth, string Do, string Expect, string Caution)
{
    /// <summary>The job in a few words, for a calendar to hang up; empty where only <see cref="Do"/> says it.</summary>
    public string Short { get; init; } = "";

    /// <summary>A year of the calendar as a heading.</summary>
    public static string YearWords(int year) => year switch { 0 => "The year before", 4 => "Year 4 and after", _ => $"Year {year}" };
}

/// <summary>A whole plan: the one record from which page, report and commands are made.</summary>
public sealed record ConversionPlan
{
    public required ConversionRequest Request { get; init; }
    public required ConversionMix Mix { get; init; }
    public IReadOnlyList<TradeOff> TradeOffs { get; init; } = [];

    /// <summary>Null where the group has no weather.</summary>
    public WaterComparison? Water { get; init; }
    public required RunoffComparison Runoff { get; init; }
    public required MoneyComparison Money { get; init; }
    public required WorkComparison Work { get; init; }
    public required BloomChange Yard { get; init; }

    /// <summary>Null where the street has too few yards to be shown.</summary>
    public BloomChange? Street { get; init; }
    public IReadOnlyList<ReachChange> Reach { get; init; } = [];

    /// <summary>Visitors of the yard; null where there is no record of visitors.</summary>
    public VisitorChange? YardVisitors { get; init; }

    /// <summary>Visitors of the street; null where it has too few yards to be shown.</summary>
    public VisitorChange? StreetVisitors { get; init; }
    public required IReadOnlyList<CalendarStep> Calendar { get; init; }
}
