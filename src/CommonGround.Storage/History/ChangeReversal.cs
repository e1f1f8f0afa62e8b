using System.Globalization;
using System.Text.Json;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Storage.History;

public enum ReversalResult
{
    /// <summary>Every row is as it was before the change; it remains to be saved.</summary>
    Ready,

    /// <summary>Something the change wrote was changed again since.</summary>
    ChangedSince,

    /// <summary>An earlier version of the program recorded it and did not note what to compare.</summary>
    NotNoted,

    /// <summary>What was kept cannot be read by this version: a kind of row or a way of writing values is no longer known.</summary>
    Unreadable,
}

/// <summary>Puts the rows of a change back as they were, in a context that stands in its neighbourhood and has not saved yet. Knows rows of
/// earlier schemas.</summary>
public static class ChangeReversal
{
    private const int AtOnce = 500;

    /// <summary>Takes back every row of a change, last first. The context no longer looks for changes by itself afterwards: what is set
    /// later is set on its entries.</summary>
    /// <param name="rows">All rows of one change.</param>
    public static async Task<ReversalResult> PrepareAsync(CommonGroundDb db, IReadOnlyList<ChangedRow> rows, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(rows);
        var kinds = db.Model.GetEntityTypes().Where(AuditTrail.Keeps).ToDictionary(t => RowKinds.Of(t)!, StringComparer.Ordinal);
        var columns = rows.Where(r => r.Columns is not null).ToDictionary(r => r.Kind, r => r.Columns!.Split(' '), StringComparer.Ordinal);
        if (rows.Any(r => !kinds.ContainsKey(r.Kind)))
        {
            return ReversalResult.Unreadable;
        }

        if (rows.Any(r => r.RowAction != RowAction.Removed && !columns.ContainsKey(r.Kind)))
        {
            return ReversalResult.NotNoted;
        }

        foreach (var (kind, noted) in columns.Where(c => HasGrown(kinds[c.Key], c.Value)))
        {
            if (await TouchedSinceAsync(db, [.. rows.Where(r => r.Kind == kind && r.RowAction != RowAction.Removed)], cancel))
            {
                return ReversalResult.ChangedSince;
            }
        }

        await BringAsync(db, rows, cancel);
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        try
        {
            foreach (var row in rows.OrderByDescending(r => r.Ordinal))
            {
                if (!await TakeBackAsync(db, kinds[row.Kind], row, columns.GetValueOrDefault(row.Kind, []), cancel))
                {
                    return ReversalResult.ChangedSince;
                }
            }
        }
        catch (JsonException)
        {
            return ReversalResult.Unreadable;
        }

        db.ChangeTracker.DetectChanges();
        return ReversalResult.Ready;
    }

    /// <summary>Undoes one row; false when it is not as the change left it.</summary>
    private static async Task<bool> TakeBackAsync(CommonGroundDb db, IEntityType kind, ChangedRow row, string[] columns,
        CancellationToken cancel)
    {
        var found = await db.FindAsync(kind.ClrType, AuditTrail.KeyValues(kind, row.NeighbourhoodId, row.RowKey), cancel);
        if (row.RowAction == RowAction.Removed)
        {
            if (found is not null)
            {
                return false;
            }

            var entry = db.Entry(Activator.CreateInstance(kind.ClrType)!);
            AuditTrail.Restore(entry, row.Before!);
            entry.State = EntityState.Added;
            return true;
        }

        if (found is null || !AuditTrail.IsUnchanged(db.Entry(found), row.Hash, columns))
        {
            return false;
        }

        if (row.RowAction == RowAction.Added)
        {
            db.Remove(found);
        }
        else
        {
            AuditTrail.PutBack(db.Entry(found), row.Before!);
        }

        return true;
    }

    /// <summary>Whether the model has columns now that the hash does not cover.</summary>
    private static bool HasGrown(IEntityType type, string[] noted) => AuditTrail.ColumnsOf(type).Split(' ').Except(noted,
        StringComparer.Ordinal).Any();

    /// <summary>A later value in a column that the hash does not cover is seen from history alone.</summary>
    private static async Task<bool> TouchedSinceAsync(CommonGroundDb db, IReadOnlyList<ChangedRow> rows, CancellationToken cancel)
    {
        foreach (var chunk in rows.Chunk(AtOnce))
        {
            var (first, keys) = (chunk[0], chunk.Select(r => r.RowKey).ToArray());
            if (await db.ChangedRows.AnyAsync(r => r.Kind == first.Kind && r.ChangeId > first.ChangeId && keys.Contains(r.RowKey), cancel))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Reads the rows of the large kinds a few hundred at a time rather than one by one.</summary>
    private static async Task BringAsync(CommonGroundDb db, IReadOnlyList<ChangedRow> rows, CancellationToken cancel)
    {
        foreach (var ids in Keys(RowKinds.Sighting))
        {
            await db.Sightings.Where(s => ids.Contains(s.Id)).LoadAsync(cancel);
        }

        foreach (var ids in Keys(RowKinds.Bed))
        {
            await db.Beds.Where(b => ids.Contains(b.Id)).LoadAsync(cancel);
        }

        foreach (var ids in Keys(RowKinds.Yard))
        {
            await db.Yards.Where(y => ids.Contains(y.Id)).LoadAsync(cancel);
        }

        IEnumerable<long[]> Keys(string kind) => rows.Where(r => r.Kind == kind && r.RowAction != RowAction.Removed)
            .Select(r => long.Parse(r.RowKey, CultureInfo.InvariantCulture)).Chunk(AtOnce);
    }
}
