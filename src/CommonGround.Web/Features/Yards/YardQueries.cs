using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>A planting: the latest sighting of a taxon in a bed.</summary>
public sealed record PlantingLine(CatalogueTaxon Taxon, double CoverSquareMetres, Origin Origin, Certainty Certainty, string Qualifier,
    int? GrowthStage, DateOnly ObservedOn, string Observer, bool CoverDerived)
{
    /// <summary>The sighting it was last seen growing in.</summary>
    public long SightingId { get; init; }
    public string Patch { get; init; } = "";
    public int? Count { get; init; }
    public string VerifiedBy { get; init; } = "";

    /// <summary>Nobody has seen it since before the last whole season.</summary>
    public bool Old { get; init; }

    /// <summary>When somebody last looked for it and did not find it, if that was since.</summary>
    public DateOnly? NotFoundOn { get; init; }
}

public sealed record BedView(long Id, string Name, double? AreaSquareMetres, Light? Light, Moisture? Moisture, DateOnly? EstablishedOn,
    Guid Version, IReadOnlyList<PlantingLine> Plantings)
{
    /// <summary>Not seen for so many seasons that the group's rule no longer counts them; they have not ended either.</summary>
    public IReadOnlyList<PlantingLine> Unseen { get; init; } = [];
}

public sealed record YardFacts(long Id, string Code, string Street, string Block, long BlockId, double AreaSquareMetres,
    double? LawnSquareMetres, Light? Light, Moisture? Moisture, SoilGroup? SoilGroup, string Household, bool Shared, long? OwnerId)
{
    public bool OnMap { get; init; }
    public bool PhotosShared { get; init; }
    public bool OnTour { get; init; }
    public bool WouldPlant { get; init; }

    /// <summary>How guests of a tour find it, and what the steward says there.</summary>
    public string Directions { get; init; } = "";
    public string TourLine { get; init; } = "";

    /// <summary>Counts in the public's figures by now: it shares, and the block's yards were taken up.</summary>
    public bool InPublic { get; init; }
    public Guid Version { get; init; }

    /// <summary>The facts as a form begins with them; the exact spot stays unless somebody gives another.</summary>
    public YardDraft Draft() => new()
    {
        BlockId = BlockId,
        Code = Code,
        AreaSquareMetres = AreaSquareMetres,
        LawnSquareMetres = LawnSquareMetres,
        Light = Light,
        Moisture = Moisture,
        SoilGroup = SoilGroup,
        Household = Household,
        Beds = [],
    };
}

/// <summary>One season's figures of a yard, as of its last day (or today).</summary>
public sealed record YardSeason(DateOnly AsOf, SiteMeasures Measures, double CoverSquareMetres);

public sealed record YardView(YardFacts Facts, IReadOnlyList<BedView> Beds, SiteMeasures Measures, IReadOnlyList<YardSeason> History,
    IReadOnlyList<(CatalogueTaxon Taxon, double AreaSquareMetres, double CoverPercent, DateOnly ObservedOn)> Infestations,
        DateOnly? LastWalk, Season Season);

public sealed record YardListLine(string Code, string Street, string Block, int Beds, int NativeTaxa, int LateCovered, int SeasonCovered,
    double CoverSquareMetres, DateOnly? LastWalk, bool Shared);

/// <summary>Reads yards, for those who may see them.</summary>
public sealed class YardQueries(NeighbourhoodDatabase database, LiveCommunity live, CommunityQueries community, GroupClock clock)
{
    /// <summary>A page shows no more past seasons than these.</summary>
    private const int SeasonsShown = 10;

    /// <summary>The yards a reader may open, with their figures.</summary>
    public async Task<IReadOnlyList<YardListLine>> ListAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await Visible(db, currentUser).Select(y => new { y.Id, y.Code, y.BlockId, y.Shared }).ToListAsync(cancel);
        var beds = await db.Beds.GroupBy(b => b.YardId).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key,
            g => g.Count, cancel);
        var walks = await db.Sightings.Where(s => s.ObservedOn <= clock.Today).GroupBy(s => s.YardId)
            .Select(g => new { g.Key, Last = g.Max(s => s.ObservedOn) }).ToDictionaryAsync(g => g.Key, g => g.Last, cancel);
        var figures = await live.FiguresAsync(organiser: true, cancel);
        var matrix = figures.Matrix;
        return [.. yards.Select(y =>
        {
            var at = matrix.PositionOf(y.Id)!.Value;
            var site = SiteMeasures.Of(SiteCommunity.Of([matrix.Yards[at]]), matrix.Taxa, figures.Season, null);
            var block = matrix.Blocks[matrix.Yards[at].Block];
            return new YardListLine(y.Code, matrix.Streets[block.Street].Name, block.Name, beds.GetValueOrDefault(y.Id),
                site.NativeRichness, figures.LateCovered(site), figures.SeasonCovered(site),
                matrix.Yards[at].Presences.Sum(p => p.CoverSquareMetres), walks.TryGetValue(y.Id, out var last) ? last : null, y.Shared);
        }).OrderBy(y => y.Street, StringComparer.Ordinal).ThenBy(y => y.Code, StringComparer.Ordinal)];
    }

    /// <summary>One yard whole; null when there is none of that code or the reader may not see it.</summary>
    public async Task<YardView?> GetAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await Visible(db, currentUser).SingleOrDefaultAsync(y => y.Code == code, cancel);
        if (yard is null)
        {
            return null;
        }

        var block = await db.Blocks.SingleAsync(b => b.Id == yard.BlockId, cancel);
        var street = await db.Streets.SingleAsync(s => s.Id == block.StreetId, cancel);
        var beds = await BedsAsync(db, yard.Id, cancel);
        var open = await db.Infestations.Where(i => i.YardId == yard.Id && i.ObservedOn <= clock.Today).ToListAsync(cancel);
        // After the rows: the matrix then knows at least what they name.
        var loaded = await live.LoadedAsync(cancel);
        var matrix = loaded.Matrix;
        if (matrix.PositionOf(yard.Id) is not { } at)
        {
            return null; // Taken out while it was read.
        }

        var measures = CommunityMeasures.OfYard(matrix, at, loaded.Rules.Season, loaded.Rules.Pressure);
        if (!currentUser.MayOrganise)
        {
            var seen = await live.FiguresAsync(organiser: false, cancel);
            measures = measures with { InvasivePressureSquareMetres = PublicView.PressureOn(matrix, matrix.Yards[at], seen) };
        }

        var infestations = open.GroupBy(i => i.TaxonId).Select(g => g.OrderBy(i => i.ObservedOn).ThenBy(i => i.Id).Last())
            .Where(i => i.AreaSquareMetres > 0)
            .Select(i => (matrix.Taxa[loaded.TaxonIndex[i.TaxonId]], i.AreaSquareMetres, i.CoverPercent, i.ObservedOn)).ToList();
        var facts = new YardFacts(yard.Id, yard.Code, street.Name, block.Name, block.Id, yard.AreaSquareMetres, yard.LawnSquareMetres,
            yard.Light, yard.Moisture, yard.SoilGroup, yard.Household, yard.Shared, yard.OwnerId)
        {
            OnMap = yard.OnMap,
            PhotosShared = yard.PhotosShared,
            OnTour = yard.OnTour,
            WouldPlant = yard.WouldPlant,
            Directions = yard.Directions,
            TourLine = yard.TourLine,
            Version = yard.Version,
            InPublic = matrix.Yards[at].Shared
        };
        var last = beds.SelectMany(b => b.Plantings).Select(p => (DateOnly?)p.ObservedOn).Max();
        return new YardView(facts, beds, measures, await HistoryAsync(loaded, yard.Id, measures, cancel), infestations, last,
            loaded.Rules.Season);
    }

    /// <summary>What grows in each bed of a yard; null when there is none of that code or the reader may not see it.</summary>
    public async Task<IReadOnlyList<BedView>?> BedsAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await Visible(db, currentUser).Where(y => y.Code == code).Select(y => (long?)y.Id).SingleOrDefaultAsync(cancel);
        return yard is { } id ? await BedsAsync(db, id, cancel) : null;
    }

    /// <summary>What grows in a yard whose household lets guests of a tour in, for anybody; null for every other yard.</summary>
    public async Task<IReadOnlyList<BedView>?> BedsOnTourAsync(long yardId, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Yards.AnyAsync(y => y.Id == yardId && y.OnTour, cancel) ? await BedsAsync(db, yardId, cancel) : null;
    }

    public async Task<IReadOnlyList<(string Code, long Id, long? OwnerId)>> RecordableAsync(CurrentUser currentUser,
        CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await Visible(db, currentUser).OrderBy(y => y.Code).Select(y => new { y.Code, y.Id, y.OwnerId }).ToListAsync(cancel);
        return [.. yards.Where(y => currentUser.MayRecord(y.OwnerId)).Select(y => (y.Code, y.Id, y.OwnerId))];
    }

    private IQueryable<Storage.Places.Yard> Visible(CommonGroundDb db, CurrentUser currentUser)
    {
        var yards = db.Yards.AsNoTracking();
        var member = currentUser.Role == Role.Member ? currentUser.MemberId : null;
        return currentUser.MayOrganise ? yards : yards.Where(y => member != null && y.OwnerId == member);
    }

    private async Task<IReadOnlyList<BedView>> BedsAsync(CommonGroundDb db, long yardId, CancellationToken cancel)
    {
        var beds = await db.Beds.AsNoTracking().Where(b => b.YardId == yardId).OrderBy(b => b.Name).ToListAsync(cancel);
        var sightings = await db.Sightings.AsNoTracking().Where(s => s.YardId == yardId && s.ObservedOn <= clock.Today).ToListAsync(cancel);
        var loaded = await live.LoadedAsync(cancel);
        var standing = StillPresent.Of(loaded.Matrix.Taxa, clock.Today, loaded.Rules);
        var lines = sightings.GroupBy(s => (s.BedId, s.TaxonId, s.Patch))
            .Select(g => (Last: g.Where(s => s.Finding != Finding.NotFound).MaxBy(s => s.ObservedOn), Looked: g.Max(s => s.ObservedOn)))
            .Where(p => p.Last is { CoverSquareMetres: > 0 })
            .Select(p => (Row: p.Last!, Counts: standing.Counts(loaded.TaxonIndex[p.Last!.TaxonId], p.Last.ObservedOn),
            Line: Line(loaded, standing, p.Last, p.Looked)))
            .OrderBy(p => p.Line.Taxon.Bloom?.Start ?? 99).ThenBy(p => p.Line.Taxon.Bloom?.End ?? 99)
            .ThenBy(p => p.Line.Taxon.ScientificName, StringComparer.Ordinal).ThenBy(p => p.Line.Patch, StringComparer.Ordinal)
            .ToLookup(p => (p.Row.BedId, p.Counts), p => p.Line);
        return [.. beds.Select(b => new BedView(b.Id, b.Name, b.AreaSquareMetres, b.Light, b.Moisture, b.EstablishedOn, b.Version,
            [.. lines[(b.Id, true)]]) { Unseen = [.. lines[(b.Id, false)]] })];
    }

    private static PlantingLine Line(LoadedCommunity loaded, StillPresent standing, Storage.Plantings.Sighting s, DateOnly looked) =>
        new(loaded.Matrix.Taxa[loaded.TaxonIndex[s.TaxonId]], s.CoverSquareMetres, s.Origin, s.Certainty, s.Qualifier, s.GrowthStage,
            s.ObservedOn, s.Observer, s.CoverDerived)
        {
            SightingId = s.Id,
            Patch = s.Patch,
            Count = s.Count,
            VerifiedBy = s.VerifiedBy,
            Old = standing.IsOld(s.ObservedOn),
            NotFoundOn = looked > s.ObservedOn ? looked : null,
        };

    /// <summary>The yard at the end of each season since it was first seen, and now.</summary>
    private async Task<IReadOnlyList<YardSeason>> HistoryAsync(LoadedCommunity loaded, long yardId, SiteMeasures now,
        CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var first = await db.Sightings.Where(s => s.YardId == yardId).MinAsync(s => (DateOnly?)s.ObservedOn, cancel);
        var seasons = new List<YardSeason>();
        for (var year = Math.Max(first?.Year ?? clock.Today.Year, clock.Today.Year - SeasonsShown); year <= clock.Today.Year; year++)
        {
            var end = HalfMonth.LastDay(loaded.Rules.Season.Last, year);
            if (end >= clock.Today)
            {
                break;
            }

            var past = loaded with { Matrix = loaded.Matrix with { AsOf = end } };
            if (await community.LoadYardAsync(db, past, yardId, cancel) is { } row)
            {
                seasons.Add(new YardSeason(end, SiteMeasures.Of(SiteCommunity.Of([row]), loaded.Matrix.Taxa, loaded.Rules.Season, null),
                    row.Presences.Sum(p => p.CoverSquareMetres)));
            }
        }

        var today = loaded.Matrix.Yards[loaded.Matrix.PositionOf(yardId)!.Value];
        seasons.Add(new YardSeason(clock.Today, now, today.Presences.Sum(p => p.CoverSquareMetres)));
        return seasons;
    }
}
