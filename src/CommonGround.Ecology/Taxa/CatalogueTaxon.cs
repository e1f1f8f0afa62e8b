using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Taxa;

/// <summary>One row of the plant catalogue: what is known of a species or lower rank, each group of values with its source.</summary>
/// <remarks><c>null</c> and empty lists mean "not known", never zero. Units end the names.</remarks>
public sealed record CatalogueTaxon
{
    /// <summary>Accepted scientific name without author, for example <c>Echinacea pallida</c>.</summary>
    public required string ScientificName { get; init; }
    public string Authority { get; init; } = "";
    public string Rank { get; init; } = "species";
    public IReadOnlyList<string> Synonyms { get; init; } = [];
    public IReadOnlyList<string> CommonNames { get; init; } = [];
    public string Family { get; init; } = "";
    public Nativity Nativity { get; init; }

    /// <summary>Coefficient of conservatism, 0–10, in <see cref="CRegion"/>; native taxa only.</summary>
    public double? C { get; init; }
    public string CRegion { get; init; } = "";
    public LifeForm LifeForm { get; init; }

    /// <summary>annual, biennial or perennial, as the source words it.</summary>
    public string Duration { get; init; } = "";
    public double? HeightMinMetres { get; init; }
    public double? HeightMaxMetres { get; init; }
    public IReadOnlyList<Light> Light { get; init; } = [];
    public IReadOnlyList<Moisture> Moisture { get; init; } = [];

    /// <summary>When it flowers for pollinators; <c>null</c> for grasses, sedges and where no source was found.</summary>
    public BloomWindow? Bloom { get; init; }
    public string BloomPlace { get; init; } = "";
    public string FlowerColour { get; init; } = "";

    /// <summary>Pollinator value 0–1; see docs/catalogue.md for how it is derived.</summary>
    public double? PollinatorValue { get; init; }
    public IReadOnlyList<string> PollinatorGroups { get; init; } = [];
    public string CaterpillarHosts { get; init; } = "";
    public string SeedForBirds { get; init; } = "";
    public double? SeedsPerGram { get; init; }

    /// <summary>Distance between plugs, centre to centre.</summary>
    public double? SpacingMetres { get; init; }
    public string Toxicity { get; init; } = "";

    /// <summary>Caution for people and animals, look-alikes included, in full sentences.</summary>
    public string Caution { get; init; } = "";
    public ImpactRank ImpactRank { get; init; }
    public double? DispersalMetres { get; init; }
    public double? SeedbankHalfLifeYears { get; init; }

    /// <summary>First half-month in which it is usually controlled, 0–23.</summary>
    public int? ControlStart { get; init; }
    public int? ControlEnd { get; init; }

    /// <summary>Column group (the part after <c>source_</c>) → where its values come from.</summary>
    public IReadOnlyDictionary<string, string> Sources { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>The first common name, or the scientific name where there is none.</summary>
    public string DisplayName => CommonNames.Count > 0 ? CommonNames[0] : ScientificName;
}
