namespace CommonGround.Ecology.Taxa;

/// <summary>How a planted taxon spreads. Aggressive ones take ground from their neighbours.</summary>
public enum Spreading { StaysPut, Slow, AggressiveRhizome, AggressiveSeed, AggressiveBoth }

/// <summary>How long a plant lives: one or two years, two to six, longer.</summary>
public enum Longevity { AnnualBiennial, ShortLived, LongLived }

/// <summary>The part a taxon plays in a native planting; exactly one per taxon.</summary>
/// <remarks>The first five are the matrix of grasses and sedges that flowers stand in.</remarks>
public enum MixRole
{
    WarmBunch, WarmTall, CoolSeason, MatrixLow, WetMatrix, Legume, GroundForb, Seasonal, Structural, Filler, Ephemeral, Fern, Woody, Vine,
    Tree, WetForb, Weed,
}

/// <summary>How readily a taxon comes up from seed; slow ones take years to flower, or their seed is as fine as dust.</summary>
public enum FromSeed { Easy, Slow, NeedsPlugs, NotSown }

/// <summary>Why a taxon is not planted unless somebody asks for it by name; <see cref="None"/> where nothing speaks against it.</summary>
public enum AdvisedAgainst
{
    None, Weed, Tree, ComesByItself, Aggressive, AggressiveSmall, Deadly, LookalikeDeadly, LookalikePoison, LookalikePhototoxic,
    LookalikeInvasive, LookalikeNote,
    MilkPoison, Phototoxic, Sting, Irritant, Thorns, Spines, Crystals, Berries, ThistleLaw, Hemiparasite, Listed, RangeEdge, StandingWater,
    SandOnly,
}

/// <summary>Whether growers sell it.</summary>
public enum Trade { Usual, Rare, None }

/// <summary>What the ground must be, or must not be, beyond light and moisture; awns work their way into dogs.</summary>
public enum SiteNeed { None, MoistOnly, NotSand, Drained, NotDry, NeverDry, Awns }

/// <summary>What two people wrote of a trait, where they disagree: the cautious value is used, the other shown.</summary>
/// <param name="Trait">Words: "spread", "longevity", "from seed", "height".</param>
/// <param name="Used">The cautious value, in words.</param>
/// <param name="Other">The other value, in words.</param>
public sealed record DisputedTrait(string Trait, string Used, string Other);

/// <summary>What a mix of native plants needs to know of a taxon beyond the catalogue.</summary>
/// <remarks>
/// Classes and how each was got: docs/catalogue.md#traits-for-mixes. Nearly all from memory; wetland indicator and tables of nativity are
/// read.
/// </remarks>
public sealed record MixTraits
{
    /// <summary>Accepted scientific name without author.</summary>
    public required string ScientificName { get; init; }
    public required MixRole Role { get; init; }
    public Spreading Spread { get; init; }
    public Longevity Longevity { get; init; } = Longevity.LongLived;
    public FromSeed FromSeed { get; init; }

    /// <summary>Most live seeds per square foot of this taxon in a mix of 40 to 60, 0 or more; 0 is never sown.</summary>
    public double MostSeedsPerSquareFoot { get; init; }

    /// <summary>Tidy and at most 1 m: worth a place by a walk.</summary>
    public bool Kerb { get; init; }
    public AdvisedAgainst AdvisedAgainst { get; init; }
    public WetlandIndicator Wetland { get; init; }

    /// <summary>Regional tables that have it as native.</summary>
    public IReadOnlyList<string> NativeTables { get; init; } = [];

    /// <summary>Regional tables that have it as introduced.</summary>
    public IReadOnlyList<string> IntroducedTables { get; init; } = [];

    /// <summary>Height of a grown plant where the catalogue's is off, m; it goes before the catalogue's.</summary>
    public double? HeightMinMetres { get; init; }
    public double? HeightMaxMetres { get; init; }
    public Trade Trade { get; init; }
    public SiteNeed Site { get; init; }

    /// <summary>Stands road salt.</summary>
    public bool Salt { get; init; }

    /// <summary>Rabbits, deer and voles take it first.</summary>
    public bool Browsed { get; init; }

    /// <summary>Kinds of plant community it grows in, as the list words them: dry_prairie, savanna, woodland …</summary>
    public IReadOnlyList<string> Communities { get; init; } = [];
    public string Notes { get; init; } = "";

    /// <summary>"from memory" or "read": where the row's values come from.</summary>
    public string Basis { get; init; } = "from memory";
    public IReadOnlyList<DisputedTrait> Disputed { get; init; } = [];

    /// <summary>Grasses, sedges and rushes of the matrix.</summary>
    public bool IsGrass => Role <= MixRole.WetMatrix;

    /// <summary>Spreads by rhizome, by seed or both.</summary>
    public bool IsAggressive => Spread >= Spreading.AggressiveRhizome;

    /// <summary>Obligate or facultative wetland plant.</summary>
    public bool IsWetland => Wetland is WetlandIndicator.Obligate or WetlandIndicator.FacultativeWetland;
}
