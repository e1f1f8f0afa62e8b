using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>One taxon in one yard: cover summed over beds.</summary>
/// <param name="Taxon">Index into <see cref="CommunityMatrix.Taxa"/>.</param>
/// <param name="CoverSquareMetres">All cover, m², above 0.</param>
/// <param name="CertainSquareMetres">The part whose identification is not tentative, m², 0 to <paramref name="CoverSquareMetres"/>.</param>
public readonly record struct Presence(int Taxon, double CoverSquareMetres, double CertainSquareMetres)
{
    /// <summary>Everything known of it here is an old sighting: nobody has seen it since before the last whole season. See
    /// <see cref="PresenceRule"/>.</summary>
    public bool Old { get; init; }
}

/// <summary>A yard's row of the community matrix.</summary>
/// <param name="YardId">The caller's key.</param>
/// <param name="Block">Index into <see cref="CommunityMatrix.Blocks"/>.</param>
/// <param name="Latitude">Degrees north.</param>
/// <param name="Longitude">Degrees east.</param>
/// <param name="Shared">The household lets the yard appear in public roll-ups.</param>
/// <param name="Presences">At most one entry per taxon, any order.</param>
public sealed record YardCommunity(long YardId, int Block, double Latitude, double Longitude, bool Shared, Presence[] Presences);

/// <summary>A block: one street between two crossings.</summary>
/// <param name="BlockId">The caller's key.</param>
/// <param name="Name">Unique within its street.</param>
/// <param name="Street">Index into <see cref="CommunityMatrix.Streets"/>.</param>
/// <param name="Latitude">Of its middle, degrees north.</param>
/// <param name="Longitude">Of its middle, degrees east.</param>
public sealed record BlockSite(long BlockId, string Name, int Street, double Latitude, double Longitude);

/// <summary>A street.</summary>
public sealed record StreetSite(long StreetId, string Name);

/// <summary>An unwanted taxon at a place, as of the matrix's date (closed ones are left out).</summary>
/// <param name="Taxon">Index into <see cref="CommunityMatrix.Taxa"/>.</param>
/// <param name="Latitude">Degrees north.</param>
/// <param name="Longitude">Degrees east.</param>
/// <param name="AreaSquareMetres">Infested area, m², above 0.</param>
/// <param name="Cover">Share of the area covered, 0–1.</param>
/// <param name="GrowthStage">BBCH principal stage 0–9, or null when unknown.</param>
/// <param name="YardId">The yard it lies in, or null when only its block is known.</param>
/// <param name="Block">Index of its block, or −1.</param>
public sealed record Infestation(int Taxon, double Latitude, double Longitude, double AreaSquareMetres, double Cover, int? GrowthStage,
    long? YardId, int Block);

/// <summary>The community matrix: yards × taxa, cover m², with the places that group yards, as of a date. Immutable.</summary>
/// <param name="AsOf">The day it describes.</param>
/// <param name="Taxa">The catalogue rows that occur; presences and infestations point into this list.</param>
/// <param name="Streets">Streets, any order; blocks point into this list.</param>
/// <param name="Blocks">Blocks, any order; yards and infestations point into this list.</param>
/// <param name="Yards">One row per yard, any order, empty yards included; no yard twice.</param>
/// <param name="Infestations">Open infestations, one per place and taxon.</param>
/// <remarks>
/// Every measure is a pure function of this, of the taxa in it, a <see cref="Phenology.Season"/> and a date. Infestations that lie in a
/// yard are already in that yard's row (the larger of planting and area × cover). Two matrices are equal only when they are the same
/// object: nobody wants a million rows compared by accident.
/// </remarks>
public sealed record CommunityMatrix(
    DateOnly AsOf,
    IReadOnlyList<CatalogueTaxon> Taxa,
    IReadOnlyList<StreetSite> Streets,
    IReadOnlyList<BlockSite> Blocks,
    IReadOnlyList<YardCommunity> Yards,
    IReadOnlyList<Infestation> Infestations)
{
    private SiteIndex? _index;
    private TaxonTraits? _traits;
    private YardCommunity[]? _rows;

    // A copy made by "with" may differ in any list, so it starts without what was worked out from them.
    private CommunityMatrix(CommunityMatrix original)
    {
        AsOf = original.AsOf;
        Taxa = original.Taxa;
        Streets = original.Streets;
        Blocks = original.Blocks;
        Yards = original.Yards;
        Infestations = original.Infestations;
    }

    internal SiteIndex Index => _index ??= SiteIndex.Of(this);

    internal TaxonTraits Traits => _traits ??= TaxonTraits.Of(Taxa);

    internal YardCommunity[] Rows => _rows ??= Yards as YardCommunity[] ?? [.. Yards];

    /// <summary>The matrix after one yard changed: its row is replaced, or added when the yard is new. The original stays as it
    /// was.</summary>
    /// <param name="yard">The yard's whole new row.</param>
    /// <remarks>Copies one array of references; what was worked out about places is kept unless the yard is new or moved to another
    /// block.</remarks>
    public CommunityMatrix With(YardCommunity yard)
    {
        ArgumentNullException.ThrowIfNull(yard);
        if (PositionOf(yard.YardId) is not { } position)
        {
            return this with { Yards = [.. Rows, yard], _traits = _traits };
        }

        var rows = (YardCommunity[])Rows.Clone();
        var moved = rows[position].Block != yard.Block;
        rows[position] = yard;
        return this with { Yards = rows, _traits = _traits, _index = moved ? null : _index };
    }

    /// <summary>Where a yard stands in <see cref="Yards"/>, or <c>null</c> when it is not there.</summary>
    public int? PositionOf(long yardId) => Index.PositionOf(yardId);

    /// <summary>Positions in <see cref="Yards"/> of the yards of a block, by yard id.</summary>
    /// <param name="block">Index into <see cref="Blocks"/>.</param>
    public IReadOnlyList<int> YardsOfBlock(int block) => Index.YardsByBlock.Of(block);

    /// <summary>Positions in <see cref="Yards"/> of the yards of a street, by block and yard id.</summary>
    /// <param name="street">Index into <see cref="Streets"/>.</param>
    public IReadOnlyList<int> YardsOfStreet(int street) => Index.YardsByStreet.Of(street);

    /// <summary>Indices in <see cref="Blocks"/> of the blocks of a street, ascending.</summary>
    /// <param name="street">Index into <see cref="Streets"/>.</param>
    public IReadOnlyList<int> BlocksOfStreet(int street) => Index.BlocksByStreet.Of(street);

    /// <summary>Whether it is the very same matrix.</summary>
    public bool Equals(CommunityMatrix? other) => ReferenceEquals(this, other);

    /// <summary>A hash code of the object, not of its rows.</summary>
    public override int GetHashCode() => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(this);
}
