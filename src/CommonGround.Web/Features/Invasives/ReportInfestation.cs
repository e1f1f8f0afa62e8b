using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>Records what somebody saw of an unwanted plant: a new case, or a later look at one. Of one place, plant and day what was said
/// last holds; that it is gone is a look of its own.</summary>
public sealed class ReportInfestation(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live,
    GroupClock clock)
{
    /// <returns>Problems; empty when it is stored.</returns>
    public async Task<IReadOnlyList<Problem>> SaveAsync(CaseAt at, InfestationDraft draft, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(at);
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        var loaded = await live.LoadedAsync(cancel);
        return (await database.WriteAsync(
            async db =>
            {
                if (await CaseGround.FindAsync(db, loaded, at, by, cancel) is not { } ground)
                {
                    return Intent.Refuse([CaseGround.Denied]);
                }

                var most = ground.Yard?.AreaSquareMetres;
                if (draft.Check(clock.Today, most, by.Units.AreaWords(most ?? 0)) is { Count: > 0 } problems)
                {
                    return Intent.Refuse(problems);
                }

                if (draft.AreaSquareMetres == 0 && !await ground.Looks(db).AnyAsync(i => i.AreaSquareMetres > 0, cancel))
                {
                    return Intent.Refuse(nameof(draft.AreaSquareMetres),
                        $"{ground.Taxon.DisplayName} has never been recorded here, so there is nothing to look for again. Give the ground "
                            + "it stands on.");
                }

                var row = await ground.Looks(db).OrderBy(i => i.Id).LastOrDefaultAsync(i => i.ObservedOn == draft.SeenOn, cancel);
                // Seen and found gone on one day are two looks: the case stays until its seed is spent.
                if (row is null || (draft.AreaSquareMetres == 0 && row.AreaSquareMetres > 0))
                {
                    row = ground.NewLook(db, neighbourhood.Id, draft.SeenOn!.Value);
                }

                (row.AreaSquareMetres, row.CoverPercent) = (draft.AreaSquareMetres!.Value, draft.CoverPercent!.Value);
                (row.GrowthStage, row.Certainty) = (draft.GrowthStage, draft.Certainty);
                (row.Remarks, row.RecordedAtUtc) = (draft.Remarks.Trim(), clock.UtcNow);
                return by.Note(draft.AreaSquareMetres == 0 ? $"looked for {ground.Taxon.DisplayName} in {ground.Place} and found none"
                    : $"recorded {ground.Taxon.DisplayName}, unwanted, in {ground.Place}");
            }, cancel)).Problems;
    }
}
