using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>One taxon in one yard: cover summed over beds.</summary>
/// <param name="Taxon">Index into <see cref="CommunityMatrix.Taxa"/>.</param>
/// <param name="CoverSquareMetres">All cover, m², above 0.</param>
/// <param name="CertainSquareMetres">The part whose identification is not tentative, m², 0 to <paramref name="CoverSquareMetres"/>.</param>
public readonly record struct Presence(int Taxon, double CoverSquareMetres, double CertainSquareMetres);

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
public sealed record Infestation(int Taxon, double Latitude, double Longitude, double AreaSquareMetres, double Cover, int? GrowthStage, long? YardId, int Block);

/// <summary>The community matrix: yards × taxa, cover m², with the places that group yards, as of a date. Immutable.</summary>
/// <remarks>
/// Every measure is a pure function of this, of the taxa in it, a <see cref="Phenology.Season"/> and a date. Infestations that lie in a
/// yard are already in that yard's row (the larger of planting and area × cover).
/// </remarks>
public sealed record CommunityMatrix(
    DateOnly AsOf,
    IReadOnlyList<CatalogueTaxon> Taxa,
    IReadOnlyList<StreetSite> Streets,
    IReadOnlyList<BlockSite> Blocks,
    IReadOnlyList<YardCommunity> Yards,
    IReadOnlyList<Infestation> Infestations);
