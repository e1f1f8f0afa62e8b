using System.Text.Json.Serialization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Taxa;

/// <summary>One row of the plant catalogue: what is known of a species or lower rank, each group of values with its source.</summary>
/// <remarks><c>null</c> and empty lists mean "not known", never zero. Units end the names.</remarks>
public sealed record CatalogueTaxon
{
    /// <summary>Accepted scientific name without author, for example <c>Echinacea pallida</c>.</summary>
    public required string ScientificName { get; init; }

    /// <summary>Who named it, as botanists abbreviate it.</summary>
    public string Authority { get; init; } = "";

    /// <summary>species, subspecies or variety; of a name recorded without the catalogue also <see cref="RecordedRank"/>.</summary>
    public string Rank { get; init; } = "species";

    /// <summary>Other scientific names it goes by; a walk sheet may use any of them.</summary>
    public IReadOnlyList<string> Synonyms { get; init; } = [];

    /// <summary>English names, the usual one first.</summary>
    public IReadOnlyList<string> CommonNames { get; init; } = [];

    /// <summary>Botanical family, for example <c>Asteraceae</c>.</summary>
    public string Family { get; init; } = "";

    /// <summary>Native or introduced in the region; unknown only when unlisted.</summary>
    public Nativity Nativity { get; init; }

    /// <summary>Coefficient of conservatism, 0–10, in <see cref="CRegion"/>; native taxa only.</summary>
    public double? C { get; init; }

    /// <summary>Region whose botanists gave <see cref="C"/>.</summary>
    public string CRegion { get; init; } = "";

    /// <summary>What a second regional table says of its nativity; unknown where none has the taxon.</summary>
    public Nativity NativitySecond { get; init; }

    /// <summary>Coefficient of conservatism in <see cref="RegionSecond"/>, 0–10; never mixed into a mean with <see cref="C"/>.</summary>
    public double? CSecond { get; init; }

    /// <summary>The second regional table.</summary>
    public string RegionSecond { get; init; } = "";

    /// <summary>Growth form.</summary>
    public LifeForm LifeForm { get; init; }

    /// <summary>annual, biennial or perennial, as the source words it.</summary>
    public string Duration { get; init; } = "";

    /// <summary>Usual height of a grown plant, lower end, m.</summary>
    public double? HeightMinMetres { get; init; }

    /// <summary>Usual height of a grown plant, upper end, m.</summary>
    public double? HeightMaxMetres { get; init; }

    /// <summary>The upper end of its height as a second source gives it, m; see <see cref="SecondSource"/>.</summary>
    public double? HeightSecondMetres { get; init; }

    /// <summary>The height that a limit must reckon with, m: the taller of the two sources where they disagree, else
    /// <see cref="HeightMaxMetres"/>.</summary>
    [JsonIgnore]
    public double? HeightForLimits => SecondSource.ForLimits(HeightMaxMetres, HeightSecondMetres);

    /// <summary>Light it thrives in; empty when not known.</summary>
    public IReadOnlyList<Light> Light { get; init; } = [];

    /// <summary>Soil moisture it thrives in; empty when not known.</summary>
    public IReadOnlyList<Moisture> Moisture { get; init; } = [];

    /// <summary>How often it grows in wetlands, by the regional table.</summary>
    public WetlandIndicator WetlandIndicator { get; init; }

    /// <summary>Kinds of vegetation it belongs to; empty when not known.</summary>
    public IReadOnlyList<PlantCommunity> Communities { get; init; } = [];

    /// <summary>When it flowers for pollinators; <c>null</c> for grasses, sedges and where no source was found.</summary>
    public BloomWindow? Bloom { get; init; }

    /// <summary>What <see cref="Bloom"/> rests on in this group and year.</summary>
    [JsonIgnore]
    public BloomBasis BloomBasis { get; init; }

    /// <summary>The usual window at the group's place, before its own records and this year's warmth; <c>null</c> where nobody moved
    /// it.</summary>
    [JsonIgnore]
    public BloomWindow? UsualBloom { get; init; }

    /// <summary>The window that the group's own records give, before this year's warmth; <c>null</c> where there are too few or the group
    /// does not use them.</summary>
    [JsonIgnore]
    public OwnBloomWindow? OwnBloom { get; init; }

    /// <summary>How much later this year's warmth makes it flower, days; <c>null</c> where no temperatures are given.</summary>
    [JsonIgnore]
    public int? WarmthDays { get; init; }

    /// <summary>Where <see cref="Bloom"/> was observed: the reference place for Hopkins' law.</summary>
    public string BloomPlace { get; init; } = "";

    /// <summary>When a published flora has it in flower; whole months. See <see cref="SecondSource"/>.</summary>
    public BloomWindow? BloomSecond { get; init; }

    /// <summary>As the source words it.</summary>
    public string FlowerColour { get; init; } = "";

    /// <summary>Pollinator value 0–1; see docs/catalogue.md for how it is derived.</summary>
    public double? PollinatorValue { get; init; }

    /// <summary>Lower end of an estimated value, 0–1; <c>null</c> where <see cref="PollinatorValue"/> was observed.</summary>
    public double? PollinatorLow { get; init; }

    /// <summary>Upper end of an estimated value, 0–1; <c>null</c> where <see cref="PollinatorValue"/> was observed.</summary>
    public double? PollinatorHigh { get; init; }

    /// <summary>Nobody studied the plant itself; its value is that of its relatives, <see cref="PollinatorEstimate"/>.</summary>
    [JsonIgnore]
    public bool IsPollinatorEstimated => PollinatorLow is not null;

    /// <summary>Groups of visitors recorded on its flowers.</summary>
    public IReadOnlyList<string> PollinatorGroups { get; init; } = [];

    /// <summary>What is known of caterpillars that feed on it.</summary>
    public string CaterpillarHosts { get; init; } = "";

    /// <summary>What is known of birds that eat its seed.</summary>
    public string SeedForBirds { get; init; } = "";

    /// <summary>Seeds in a gram of clean seed, above 0.</summary>
    public double? SeedsPerGram { get; init; }

    /// <summary>Distance between plugs, centre to centre.</summary>
    public double? SpacingMetres { get; init; }

    /// <summary>What is poisonous or irritating, in a few words.</summary>
    public string Toxicity { get; init; } = "";

    /// <summary>Whom it harms and how, the gravest first; read it through <see cref="ToxicityGrades"/>.</summary>
    public IReadOnlyList<ToxicityClass> ToxicityClasses { get; init; } = [];

    /// <summary>Caution for people and animals, look-alikes included, in full sentences.</summary>
    public string Caution { get; init; } = "";

    /// <summary>Scientific names of plants it is taken for where one of the two does harm; each of them names it back.</summary>
    public IReadOnlyList<string> LookAlikes { get; init; } = [];

    /// <summary>Harm to native vegetation, for unwanted plants.</summary>
    public ImpactRank ImpactRank { get; init; }

    /// <summary>Dispersal distance λ of invasive pressure, m, above 0.</summary>
    public double? DispersalMetres { get; init; }

    /// <summary>Time in which half of its seed in the soil dies, years, above 0.</summary>
    public double? SeedbankHalfLifeYears { get; init; }

    /// <summary>First half-month in which it is usually controlled, 0–23.</summary>
    public int? ControlStart { get; init; }

    /// <summary>Last half-month in which it is usually controlled, 0–23.</summary>
    public int? ControlEnd { get; init; }

    /// <summary>How it stands at the group's place; null where no place is given or nothing regional is published. Not stored: it follows
    /// from the place.</summary>
    [JsonIgnore]
    public Regions.RegionalStatus? Regional { get; init; }

    /// <summary>What a mix needs to know of it; null for a taxon that is not offered by itself. Not stored with the catalogue.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public MixTraits? Mix { get; init; }

    /// <summary>Column group (the part after <c>source_</c>) → where its values come from.</summary>
    public IReadOnlyDictionary<string, string> Sources { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>Came into the catalogue for states other than Illinois: not yet drawn, and not grown in the invented neighbourhood of
    /// northern Illinois.</summary>
    [JsonIgnore]
    public bool IsAddedForOtherStates => Sources.GetValueOrDefault("name", "").StartsWith("added for the other states",
    StringComparison.Ordinal);

    /// <summary>The first common name, or the scientific name where there is none; a genus whose species nobody told is marked
    /// sp.</summary>
    public string DisplayName => CommonNames.Count > 0 ? CommonNames[0] : Rank == RecordedRank.Genus ? $"{ScientificName} sp."
        : ScientificName;
}
