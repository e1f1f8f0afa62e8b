using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.History;

/// <summary>Takes a change back, whatever it was: new rows go, removed ones return, altered ones get their old values. A change like any
/// other, so it can be taken back too.</summary>
public sealed class UndoChange(NeighbourhoodDatabase database, GroupClock clock)
{
    public const int Days = 90;
    private static readonly Problem Since = new("",
        "This can no longer be undone as it stands: what it wrote was changed again since. Undo the later change first, or record it as "
            + "it should be.");
    private static readonly Problem Earlier = new("",
        "An earlier version of this program recorded this and did not note what to compare, so it cannot be undone safely. Nothing was "
            + "changed; record it as it should be.");
    private static readonly Problem Unreadable = new("",
        "What was kept of this change is in a form that this version of the program no longer reads, so it cannot be undone. Nothing was "
            + "changed; record it as it should be.");

    public Task<IReadOnlyList<Problem>> UndoAsync(long changeId, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        return WriteAsync(
            async db =>
            {
                var change = await db.Changes.AsNoTracking().SingleOrDefaultAsync(c => c.Id == changeId, cancel);
                if (change is null || !by.May(Permission.SeeHistory, change.MemberId))
                {
                    return Intent.Refuse("", "There is no such change, or it is not yours to undo.");
                }

                if (change.EraseAtUtc is not null && change.MemberId is not null && !by.Owns(change.MemberId))
                {
                    return Intent.Refuse("", "A household took its yard out or left. Only they can bring it back.");
                }

                if (change.AtUtc < clock.UtcNow.AddDays(-Days))
                {
                    return Intent.Refuse("", $"A change can be undone for {Days} days; this one is older.");
                }

                if (await db.Changes.AnyAsync(c => c.UndoOfId == changeId, cancel))
                {
                    return Intent.Refuse("", "This change was already undone.");
                }

                var rows = await RowsAsync(db, changeId, cancel);
                return await RefusedAsync(db, rows, by, cancel) is { } refused ? refused
                    : await TakeBackAsync(db, rows, by.Note(Cut("took back: " + change.What)) with { UndoOfId = change.Id }, cancel);
            }, cancel);
    }

    /// <summary>Takes back somebody's leaving. They proved who they are; nobody else is asked.</summary>
    internal Task<IReadOnlyList<Problem>> ReturnAsync(long changeId, ChangeNote note, CancellationToken cancel) =>
        WriteAsync(async db => await TakeBackAsync(db, await RowsAsync(db, changeId, cancel), note, cancel), cancel);

    private async Task<IReadOnlyList<Problem>> WriteAsync(Func<CommonGroundDb, Task<Intent>> prepare, CancellationToken cancel)
    {
        // Overtaken each time: something recorded later hangs on these rows.
        var saved = await database.WriteAsync(prepare, Since, cancel);

        return saved.Problems;
    }

    private static Task<List<ChangedRow>> RowsAsync(CommonGroundDb db, long changeId, CancellationToken cancel) =>
        db.ChangedRows.AsNoTracking().Where(r => r.ChangeId == changeId).OrderByDescending(r => r.Ordinal).ToListAsync(cancel);

    /// <summary>What may not be undone by this person, before anything is looked at.</summary>
    private static async Task<Problem?> RefusedAsync(CommonGroundDb db, List<ChangedRow> rows, CurrentUser by, CancellationToken cancel)
    {
        if (rows.Count == 0 || rows.Exists(r => r.RowAction != RowAction.Added && r.Before is null))
        {
            return new("", rows.Count == 0 ? "The program brought this in itself; there is nothing to undo."
                : "What this change removed has been erased for good, as its household asked.");
        }

        if (rows.Exists(r => r.Kind == RowKinds.Invitation))
        {
            return new("", "An invitation is not undone: withdraw it, or make a new one.");
        }

        // Roles and what the group is are given by administrators only; undoing is giving.
        if (rows.Exists(r => r.Kind == RowKinds.Member || (r.Kind == RowKinds.Neighbourhood && !OnlyRules(r)))
            && !by.May(Permission.Administer))
        {
            return new("", "Only administrators undo what was done to roles and to the group itself.");
        }

        var yardIds = rows.Select(r => r.YardId).OfType<long>().Distinct().ToList();
        if (by.MayOrganise)
        {
            return await ConsentAsync(db, rows, by, cancel);
        }

        var owners = await db.Yards.AsNoTracking().Where(y => yardIds.Contains(y.Id)).ToDictionaryAsync(y => y.Id, y => y.OwnerId, cancel);
        return rows.TrueForAll(r => r.YardId is { } yard && (owners.TryGetValue(yard, out var owner) ? by.MayRecord(owner)
            : r.Kind == RowKinds.Yard || rows.Exists(k => k.Kind == RowKinds.Yard && k.YardId == yard)))
            ? null : new("", "Part of this change is in a yard that is not yours. Ask an organiser.");
    }

    /// <summary>Only the household itself gives back a consent that was withdrawn.</summary>
    private static async Task<Problem?> ConsentAsync(CommonGroundDb db, List<ChangedRow> rows, CurrentUser by, CancellationToken cancel)
    {
        var ids = rows.Where(r => r.Kind == RowKinds.Yard && r.RowAction == RowAction.Changed
            && YardSettings.Consents.Any(c => r.Before!.Contains($"\"{c}\":true", StringComparison.Ordinal))).Select(r => r.YardId)
            .ToList();
        return ids.Count > 0 && await db.Yards.AnyAsync(y => ids.Contains(y.Id) && y.OwnerId != null && y.OwnerId != by.MemberId, cancel)
            ? new("", "A household withdrew its consent here; only the household can give it again.") : null;
    }

    private static bool OnlyRules(ChangedRow row) => row.RowAction == RowAction.Changed
        && System.Text.Json.JsonDocument.Parse(row.Before!).RootElement.EnumerateObject().All(c => c.Name is RowKinds.Settings
        or RowKinds.Rates);

    private static async Task<Intent> TakeBackAsync(CommonGroundDb db, List<ChangedRow> rows, ChangeNote note, CancellationToken cancel)
    {
        if (await ChangeReversal.PrepareAsync(db, rows, cancel) is var taken && taken != ReversalResult.Ready)
        {
            return taken switch { ReversalResult.NotNoted => Earlier, ReversalResult.Unreadable => Unreadable, _ => Since };
        }

        await RenewBedsAsync(db, cancel);
        return await LosesTheLastAdministratorAsync(db, cancel)
            ? Intent.Refuse("", "That would leave the group without an administrator. Make somebody else administrator first.") : note;
    }

    private static async Task<bool> LosesTheLastAdministratorAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var administrators = db.Members.Where(m => m.Role == Role.Administrator && m.AccountId != null);
        if (db.ChangeTracker.Entries<Member>().All(e => e.State == EntityState.Unchanged)
            || !await administrators.AsNoTracking().AnyAsync(cancel))
        {
            return false;
        }

        await administrators.LoadAsync(cancel);
        return !db.ChangeTracker.Entries<Member>().Any(e => e.State != EntityState.Deleted && e.Entity.Role == Role.Administrator
            && e.Entity.AccountId is not null);
    }

    /// <summary>Whoever types into one of these beds just now is told before they overwrite this.</summary>
    private static async Task RenewBedsAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var ids = db.ChangeTracker.Entries<Sighting>().Where(e => e.State != EntityState.Unchanged).Select(e => e.Entity.BedId).Distinct()
            .ToList();
        foreach (var chunk in ids.Chunk(500))
        {
            await db.Beds.Where(b => chunk.Contains(b.Id)).LoadAsync(cancel);
        }

        foreach (var bed in db.ChangeTracker.Entries<Bed>().Where(e => e.State == EntityState.Unchanged && ids.Contains(e.Entity.Id)))
        {
            bed.State = EntityState.Modified;
        }
    }

    private static string Cut(string words) => words.Length <= 300 ? words : words[..299] + "…";
}
