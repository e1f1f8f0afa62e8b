using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Publishing;
using CommonGround.Storage.Saving;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace CommonGround.Storage;

/// <content>How what was changed is stored: with its history, and with the stamp by which every process sees it.</content>
public abstract partial class CommonGroundDb
{
    private readonly HashSet<string> told = new(StringComparer.Ordinal);
    private ChangeNote? note;
    private Change? change;
    private Guid? changeTransaction;
    private int rows;

    /// <summary>Saves what was changed together with who changed it, what and from where. The <see cref="Saving.Door"/> calls it.</summary>
    /// <returns>The number of the change in history; 0 when there was nothing to write.</returns>
    /// <exception cref="AccessLostException">The session was ended or the role changed since; nothing is written.</exception>
    internal async Task<long> SaveAsync(ChangeNote by, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        if (note != by)
        {
            (note, change, rows) = (by, null, 0);
            told.Clear();
        }

        await SaveChangesAsync(cancellationToken);
        return change?.Id ?? 0;
    }

    /// <summary>
    /// As <see cref="SaveAsync"/>, for very many rows: everything is worked out first, and only then begins the transaction, in which new
    /// sightings and history are stored in bulk.
    /// </summary>
    /// <param name="holds">Asked inside the transaction whether what was looked at before still holds.</param>
    /// <exception cref="OvertakenException">It does not; nothing is written.</exception>
    internal async Task<long> SaveInBulkAsync(ChangeNote by, Func<Task<bool>> holds, CancellationToken cancel)
    {
        (note, change, rows) = (by, null, 0);
        told.Clear();
        ChangeTracker.DetectChanges();
        DrawOffsets();
        RenewVersions();
        var written = Written();
        if (written.Count == 0)
        {
            return 0;
        }

        RequireNote(written);
        var history = HistoryOf(by, written);
        var sightings = Detached<Sighting>();
        var sharing = ChangesSharing(written);
        await using var transaction = await Database.BeginTransactionAsync(cancel);
        // Where new sightings are all there is, nobody sees them or waits for them yet: they go first, and the stamp is held for the
        // history alone.
        var alone = written.TrueForAll(e => e.Entity is Sighting && e.State == EntityState.Detached);
        if (alone)
        {
            await Bulk.InsertAsync(this, sightings, cancel);
        }

        // Moving the stamp waits for the saves of the neighbourhood that are under way and lets no other in: nothing comes between the
        // question and the answer.
        await RequireChangeAsync(by, written, cancel);
        if (!await holds())
        {
            throw new OvertakenException();
        }

        await StandingAsync(by, cancel);
        await base.SaveChangesAsync(acceptAllChangesOnSuccess: true, cancel);
        await PublishAsync(sharing, by, cancel);
        Number(history);
        if (!alone)
        {
            await Bulk.InsertAsync(this, sightings, cancel);
        }

        await Bulk.InsertAsync(this, history, cancel);
        await TellOthersAsync(by.NeighbourhoodId, cancel);
        cancel.ThrowIfCancellationRequested();
        // From here on it is stored: nobody can stop half of it.
        await transaction.CommitAsync(CancellationToken.None);
        Feed?.Tell(by.NeighbourhoodId);
        return change!.Id;
    }

    /// <summary>New rows of a kind, taken out of the context to be stored in bulk.</summary>
    private List<T> Detached<T>()
        where T : class
    {
        var added = ChangeTracker.Entries<T>().Where(e => e.State == EntityState.Added).ToList();
        added.ForEach(e => e.State = EntityState.Detached);
        return added.ConvertAll(e => e.Entity);
    }

    /// <summary>The framework stores its keys this way, and nothing else may.</summary>
    public override int SaveChanges(bool acceptAllChangesOnSuccess) =>
        ChangeTracker.Entries().All(e => e.State == EntityState.Unchanged || e.Entity is DataProtectionKey)
            ? base.SaveChanges(acceptAllChangesOnSuccess)
            : throw new NotSupportedException("Write with SaveAsync, which says who writes.");

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        DrawOffsets();
        RenewVersions();
        var written = Written();
        if (written.Count == 0)
        {
            return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        }

        var by = RequireNote(written);
        // The stamp moves in the same transaction: a caller's, or one of our own.
        await using var own = Database.CurrentTransaction is null ? await Database.BeginTransactionAsync(cancellationToken) : null;
        int stored;
        try
        {
            await StandingAsync(by, cancellationToken);
            var sharing = ChangesSharing(written);
            await RequireChangeAsync(by, written, cancellationToken);
            var history = HistoryOf(by, written);
            Number(history);
            ChangedRows.AddRange(history);
            stored = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
            await PublishAsync(sharing, by, cancellationToken);
            await TellOthersAsync(by.NeighbourhoodId, cancellationToken);
            if (own is not null)
            {
                await own.CommitAsync(cancellationToken);
            }
        }
        catch
        {
            ForgetChange();
            throw;
        }

        // Where a caller's transaction is still open this is early; whoever looks sees the old stamp and looks again at the next hint or
        // question.
        Feed?.Tell(by.NeighbourhoodId);
        return stored;
    }

    /// <summary>A new yard gets the offset of its place outside the group, once.</summary>
    private void DrawOffsets()
    {
        foreach (var yard in ChangeTracker.Entries<Yard>().Where(e => e.State == EntityState.Added).Select(e => e.Entity)
            .Where(y => (y.OffsetNorthMetres, y.OffsetEastMetres) == (0, 0)))
        {
            (yard.OffsetNorthMetres, yard.OffsetEastMetres) = YardOffset.Draw();
        }
    }

    private static bool ChangesSharing(List<EntityEntry> written) => written.Exists(e => e.Entity is Yard
        && (e.State != EntityState.Modified || e.Property(nameof(Yard.Shared)).IsModified || e.Property(nameof(Yard.BlockId)).IsModified));

    /// <summary>What the public may see by now is published in the very transaction that changed who shares; under the stamp, so that no
    /// two writes do so at once.</summary>
    private async Task PublishAsync(bool sharingChanged, ChangeNote by, CancellationToken cancel)
    {
        if (sharingChanged && await PublicSets.NewAsync(this, by.NeighbourhoodId, cancel) is { Count: > 0 } sets)
        {
            PublishedYards.AddRange(sets);
            await base.SaveChangesAsync(acceptAllChangesOnSuccess: true, cancel);
        }
    }

    private ChangeNote RequireNote(List<EntityEntry> written)
    {
        if (note is null)
        {
            throw new InvalidOperationException($"A {written[0].Metadata.ClrType.Name} was to be written without saying who writes: use "
                + $"SaveAsync.");
        }

        return written.Find(e => AuditTrail.NeighbourhoodOf(e) != note.NeighbourhoodId) is { } stray
            ? throw new InvalidOperationException($"A {stray.Metadata.ClrType.Name} of another neighbourhood was to be written.")
            : note;
    }

    private List<EntityEntry> Written() =>
        [.. ChangeTracker.Entries().Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted
            && AuditTrail.Keeps(e.Metadata))];

    private List<ChangedRow> HistoryOf(ChangeNote by, List<EntityEntry> written) => by.KeepsRows
        ? [.. written.Select(e => AuditTrail.Of(e, by, told)).OfType<ChangedRow>()] : [];

    /// <summary>One change for all that is saved in one transaction; what follows after it was stored is another, or its readers would miss
    /// it.</summary>
    private async Task RequireChangeAsync(ChangeNote by, List<EntityEntry> written, CancellationToken cancel)
    {
        if (change is null || changeTransaction != Database.CurrentTransaction!.TransactionId)
        {
            (change, changeTransaction, rows) = (await BeginChangeAsync(by, written, cancel),
                Database.CurrentTransaction!.TransactionId, 0);
            Changes.Add(change);
            // Each change names the columns of its kinds itself: it is undone by itself.
            told.Clear();
        }
    }

    private void Number(List<ChangedRow> history)
    {
        foreach (var row in history)
        {
            (row.ChangeId, row.Ordinal) = (change!.Id, ++rows);
        }
    }

    private async Task<Change> BeginChangeAsync(ChangeNote by, List<EntityEntry> written, CancellationToken cancel)
    {
        var isNew = written.Exists(e => e is { Entity: Neighbourhood, State: EntityState.Added });
        if (isNew)
        {
            Set<ChangeStamp>().Add(new ChangeStamp { NeighbourhoodId = by.NeighbourhoodId, LastChange = 1 });
        }

        var number = isNew ? 1 : await History.ChangeStamps.MoveAsync(this, by.NeighbourhoodId, cancel);
        if (written.Exists(e => e.Entity is Neighbourhood))
        {
            await History.ChangeStamps.CountAsync(this, SiteCounter.Neighbourhoods, cancel);
        }

        return new Change
        {
            NeighbourhoodId = by.NeighbourhoodId,
            Id = number,
            AtUtc = TimeProvider.System.GetUtcNow().UtcDateTime,
            What = by.What,
            MemberId = by.MemberId,
            By = by.By,
            From = by.From,
            UndoOfId = by.UndoOfId,
            EraseAtUtc = by.EraseAtUtc,
        };
    }

    /// <summary>After a save that failed: its number was rolled back with it, so the next try takes another.</summary>
    private void ForgetChange()
    {
        change = null;
        foreach (var entry in ChangeTracker.Entries().Where(e => e.State == EntityState.Added && e.Entity is Change or ChangedRow
            or ChangeStamp).ToList())
        {
            entry.State = EntityState.Detached;
        }
    }

    private async Task StandingAsync(ChangeNote by, CancellationToken cancel)
    {
        if (by.SessionId is not { } session)
        {
            return;
        }

        var now = TimeProvider.System.GetUtcNow().UtcDateTime;
        var stands = await Sessions.AnyAsync(s => s.Id == session && s.EndsAtUtc > now, cancel)
            && await Members.AcrossNeighbourhoods().AnyAsync(m => m.NeighbourhoodId == by.NeighbourhoodId && m.Id == by.MemberId
            && m.Role == by.By, cancel);
        if (!stands)
        {
            throw new AccessLostException();
        }
    }

    private void RenewVersions()
    {
        foreach (var entry in ChangeTracker.Entries())
        {
            if (entry.State is EntityState.Added or EntityState.Modified && entry.Metadata.FindProperty("Version") is not null)
            {
                entry.Property("Version").CurrentValue = Guid.NewGuid();
            }
        }
    }
}
