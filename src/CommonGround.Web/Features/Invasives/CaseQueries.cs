using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Infestations;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>A case in a list.</summary>
/// <param name="Place">The yard's code, or the block's name.</param>
/// <param name="Block">Index of its block in the matrix; −1 where it lies nowhere.</param>
/// <param name="Hours">Person-hours of one visit to treat it; null where no rate is known.</param>
public sealed record CaseLine(CaseAt At, string Place, string BlockName, int Block, CatalogueTaxon Taxon, double AreaSquareMetres,
    double CoverPercent, int? GrowthStage, Certainty Certainty, CaseStanding Standing, double? Hours)
{
    internal long? YardId { get; init; }

    /// <summary>How often in a year, in words; empty where once is all that is asked.</summary>
    public string Visits { get; init; } = "";

    /// <summary>Something was done against it before: the next treatment is a follow-up.</summary>
    public bool WasTreated { get; init; }
}

/// <summary>Something that happened in a case.</summary>
public sealed record CaseEvent(DateOnly On, InfestationRecord? Look, Treatment? Treatment, CaseStep? Step);

/// <summary>A case whole.</summary>
/// <param name="GroundSquareMetres">Ground the plant could fill, m².</param>
/// <param name="PressureShare">Of all that unwanted plants send to the group's blocks, 0–1; null for those who may not know all.</param>
/// <param name="Photos">Pictures of this plant in this yard.</param>
public sealed record CaseView(CaseLine Line, UnwantedTaxon? Calendar, IReadOnlyList<CaseEvent> Events, double GroundSquareMetres,
    double? PressureShare, IReadOnlyList<(long Id, DateOnly TakenOn)> Photos, int? DaysLater);

/// <summary>Reads cases: organisers all, households those of their own yards. The public is told none.</summary>
public sealed class CaseQueries(NeighbourhoodDatabase database, LiveCommunity live, GroupClock clock)
{
    /// <summary>Open and resting cases, overdue ones first, then by the day they are due.</summary>
    public async Task<IReadOnlyList<CaseLine>> ListAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await db.Yards.AsNoTracking().Select(y => new { y.Id, y.Code, y.OwnerId, y.BlockId }).ToListAsync(cancel);
        var mine = yards.Where(y => currentUser.MayRecord(y.OwnerId)).ToDictionary(y => y.Id);
        var all = currentUser.MayOrganise;
        var looks = (await db.Infestations.AsNoTracking().Where(i => i.ObservedOn <= clock.Today).ToListAsync(cancel))
            .Where(i => i.YardId is { } yard ? mine.ContainsKey(yard) : all).ToLookup(i => Key(i.BlockId, i.YardId, i.TaxonId));
        var treatments = (await db.Treatments.AsNoTracking().ToListAsync(cancel)).ToLookup(t => Key(t.BlockId, t.YardId, t.TaxonId));
        var steps = (await db.CaseSteps.AsNoTracking().ToListAsync(cancel)).ToLookup(s => Key(s.BlockId, s.YardId, s.TaxonId));
        // After the rows: the matrix then knows at least what they name.
        var loaded = await live.LoadedAsync(cancel);
        var lines = new List<CaseLine>();
        foreach (var place in looks.Where(g => g.Any(l => l.AreaSquareMetres > 0)))
        {
            var block = place.Key.Yard is { } yard ? mine[yard].BlockId : place.Key.Block;
            lines.Add(Line(loaded, [.. place], [.. treatments[place.Key]], [.. steps[place.Key]], block,
                place.Key.Yard is { } id ? mine[id].Code : ""));
        }

        return [.. lines.Where(l => l.Standing.State != CaseState.Closed).OrderByDescending(l => l.Standing.IsOverdue)
            .ThenBy(l => l.Standing.DueFrom ?? DateOnly.MaxValue).ThenBy(l => l.Place, StringComparer.Ordinal)
            .ThenBy(l => l.Taxon.DisplayName, StringComparer.Ordinal)];
    }

    /// <summary>One case; null where there is none, or it is not the reader's to see.</summary>
    public async Task<CaseView?> GetAsync(CaseAt at, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var loaded = await live.LoadedAsync(cancel);
        if (await CaseGround.FindAsync(db, loaded, at, currentUser, cancel) is not { } ground)
        {
            return null;
        }

        var looks = await ground.Looks(db).AsNoTracking().Where(i => i.ObservedOn <= clock.Today).ToListAsync(cancel);
        if (!looks.Exists(l => l.AreaSquareMetres > 0))
        {
            return null;
        }

        var treatments = await ground.Treatments(db).AsNoTracking().ToListAsync(cancel);
        var steps = await ground.Steps(db).AsNoTracking().ToListAsync(cancel);
        var line = Line(loaded, looks, treatments, steps, ground.BlockId, ground.Yard?.Code ?? "");
        var beds = ground.YardId is { } yard ? await db.Beds.Where(b => b.YardId == yard).SumAsync(b => b.AreaSquareMetres ?? 0, cancel)
            : 0;
        var photos = ground.YardId is null ? [] : await db.Photos.Where(p => p.YardId == ground.YardId && p.TaxonId == ground.TaxonId)
            .OrderByDescending(p => p.TakenOn).Select(p => new { p.Id, p.TakenOn }).ToListAsync(cancel);
        return new CaseView(line, ControlCalendar.Of(ground.Taxon.ScientificName),
            [.. looks.Select(l => new CaseEvent(l.ObservedOn, l, null, null))
                .Concat(treatments.Select(t => new CaseEvent(t.TreatedOn, null, t, null)))
                .Concat(steps.Select(s => new CaseEvent(s.SaidOn, null, null, s)))
                .OrderByDescending(e => e.On).ThenByDescending(e => e.Look?.RecordedAtUtc ?? e.Treatment?.RecordedAtUtc
                    ?? e.Step!.RecordedAtUtc).ThenBy(e => e.Look is null ? 1 : 0)],
            // Beds are the ground that is open to it; where none are measured, a quarter of the yard, or four times what it has.
            Math.Max(beds > 0 ? beds : (ground.Yard?.AreaSquareMetres / 4) ?? (4 * line.AreaSquareMetres), 2 * line.AreaSquareMetres),
            currentUser.MayOrganise ? ShareOf(loaded, ground) : null, [.. photos.Select(p => (p.Id, p.TakenOn))],
            loaded.Dates.WarmthDays);
    }

    private CaseLine Line(LoadedCommunity loaded, List<InfestationRecord> looks, List<Treatment> treatments, List<CaseStep> steps,
        long blockId, string yard)
    {
        var last = looks.OrderBy(l => l.ObservedOn).ThenBy(l => l.Id).Last();
        var taxon = loaded.Matrix.Taxa[loaded.TaxonIndex[last.TaxonId]];
        var calendar = ControlCalendar.Of(taxon.ScientificName);
        var standing = CaseCourse.Of(History(looks, treatments, steps, loaded.Dates.WarmthDays ?? 0), calendar, clock.Today);
        var now = Reckoned(calendar, standing);
        var block = loaded.BlockIndex.TryGetValue(blockId, out var index) ? index : -1;
        var name = block < 0 ? "" : $"{loaded.Matrix.Streets[loaded.Matrix.Blocks[block].Street].Name}, {loaded.Matrix.Blocks[block].Name}";
        return new CaseLine(new CaseAt(yard, yard.Length > 0 ? 0 : blockId, taxon.ScientificName), yard.Length > 0 ? yard : name, name,
            block, taxon, last.AreaSquareMetres, last.CoverPercent, last.GrowthStage, last.Certainty, standing,
            now is null ? null : InfestationOutlooks.Hours(last.AreaSquareMetres, last.CoverPercent / 100,
                now.HoursPerTenSquareMetres.Mid))
        {
            Visits = now?.Visits ?? "",
            YardId = last.YardId,
            WasTreated = treatments.Count > 0,
        };
    }

    internal static CaseHistory History(IReadOnlyList<InfestationRecord> looks, IReadOnlyList<Treatment> treatments,
        IReadOnlyList<CaseStep> steps, int daysLater)
    {
        var closed = steps.Where(s => s.Kind != CaseStepKind.Moved).OrderBy(s => s.RecordedAtUtc).ThenBy(s => s.Id).LastOrDefault();
        var moved = steps.Where(s => s.Kind == CaseStepKind.Moved).OrderBy(s => s.RecordedAtUtc).ThenBy(s => s.Id).LastOrDefault();
        // Whoever finds it again has opened the case again.
        var isClosed = closed?.Kind == CaseStepKind.Closed && !looks.Any(l => l.AreaSquareMetres > 0 && l.ObservedOn > closed.SaidOn);
        return new CaseHistory([.. looks.OrderBy(l => l.ObservedOn).ThenBy(l => l.Id)
            .Select(l => new CaseLook(l.ObservedOn, l.AreaSquareMetres))],
            [.. treatments.Select(t => t.TreatedOn)], moved is { Until: { } until } ? (moved.SaidOn, until) : null, isClosed, daysLater);
    }

    /// <summary>The method named first whose rate of work is known; null where there is none.</summary>
    private static ControlAdvice? Reckoned(UnwantedTaxon? calendar, CaseStanding standing) => InvasiveWords.Named(standing)
        .Select(n => calendar?.Methods.FirstOrDefault(m => m.Method == n.Method && m.Advised == Advice.Yes
            && m.HoursPerTenSquareMetres.Mid > 0)).OfType<ControlAdvice>().FirstOrDefault();

    /// <summary>What one source sends to all blocks, of what all of them send.</summary>
    private static double? ShareOf(LoadedCommunity loaded, CaseGround ground)
    {
        var (matrix, convention) = (loaded.Matrix, loaded.Rules.Pressure);
        var taxon = loaded.TaxonIndex[ground.TaxonId];
        var block = loaded.BlockIndex.TryGetValue(ground.BlockId, out var index) ? index : -1;
        var mine = matrix.Infestations.Where(i => i.Taxon == taxon && i.YardId == ground.YardId
            && (ground.YardId is not null || i.Block == block)).ToList();
        var all = InvasivePressure.OfAllBlocks(matrix, convention).Sum();
        return mine.Count == 0 || all <= 0 ? null
            : InvasivePressure.OfAllBlocks(matrix with { Infestations = mine }, convention).Sum() / all;
    }

    private static (long Block, long? Yard, int Taxon) Key(long block, long? yard, int taxon) => (yard is null ? block : 0, yard, taxon);
}
