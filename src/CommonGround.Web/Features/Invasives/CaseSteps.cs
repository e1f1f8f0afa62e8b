using CommonGround.Storage;
using CommonGround.Storage.Infestations;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>Puts a case off to another day, closes it, or opens it again.</summary>
public sealed class CaseSteps(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live, GroupClock clock)
{
    public const int MostYearsAhead = 5;

    /// <returns>Problems; empty when it is put off.</returns>
    public Task<IReadOnlyList<Problem>> MoveAsync(CaseAt at, DateOnly? until, string reason, CurrentUser by,
        CancellationToken cancel = default) => WriteAsync(at, CaseStepKind.Moved, until, reason, by, cancel);

    /// <returns>Problems; empty when it is closed.</returns>
    public Task<IReadOnlyList<Problem>> CloseAsync(CaseAt at, string reason, CurrentUser by, CancellationToken cancel = default) =>
        WriteAsync(at, CaseStepKind.Closed, null, reason, by, cancel);

    /// <returns>Problems; empty when it is open again.</returns>
    public Task<IReadOnlyList<Problem>> OpenAsync(CaseAt at, string reason, CurrentUser by, CancellationToken cancel = default) =>
        WriteAsync(at, CaseStepKind.Opened, null, reason, by, cancel);

    private async Task<IReadOnlyList<Problem>> WriteAsync(CaseAt at, CaseStepKind kind, DateOnly? until, string reason, CurrentUser by,
        CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(at);
        ArgumentNullException.ThrowIfNull(by);
        reason = reason.Trim();
        var loaded = await live.LoadedAsync(cancel);
        return (await database.WriteAsync(
            async db =>
            {
                if (await CaseGround.FindAsync(db, loaded, at, by, cancel) is not { } ground)
                {
                    return Intent.Refuse([CaseGround.Denied]);
                }

                if (reason.Length > CaseStep.LongestReason)
                {
                    return Intent.Refuse("reason", $"The reason has {reason.Length} letters; shorten it to {CaseStep.LongestReason}.");
                }

                if (!await ground.Looks(db).AnyAsync(l => l.AreaSquareMetres > 0, cancel))
                {
                    return Intent.Refuse("", $"{ground.Taxon.DisplayName} is not recorded here, so there is no case.");
                }

                var closed = await ground.Steps(db).Where(s => s.Kind != CaseStepKind.Moved).OrderBy(s => s.RecordedAtUtc)
                    .ThenBy(s => s.Id).LastOrDefaultAsync(cancel) is { Kind: CaseStepKind.Closed } last ? last : null;
                if (Refused(kind, until, reason, closed) is { } refused)
                {
                    return Intent.Refuse([refused]);
                }

                if (closed is null && kind == CaseStepKind.Opened)
                {
                    return Intent.Nothing;
                }

                db.CaseSteps.Add(new CaseStep
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = RowIds.Next(),
                    BlockId = ground.BlockId,
                    YardId = ground.YardId,
                    TaxonId = ground.TaxonId,
                    Kind = kind,
                    SaidOn = clock.Today,
                    Until = until,
                    Reason = reason,
                    Who = by.Name,
                    RecordedById = by.MemberId,
                    RecordedAtUtc = clock.UtcNow,
                });
                var did = kind switch
                {
                    CaseStepKind.Moved => $"put off to {Words.Date(until!.Value)}",
                    CaseStepKind.Closed => "closed",
                    _ => "opened again",
                };
                return by.Note($"{did}: {ground.Taxon.DisplayName} in {ground.Place}");
            }, cancel)).Problems;
    }

    private Problem? Refused(CaseStepKind kind, DateOnly? until, string reason, CaseStep? closed) => kind switch
    {
        CaseStepKind.Moved when closed is not null => new("",
            $"This case was closed on {Words.Date(closed.SaidOn)}. Open it again, then put it off."),
        CaseStepKind.Moved when until is null || until <= clock.Today => new("until",
            "Give a day that is still to come. What is done already is written down as done."),
        CaseStepKind.Moved when until > clock.Today.AddYears(MostYearsAhead) => new("until",
            $"That is more than {MostYearsAhead} years ahead. Give a nearer day, so that somebody looks."),
        CaseStepKind.Closed when closed is not null => new("",
            $"{(closed.Who.Length > 0 ? closed.Who : "Somebody")} closed this case already, on {Words.Date(closed.SaidOn)}"
                + $"{(closed.Reason.Length > 0 ? $": “{closed.Reason}”" : "")}. Nothing was changed."),
        CaseStepKind.Closed when reason.Length == 0 => new("reason",
            "Say why it may end: what was looked for, when, and what was found."),
        _ => null,
    };
}
