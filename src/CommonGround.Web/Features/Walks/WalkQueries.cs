using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Reads what a phone takes along: the yards somebody may record in, and the catalogue's names.</summary>
public sealed class WalkQueries(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live, GroupClock clock)
{
    public async Task<WalkPack> PackAsync(CurrentUser currentUser, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var loaded = await live.LoadedAsync(cancel);
        var blocks = await db.Blocks.Select(b => new
        {
            b.Id,
            Street = db.Streets.Where(s => s.Id == b.StreetId).Select(s => s.Name)
            .First()
        })
            .ToDictionaryAsync(b => b.Id, b => b.Street, cancel);
        var walks = await db.Sightings.Where(s => s.ObservedOn <= clock.Today).GroupBy(s => s.YardId)
            .Select(g => new { g.Key, Last = g.Max(s => s.ObservedOn) })
            .ToDictionaryAsync(g => g.Key, g => g.Last, cancel);
        var yards = await Recordable(db, currentUser).OrderBy(y => y.Code).Select(y => new { y.Id, y.Code, y.BlockId }).ToListAsync(cancel);
        var places = yards.ConvertAll(y => new WalkPlace(y.Code, blocks[y.BlockId],
            loaded.Matrix.PositionOf(y.Id) is { } at ? loaded.Matrix.Yards[at].Presences.Length : 0, walks.TryGetValue(y.Id, out var last)
                ? last : null));
        return new(currentUser.MemberId, currentUser.Name, neighbourhood.Id, clock.UtcNow, clock.Today, Version(loaded), loaded.Stamp,
            currentUser.Customary, places);
    }

    /// <summary>One line a yard: the key under which the phone keeps it, a tab, the yard.</summary>
    public async Task<string> YardLinesAsync(CurrentUser currentUser, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var mine = Recordable(db, currentUser);
        var yards = await mine.OrderBy(y => y.Code).Select(y => new { y.Id, y.Code, y.AreaSquareMetres }).ToListAsync(cancel);
        var beds = (await db.Beds.AsNoTracking().Where(b => mine.Any(y => y.Id == b.YardId)).OrderBy(b => b.Name).ToListAsync(cancel))
            .ToLookup(b => b.YardId);
        var seen = await db.Sightings.AsNoTracking().Where(s => s.ObservedOn <= clock.Today && mine.Any(y => y.Id == s.YardId))
            .ToListAsync(cancel);
        var unwanted = (await db.Infestations.AsNoTracking().Where(i => i.ObservedOn <= clock.Today && mine.Any(y => y.Id == i.YardId))
            .ToListAsync(cancel))
            .GroupBy(i => (i.YardId, i.TaxonId)).Select(g => g.OrderBy(i => i.ObservedOn).ThenBy(i => i.Id).Last())
                .Where(i => i.AreaSquareMetres > 0).ToLookup(i => i.YardId);
        // After the rows: the matrix then knows at least what they name.
        var loaded = await live.LoadedAsync(cancel);
        var standing = StillPresent.Of(loaded.Matrix.Taxa, clock.Today, loaded.Rules);
        var plants = seen.GroupBy(s => (s.BedId, s.TaxonId, s.Patch))
            .Select(g => (Last: g.Where(s => s.Finding != Finding.NotFound).MaxBy(s => s.ObservedOn), Looked: g.Max(s => s.ObservedOn)))
            .Where(p => p.Last is { CoverSquareMetres: > 0 }).ToLookup(p => p.Last!.BedId, p => Plant(loaded, standing, p.Last!, p.Looked));
        var lines = new StringBuilder();
        foreach (var yard in yards)
        {
            WalkYard taken = new(yard.Code, yard.AreaSquareMetres,
                [.. beds[yard.Id].Select(b => new WalkBed(b.Id, b.Name, b.AreaSquareMetres,
                    [.. plants[b.Id].OrderBy(p => p.Taxon, StringComparer.Ordinal)]))],
                [.. unwanted[yard.Id].Select(i => Unwanted(loaded, i))]);
            lines.Append("yard ").Append(yard.Code).Append('\t').Append(JsonSerializer.Serialize(taken, WalkJson.Default.WalkYard))
                .Append('\n');
        }

        return lines.ToString();
    }

    public async Task<List<WalkTaxon>> NamesAsync(CancellationToken cancel) => Names(await live.LoadedAsync(cancel));

    private static List<WalkTaxon> Names(LoadedCommunity loaded) =>
        [.. loaded.Matrix.Taxa.Select(t => WalkTaxon.Of(t, cautions: ToxicityGrades.Gravest(t) is not null))];

    private static string Version(LoadedCommunity loaded) =>
        Convert.ToHexString(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(Names(loaded), WalkJson.Default.ListWalkTaxon)))[..12];

    private static WalkPlant Plant(LoadedCommunity loaded, StillPresent standing, Sighting s, DateOnly looked)
    {
        var at = loaded.TaxonIndex[s.TaxonId];
        var taxon = loaded.Matrix.Taxa[at];
        return new(s.Id, taxon.ScientificName, taxon.DisplayName, s.Patch, s.ObservedOn, s.CoverSquareMetres, s.Count, s.GrowthStage,
            s.Certainty, s.Qualifier, s.PlaceInBed,
            taxon.Bloom, ToxicityGrades.Gravest(taxon) is null ? "" : taxon.Toxicity, standing.IsOld(s.ObservedOn)
                || !standing.Counts(at, s.ObservedOn))
        {
            NotFoundOn = looked > s.ObservedOn ? looked : null,
        };
    }

    private static WalkUnwantedKnown Unwanted(LoadedCommunity loaded, Storage.Infestations.InfestationRecord i)
    {
        var taxon = loaded.Matrix.Taxa[loaded.TaxonIndex[i.TaxonId]];
        return new(taxon.ScientificName, taxon.DisplayName, i.AreaSquareMetres, i.CoverPercent, i.GrowthStage, i.ObservedOn);
    }

    private static IQueryable<Yard> Recordable(CommonGroundDb db, CurrentUser currentUser)
    {
        var member = currentUser.Role == Role.Member ? currentUser.MemberId : null;
        return currentUser.MayOrganise ? db.Yards.AsNoTracking()
            : db.Yards.AsNoTracking().Where(y => member != null && y.OwnerId == member);
    }
}
