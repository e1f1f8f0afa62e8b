using CommonGround.Storage;
using CommonGround.Storage.Infestations;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>Writes a treatment into a case, and what was left of the plant where somebody looked.</summary>
public sealed class LogTreatment(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live, GroupClock clock)
{
    private const string AfterTreatment = "after treatment";

    /// <returns>Problems; empty when it is stored.</returns>
    public async Task<IReadOnlyList<Problem>> SaveAsync(CaseAt at, TreatmentDraft draft, CurrentUser by, CancellationToken cancel = default)
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

                var looks = await ground.Looks(db).OrderBy(i => i.ObservedOn).ThenBy(i => i.Id).ToListAsync(cancel);
                if (looks.Find(l => l.AreaSquareMetres > 0) is not { } first)
                {
                    return Intent.Refuse("", $"{ground.Taxon.DisplayName} is not recorded here. Record it first, then what was done.");
                }

                if (draft.Check(clock.Today, first.ObservedOn, Words.Date(first.ObservedOn)) is { Count: > 0 } problems)
                {
                    return Intent.Refuse(problems);
                }

                if (ground.Yard is { } yard && (draft.AreaSquareMetres > yard.AreaSquareMetres
                    || draft.LeftSquareMetres > yard.AreaSquareMetres))
                {
                    return Intent.Refuse(draft.AreaSquareMetres > yard.AreaSquareMetres ? nameof(draft.AreaSquareMetres)
                        : nameof(draft.LeftSquareMetres),
                            $"That is more than the yard, which is {by.Units.AreaWords(yard.AreaSquareMetres)}.");
                }

                db.Treatments.Add(Row(ground, draft, by));
                if (draft.LeftSquareMetres is { } left)
                {
                    Left(db, ground, looks, draft.TreatedOn!.Value, left);
                }

                return by.Note($"wrote down a treatment of {ground.Taxon.DisplayName} in {ground.Place}");
            }, cancel)).Problems;
    }

    private Treatment Row(CaseGround ground, TreatmentDraft draft, CurrentUser by) => new()
    {
        NeighbourhoodId = neighbourhood.Id,
        Id = RowIds.Next(),
        BlockId = ground.BlockId,
        YardId = ground.YardId,
        TaxonId = ground.TaxonId,
        TreatedOn = draft.TreatedOn!.Value,
        Method = draft.Method,
        AreaSquareMetres = draft.AreaSquareMetres,
        PersonHours = draft.PersonHours,
        Who = draft.Who.Trim(),
        LabelFollowed = draft.Method == Ecology.Invasives.ControlMethod.Herbicide && draft.LabelFollowed,
        Qualification = draft.Method == Ecology.Invasives.ControlMethod.Herbicide ? draft.Qualification.Trim() : "",
        Remarks = draft.Remarks.Trim(),
        RecordedById = by.MemberId,
        RecordedAtUtc = clock.UtcNow,
    };

    private void Left(CommonGroundDb db, CaseGround ground, List<InfestationRecord> looks, DateOnly day, double left)
    {
        // What stood there before the treatment stays written, though somebody saw it on the same day.
        var last = looks.FindLast(l => l.ObservedOn <= day);
        var row = last?.ObservedOn == day && last.Remarks == AfterTreatment ? last : null;
        if (row is null)
        {
            row = ground.NewLook(db, neighbourhood.Id, day);
            (row.CoverPercent, row.Certainty, row.Remarks) = (last?.CoverPercent ?? 50, last?.Certainty ?? default, AfterTreatment);
        }

        (row.AreaSquareMetres, row.RecordedAtUtc) = (left, clock.UtcNow);
    }
}
