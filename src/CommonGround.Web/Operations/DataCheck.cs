using System.Data.Common;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Operations;

/// <summary>Looks the stored data over: the database, its references, the catalogue, rows the rules would no longer let in, photos and
/// left-over files. It changes nothing.</summary>
public static class DataCheck
{
    /// <returns>One sentence or two for each thing found: what, where, and how to correct it.</returns>
    /// <exception cref="DataFolderException">There is nothing to look over, or this program is too old for it.</exception>
    public static async Task<IReadOnlyList<string>> RunAsync(SiteOptions options, CancellationToken cancel)
    {
        var copy = DatabaseCopy.Of(options.Storage);
        if (await copy.IsEmptyAsync(cancel))
        {
            throw new DataFolderException($"There is no database in {options.DataFolder}: nothing to check. Name the right folder with "
                + $"--data, or restore a backup.");
        }

        await using var db = await StorageRegistration.Open(options.Storage).CreateDbContextAsync(cancel);
        var loose = new List<string>();
        var found = new List<string>();
        found.AddRange(await LookAsync("The schema", () => SchemaAsync(db, cancel)));
        if (found.Count == 0)
        {
            loose.AddRange(await LookAsync("The references", () => OrphanRows.FindAsync(db, cancel)));
            found.AddRange(await LookAsync("The catalogue", () => CatalogueCheck.FindAsync(db, cancel)));
            found.AddRange(await LookAsync("The sightings", () => SightingsAsync(db, cancel)));
            found.AddRange(await LookAsync("The photos", async () => PhotoFiles.Compare(await PhotoFiles.StoredAsync(db, cancel),
                options.PhotoFolder, await PhotoFiles.HeldAsync(db, cancel))));
        }

        // What the database itself finds comes first; a loose row that has been named already is not said twice.
        var faults = (await LookAsync("The database", () => copy.FaultsAsync(db, cancel))).Where(f =>
            !loose.Exists(l => l.StartsWith(f.Split(" points to ")[0], StringComparison.OrdinalIgnoreCase)));
        return [.. faults.Select(
            f => $"{copy.Product} database: {f}. What to do: stop the site, keep a copy of the data folder as it is, and restore the "
                + $"newest backup into a new one."), .. loose, .. found, .. LeftoverFiles.Find(options.DataFolder)];
    }

    /// <summary>A damaged database may break off any look at it; that is a finding, and the others go on.</summary>
    private static async Task<IReadOnlyList<string>> LookAsync(string what, Func<Task<IReadOnlyList<string>>> look)
    {
        try
        {
            return await look();
        }
        catch (DbException e)
        {
            return [$"{what} could not be looked over: {e.Message.TrimEnd('.')}"];
        }
    }

    private static async Task<IReadOnlyList<string>> SchemaAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var known = db.Database.GetMigrations().ToList();
        var applied = (await db.Database.GetAppliedMigrationsAsync(cancel)).ToList();
        return applied.Except(known).FirstOrDefault() is { } newer
            ? throw new DataFolderException($"This database was written by a newer version of the program (it has the change '{newer}'). "
            + $"Check it with that version.")
            : known.Except(applied).FirstOrDefault() is { } pending
                ? [$"The database has not had the change '{pending}' yet. What to do: run migrate or start the site; a backup is written "
                + $"first."]
                : [];
    }

    private static async Task<IReadOnlyList<string>> SightingsAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var absurd = await db.Sightings.AcrossNeighbourhoods()
            .Join(db.Beds, s => new { s.NeighbourhoodId, Id = s.BedId }, b => new { b.NeighbourhoodId, b.Id },
            (s, b) => new { s.NeighbourhoodId, s.CoverSquareMetres, s.ObservedOn, b.Name, b.AreaSquareMetres, b.YardId })
            .Where(x => x.AreaSquareMetres != null && x.CoverSquareMetres > x.AreaSquareMetres)
            .Join(db.Yards, x => new { x.NeighbourhoodId, Id = x.YardId }, y => new { y.NeighbourhoodId, y.Id },
            (x, y) => new { y.Code, x.Name, x.ObservedOn, x.CoverSquareMetres, x.AreaSquareMetres })
            .ToListAsync(cancel);
        return [.. absurd.Select(
            x => $"Yard {x.Code}, {x.Name}, {x.ObservedOn:yyyy-MM-dd}: a sighting covers {x.CoverSquareMetres} m², the bed is "
                + $"{x.AreaSquareMetres} m². What to do: record the plant again with its true cover, or correct the bed's area.")];
    }
}
