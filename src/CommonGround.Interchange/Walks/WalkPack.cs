using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Walks;

/// <summary>What a phone takes along of itself: whose it is, which day it was, and the yards they may record in. Small, because it is read
/// at every start.</summary>
/// <param name="MemberId">Who it was made for; null where they are no member.</param>
/// <param name="MadeFor">What the record calls them.</param>
/// <param name="NeighbourhoodId">Where it belongs: one site may serve several.</param>
/// <param name="ServerUtc">When the site made it, by the site's clock.</param>
/// <param name="Today">The group's day then.</param>
/// <param name="CatalogueVersion">Changes when a name does.</param>
/// <param name="Stamp">Number of the newest change: while it stays, the yards need not be taken again.</param>
/// <param name="Customary">US customary units instead of metric.</param>
/// <param name="Yards">Where they may record.</param>
public sealed record WalkPack(long? MemberId, string MadeFor, int NeighbourhoodId, DateTime ServerUtc, DateOnly Today,
    string CatalogueVersion, long Stamp, bool Customary,
    IReadOnlyList<WalkPlace> Yards);

/// <summary>A yard on the list of yards.</summary>
public sealed record WalkPlace(string Code, string Street, int Plantings, DateOnly? LastWalk);

/// <summary>What grew in a yard last. Each is kept by itself: a phone reads a megabyte of JSON in seconds, one yard in no time.</summary>
public sealed record WalkYard(string Code, double AreaSquareMetres, IReadOnlyList<WalkBed> Beds, IReadOnlyList<WalkUnwantedKnown> Unwanted);

/// <summary>A bed with its plantings in the order of the walk.</summary>
public sealed record WalkBed(long Id, string Name, double? AreaSquareMetres, IReadOnlyList<WalkPlant> Plants);

/// <summary>A planting as it was last seen.</summary>
/// <param name="SightingId">The sighting it was last seen in: where it was renamed or moved since, the site finds it by that.</param>
/// <param name="Taxon">Scientific name.</param>
/// <param name="Bloom">When it is usually in flower here; null where nobody knows, and for grasses and sedges.</param>
/// <param name="Caution">What to take care of at this plant; empty for most.</param>
/// <param name="Old">Nobody has seen it since before the last whole season.</param>
public sealed record WalkPlant(long SightingId, string Taxon, string CommonName, string Patch, DateOnly SeenOn, double CoverSquareMetres,
    int? Count, int? GrowthStage,
    Certainty Certainty, string Qualifier, string Place, BloomWindow? Bloom, string Caution, bool Old)
{
    /// <summary>When somebody last looked for it and did not find it, if that was since.</summary>
    public DateOnly? NotFoundOn { get; init; }
}

/// <summary>An unwanted plant that stands in the yard by the record.</summary>
public sealed record WalkUnwantedKnown(string Taxon, string CommonName, double AreaSquareMetres, double CoverPercent, int? GrowthStage,
    DateOnly SeenOn);

/// <summary>The names of a taxon, and what a walker needs to know of it before touching it.</summary>
/// <param name="Impact">Unranked for plants that are not unwanted.</param>
/// <param name="ControlStart">First half-month in which it is usually controlled, 0–23.</param>
/// <param name="ControlEnd">Last such half-month.</param>
public sealed record WalkTaxon(string ScientificName, IReadOnlyList<string> CommonNames, IReadOnlyList<string> Synonyms, string Family,
    BloomWindow? Bloom, string Caution,
    IReadOnlyList<string> LookAlikes, ImpactRank Impact, bool IsUnwanted, int? ControlStart, int? ControlEnd)
{
    /// <summary>The catalogue's row as far as the index of names needs it.</summary>
    public CatalogueTaxon ToTaxon() => new()
    {
        ScientificName = ScientificName,
        CommonNames = CommonNames,
        Synonyms = Synonyms,
        Family = Family,
        Bloom = Bloom,
        Caution = Caution,
        LookAlikes = LookAlikes,
        ImpactRank = Impact,
        ControlStart = ControlStart,
        ControlEnd = ControlEnd,
    };

    /// <summary>As the phone takes it along.</summary>
    /// <param name="taxon">The catalogue's row, as it holds at the group's place.</param>
    /// <param name="cautions">Whether its caution is told: of every plant on the list of unwanted ones, and of those that do harm.</param>
    public static WalkTaxon Of(CatalogueTaxon taxon, bool cautions)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var unwanted = taxon is { Nativity: Nativity.Introduced, ControlStart: not null } or { ImpactRank: not ImpactRank.Unranked };
        return new(taxon.ScientificName, taxon.CommonNames, taxon.Synonyms, taxon.Family, taxon.Bloom, cautions || unwanted ? taxon.Caution
            : "", unwanted ? taxon.LookAlikes : [],
            taxon.ImpactRank, unwanted, taxon.ControlStart, taxon.ControlEnd);
    }
}
