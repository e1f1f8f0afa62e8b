using System.Text.Json;
using CommonGround.Planning.Conversion;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Plans;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A kept plan as it is listed.</summary>
public sealed record PlanLine(long Id, string Yard, string Street, int Number, DateOnly MadeOn, double SquareMetres, int Taxa);

/// <summary>A kept plan: what was asked, and seed and plugs of each taxon as they were shown; none in plans made by older rules.</summary>
public sealed record KeptPlan(long Id, string Yard, int Number, DateOnly MadeOn, ConversionRequest Request,
    IReadOnlyDictionary<string, PlantedAmount> Amounts);

/// <summary>Keeps plans and finds them again, for those who may see the yard.</summary>
public sealed class SavedPlans(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public async Task<IReadOnlyList<PlanLine>> ListAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var member = currentUser.Role == Role.Member ? currentUser.MemberId : null;
        var rows = await db.Plans
            .Join(db.Yards, p => p.YardId, y => y.Id, (Plan, Yard) => new { Plan, Yard })
            .Join(db.Blocks, r => r.Yard.BlockId, b => b.Id, (r, b) => new { r.Plan, r.Yard, b.StreetId })
            .Join(db.Streets, r => r.StreetId, s => s.Id, (r, s) => new { r.Plan, r.Yard.Code, r.Yard.OwnerId, Street = s.Name })
            .ToListAsync(cancel);
        return [.. rows.Where(r => currentUser.MayOrganise || (member is not null && r.OwnerId == member))
            .Select(r => new PlanLine(r.Plan.Id, r.Code, r.Street, r.Plan.Number, r.Plan.MadeOn, Request(r.Plan).SquareMetres,
            Taxa(r.Plan)))
            .OrderByDescending(p => p.MadeOn).ThenBy(p => p.Yard, StringComparer.Ordinal).ThenByDescending(p => p.Number)];
    }

    /// <summary>Null when there is none of that number or the reader may not see its yard.</summary>
    public async Task<KeptPlan?> GetAsync(long planId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var plan = await db.Plans.AsNoTracking().SingleOrDefaultAsync(p => p.Id == planId, cancel);
        var yard = plan is null ? null : await db.Yards.AsNoTracking().SingleAsync(y => y.Id == plan.YardId, cancel);
        return plan is not null && currentUser.MaySee(yard!.OwnerId) ? Kept(plan, yard.Code) : null;
    }

    /// <summary>The newest plan of a yard, for whoever keeps the machine.</summary>
    public async Task<KeptPlan?> NewestAsync(string yardCode, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var plan = await db.Plans.AsNoTracking().Where(p => db.Yards.Any(y => y.Id == p.YardId && y.Code == yardCode))
            .OrderByDescending(p => p.Number).FirstOrDefaultAsync(cancel);
        return plan is null ? null : Kept(plan, yardCode);
    }

    /// <summary>Number of a yard's newest plan; 0 when it has none.</summary>
    public async Task<int> NewestNumberAsync(long yardId, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Plans.Where(p => p.YardId == yardId).MaxAsync(p => (int?)p.Number, cancel) ?? 0;
    }

    /// <summary>Keeps a plan as it is shown; its number, or why it was not kept.</summary>
    public async Task<(KeptPlan? Plan, IReadOnlyList<Problem> Problems)> KeepAsync(long yardId, ConversionPlan plan, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(by);
        KeptPlan? kept = null;
        var saved = await database.WriteAsync(
            async db =>
            {
                var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Id == yardId, cancel);
                if (yard is null || !by.MayRecord(yard.OwnerId))
                {
                    return Intent.Refuse("", "This plan was not kept: the yard is gone, or it is not yours. What you typed is still here.");
                }

                var row = new SavedPlan
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = RowIds.Next(),
                    YardId = yardId,
                    // Whoever keeps a plan at the same moment takes this number: the next look finds the number after it.
                    Number = (await db.Plans.Where(p => p.YardId == yardId).MaxAsync(p => (int?)p.Number, cancel) ?? 0) + 1,
                    Request = JsonSerializer.Serialize(plan.Request),
                    Shares = JsonSerializer.Serialize(plan.Mix.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount,
                        StringComparer.Ordinal)),
                    MadeOn = clock.Today,
                    MadeById = by.MemberId,
                    MadeAtUtc = clock.UtcNow,
                };
                db.Plans.Add(row);
                kept = Kept(row, yard.Code);
                return by.Note($"kept plan {row.Number} for {yard.Code}");
            }, cancel);
        return (saved.IsStored ? kept : null, saved.Problems);
    }

    private static KeptPlan Kept(SavedPlan plan, string yard) => new(plan.Id, yard, plan.Number, plan.MadeOn, Request(plan), Amounts(plan));

    private static ConversionRequest Request(SavedPlan plan)
    {
        var request = JsonSerializer.Deserialize<ConversionRequest>(plan.Request)
            ?? throw new InvalidOperationException($"Plan {plan.Id} has no request.");
        // Plans of older rules bounded shares of ground, which mean nothing to these: there the kind of ground decides.
        return IsOld(plan) ? request with
        {
            LeastGrassShare = null,
            MostGrassShare = null,
            MostShareOfOne = null,
            FewestTaxa = null,
            MostTaxa = null,
            FewestSeedsPerSquareMetre = null,
            MostSeedsPerSquareMetre = null
        } : request;
    }

    /// <summary>Older rules kept shares of ground: plain numbers.</summary>
    private static bool IsOld(SavedPlan plan)
    {
        using var kept = JsonDocument.Parse(plan.Shares);
        return kept.RootElement.EnumerateObject().Any(p => p.Value.ValueKind == JsonValueKind.Number);
    }

    private static Dictionary<string, PlantedAmount> Amounts(SavedPlan plan) => IsOld(plan) ? []
        : JsonSerializer.Deserialize<Dictionary<string, PlantedAmount>>(plan.Shares) ?? [];

    private static int Taxa(SavedPlan plan)
    {
        using var kept = JsonDocument.Parse(plan.Shares);
        return kept.RootElement.EnumerateObject().Count();
    }
}
