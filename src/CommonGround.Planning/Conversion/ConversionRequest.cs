using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How the planting should strike the eye.</summary>
public enum Look
{
    /// <summary>Many taxa mingled, heights as they come.</summary>
    Naturalistic,

    /// <summary>Few taxa in repeated groups, low ones in front.</summary>
    Ordered,

    /// <summary>Low along walks and drives, taller only in the middle.</summary>
    EdgeFriendly,
}

/// <summary>What is put into the ground.</summary>
public enum Method { Seed, Plugs, Mixed }

/// <summary>What stands there now.</summary>
public enum PresentCover { GoodTurf, ThinTurf, Weeds, BareSoil, Shrubs, FlowerBed }

/// <summary>When the work starts.</summary>
public enum StartSeason
{
    /// <summary>Prepare over summer, sow as winter comes: most native seed wants a cold, wet rest.</summary>
    DormantSowing,

    /// <summary>Prepare the year before, sow or plant in spring.</summary>
    Spring,

    /// <summary>Prepare in summer, plant plugs in early autumn.</summary>
    EarlyAutumn,
}

/// <summary>What the soil feels like between the fingers.</summary>
public enum SoilTexture { Sand, Loam, Clay }

/// <summary>How much of a taxon is put in.</summary>
/// <param name="SeedsPerSquareMetre">Live seeds per m² of sown ground, 0 or more.</param>
/// <param name="Plugs">0 or more.</param>
public readonly record struct PlantedAmount(double SeedsPerSquareMetre, int Plugs);

/// <summary>A piece of lawn to convert.</summary>
/// <param name="Name">Unique within a request.</param>
/// <param name="SquareMetres">Above 0.</param>
/// <param name="Outline">Its corners in metres east and north of the yard's own corner; empty when only its size was typed.</param>
public sealed record ConversionArea(string Name, double SquareMetres, IReadOnlyList<PlanPoint> Outline);

/// <summary>A point on a yard's sketch, metres east and north.</summary>
public readonly record struct PlanPoint(double East, double North);

/// <summary>Everything a household says before a plan is made; SI units, money in the group's currency.</summary>
public sealed record ConversionRequest
{
    /// <summary>One or more, each above 0 m².</summary>
    public required IReadOnlyList<ConversionArea> Areas { get; init; }

    public required Light Light { get; init; }
    public required Moisture Moisture { get; init; }
    public required SoilGroup SoilGroup { get; init; }

    /// <summary>Steepest slope, percent, 0–100.</summary>
    public double SlopePercent { get; init; }
    public PresentCover PresentCover { get; init; }

    /// <summary>Most to spend on seed and plants; null when there is no limit.</summary>
    public double? Budget { get; init; }

    /// <summary>Tallest plant allowed, m, from the local ordinance; null when there is none.</summary>
    public double? TallestMetres { get; init; }
    public Look Look { get; init; }

    /// <summary>The household waters its lawn as much as the lawn needs. Where it does not, no water is counted as money on either
    /// side.</summary>
    public bool WatersLawn { get; init; }

    /// <summary>Children chew plants: every taxon that may kill people, is poisonous if eaten, or harms skin or eyes is left out.</summary>
    public bool KeepToxicOut { get; init; }

    /// <summary>Pets or stock chew plants: every taxon of any class of harm is left out.</summary>
    public bool KeepToxicToAnimalsOut { get; init; }

    /// <summary>The classes of harm that are left out; none unless asked for.</summary>
    internal IReadOnlyList<ToxicityClass> KeptOut => KeepToxicToAnimalsOut ? ToxicityGrades.ChildrenAndAnimals : KeepToxicOut
        ? ToxicityGrades.Children : [];

    /// <summary>Scientific names that must be in the plan.</summary>
    public IReadOnlyList<string> MustHave { get; init; } = [];

    /// <summary>Scientific names that must not be in the plan.</summary>
    public IReadOnlyList<string> Never { get; init; } = [];

    /// <summary>What a plan shown before said of taxa the user locked: seed and plugs stay exactly that.</summary>
    public IReadOnlyDictionary<string, PlantedAmount> LockedAmounts
    {
        get; init;
    } = new Dictionary<string, PlantedAmount>(StringComparer.Ordinal);

    public Method Method { get; init; } = Method.Mixed;
    public StartSeason Start { get; init; }

    /// <summary>Texture of the soil; null when nobody has felt it, and then nothing is left out for it.</summary>
    public SoilTexture? SoilTexture { get; init; }

    /// <summary>Beside a walk, drive or street: paving drains, and what stands there must be tidy.</summary>
    public bool Kerb { get; init; }

    /// <summary>Within 1.5 m of a salted kerb.</summary>
    public bool Salt { get; init; }

    /// <summary>On a septic field.</summary>
    public bool Septic { get; init; }

    /// <summary>Rabbits or deer are reported.</summary>
    public bool Browsers { get; init; }

    /// <summary>Live seeds per m² of all converted ground, bounds of one's own; null leaves the rate to the kind of ground.</summary>
    public double? FewestSeedsPerSquareMetre { get; init; }
    public double? MostSeedsPerSquareMetre { get; init; }

    /// <summary>Share of seeds, and of plugs, for grasses and sedges together, 0–1; null leaves it to the kind of ground.</summary>
    public double? LeastGrassShare { get; init; }
    public double? MostGrassShare { get; init; }

    /// <summary>Share of seeds, and of plugs, that one taxon may take, above 0 to 1; null leaves it to the taxon.</summary>
    public double? MostShareOfOne { get; init; }

    /// <summary>Number of taxa, bounds of one's own; null leaves it to the size of the ground.</summary>
    public int? FewestTaxa { get; init; }
    public int? MostTaxa { get; init; }

    /// <summary>Which half-months count and what covers one.</summary>
    public Season Season { get; init; } = Season.Default;

    /// <summary>Whether a taxon was asked for by name, or is locked.</summary>
    public bool Wants(string scientificName) => LockedAmounts.ContainsKey(scientificName)
        || MustHave.Contains(scientificName, StringComparer.Ordinal);

    /// <summary>Sum of the areas, m².</summary>
    public double SquareMetres => Areas.Sum(a => a.SquareMetres);
}

/// <summary>What the planner is told of the yard's surroundings.</summary>
/// <param name="Catalogue">All taxa with their mix traits, any order.</param>
/// <param name="StreetInFlower">Native taxa in flower on the street without this plan, 24 half-months.</param>
/// <param name="YardInFlower">The same in the yard itself.</param>
/// <param name="GrownOnStreet">Scientific names that grow on the street already.</param>
public sealed record ConversionSurroundings(
    IReadOnlyList<CatalogueTaxon> Catalogue, IReadOnlyList<int> StreetInFlower, IReadOnlyList<int> YardInFlower,
        IReadOnlySet<string> GrownOnStreet)
{
    /// <summary>Who comes to which plant; empty where there is no record, and then only bloom decides.</summary>
    public ForageIndex Forage { get; init; } = new(VisitorRecords.None, []);
}
