using CommonGround.Planning.Conversion;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A yard that may take part in planning its street.</summary>
/// <param name="SquareMetres">What it would turn into planting: a third of its lawn, or 20 m² where nobody has measured the lawn.</param>
/// <param name="Missing">What its record must say first; empty where nothing is missing.</param>
/// <param name="Willing">It shares, and has lawn to spare: chosen at first.</param>
public sealed record StreetPlanYard(string Code, double? LawnSquareMetres, double SquareMetres, string Missing, bool Willing);

/// <summary>A street planned, and the ground of each yard so that its plan can be kept.</summary>
public sealed record PlannedStreet(string Street, double? Budget, StreetMixes Mixes, IReadOnlyDictionary<string, PlanGround> Grounds,
    IReadOnlyDictionary<string, ConversionRequest> Requests);

/// <summary>Plans several yards of a street at once, for organisers.</summary>
public sealed class StreetPlans(NeighbourhoodDatabase database, PlanQueries plans, SavedPlans saved, HeavyWork work)
{
    /// <summary>Less lawn than this is not worth a plan, m².</summary>
    private const double LeastLawn = 6;

    /// <summary>The yards of a street; null when there is no such street or the reader does not organise.</summary>
    public async Task<IReadOnlyList<StreetPlanYard>?> YardsAsync(string street, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        if (!currentUser.MayOrganise) return null;
        await using var db = await database.CreateDbContextAsync(cancel);
        if (!await db.Streets.AnyAsync(s => s.Name == street, cancel)) return null;
        var yards = await db.Yards.Where(y => db.Blocks.Any(b => b.Id == y.BlockId
            && db.Streets.Any(s => s.Id == b.StreetId && s.Name == street)))
            .OrderBy(y => y.Code).Select(y => new { y.Code, y.LawnSquareMetres, y.Light, y.Moisture, y.SoilGroup, y.Shared })
            .ToListAsync(cancel);
        return [.. yards.Select(y =>
        {
            var missing = new[] { (y.Light is null, "light"), (y.Moisture is null, "moisture"),
                (y.SoilGroup is null, "soil") }.Where(m => m.Item1).Select(m => m.Item2).ToList();
            var area = PlanDraft.Proposed(y.LawnSquareMetres);
            return new StreetPlanYard(y.Code, y.LawnSquareMetres, area, missing.Count == 0 ? ""
                : $"The record does not say: {Words.List(missing)}.", missing.Count == 0 && y.Shared && y.LawnSquareMetres >= LeastLawn);
        })];
    }

    /// <summary>Plans the yards within one budget, when its turn comes.</summary>
    /// <param name="budget">For all together; null for no limit.</param>
    /// <exception cref="TooBusyException">Too many wait already.</exception>
    /// <exception cref="PlanRefusedException">A yard cannot be planned; the message says which and why.</exception>
    /// <exception cref="OperationCanceledException">Stopped; nothing was kept.</exception>
    public async Task<PlannedStreet> MakeAsync(string street, IReadOnlyList<string> codes, double? budget, CurrentUser currentUser,
        IProgress<StreetProgress>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(codes);
        if (codes.Count == 0) throw new PlanRefusedException("No yard is chosen. Choose one or more.");
        if (budget is <= 0 || budget is double.NaN) throw new PlanRefusedException("The budget is above 0; leave it blank for no limit.");
        var grounds = new Dictionary<string, PlanGround>(StringComparer.Ordinal);
        var requests = new Dictionary<string, ConversionRequest>(StringComparer.Ordinal);
        foreach (var code in codes)
        {
            grounds[code] = await plans.GroundAsync(code, currentUser, cancel)
                ?? throw new PlanRefusedException($"There is no yard {code}.");
            try
            {
                requests[code] = ConversionReportQueries.Proposed(grounds[code]);
            }
            catch (PlanRefusedException e)
            {
                throw new PlanRefusedException($"{code}: {e.Message}", e);
            }
        }

        var first = grounds[codes[0]];
        var mixes = await work.RunAsync(() => StreetPlan.Of([.. codes.Select(c => new StreetYard(c, requests[c]))], budget,
            first.Surroundings, first.Prices, progress, cancel), cancel);
        return new(street, budget, mixes, grounds, requests);
    }

    /// <summary>Keeps the plan of one yard as any plan is kept; its number, or why it was not kept.</summary>
    public async Task<(KeptPlan? Plan, IReadOnlyList<Problem> Problems)> KeepAsync(PlannedStreet street, string code,
        CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(street);
        var mix = street.Mixes.Yards.Single(y => y.Yard == code).Mix ?? throw new InvalidOperationException($"Yard {code} has no mix.");
        var amounts = mix.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount, StringComparer.Ordinal);
        var answer = await plans.MakeAsync(street.Grounds[code], street.Requests[code], amounts);
        return answer.Plan is { } plan
            ? await saved.KeepAsync(street.Grounds[code].Facts.Id, plan, currentUser, cancel)
            : (null, [.. answer.Problems.Select(p => new Problem(p.Field, p.Message))]);
    }
}
