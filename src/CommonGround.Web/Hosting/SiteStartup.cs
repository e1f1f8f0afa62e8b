using System.Data.Common;
using System.Security.Cryptography;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Hosting;

/// <summary>Makes a data folder ready: schema up to date, a neighbourhood in it, the catalogue loaded, the demo brought in once.</summary>
public static class SiteStartup
{
    public static readonly DateOnly DemoToday = new(2026, 8, 19);

    /// <exception cref="DataFolderException">The folder cannot be opened; the message says why and what to do.</exception>
    public static async Task<OpenedSite> OpenAsync(SiteOptions options, TimeProvider time, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        PrivateFiles.Begin();
        Directory.CreateDirectory(options.DataFolder);
        StartingFaults.CheckBefore(options);
        try
        {
            return await OpenedAsync(options, time, cancel);
        }
        catch (Exception e) when (StartingFaults.Knows(e))
        {
            throw StartingFaults.InWords(e, options);
        }
    }

    private static async Task<OpenedSite> OpenedAsync(SiteOptions options, TimeProvider time, CancellationToken cancel)
    {
        var feed = new ChangeFeed();
        var database = StorageRegistration.Open(options.Storage, feed);
        await using var db = await database.CreateDbContextAsync(cancel);
        // Asked before an upgrade writes a backup of its own.
        var remains = StartingFaults.Remains(options);
        await MigrateAsync(db, schema => Operations.UpgradeBackup.WriteAsync(options, schema, time, cancel), cancel);
        RowIds.UseProgram(await ChangeStamps.NextProgramAsync(db, cancel));
        if (!await db.Neighbourhoods.AnyAsync(cancel))
        {
            if (remains is not null)
            {
                throw remains;
            }

            // Which of the two it is stands in the record from then on: no setting makes a demo of a real group, or the other way round.
            await StoreAsync(database, (CommonGroundDb there) => there.Neighbourhoods.Add(options.Demo ? DemoRow(options.DemoGroup)
                : new Neighbourhood { Id = 1, OffsetKey = PlaceOffset.NewKey(), Name = options.GroupName, TimeZone = options.TimeZone }),
                ChangeNote.OfProgram(1, "began the record"), cancel);
        }

        var neighbourhoods = new Neighbourhoods(database, time);
        await neighbourhoods.ReadAsync(cancel);
        foreach (var place in neighbourhoods.All)
        {
            await LoadCatalogueAsync(database, place, cancel);
            // Its people come last: without them the demo was never brought in whole.
            if (place.Neighbourhood.IsDemo && !await db.In(place.Neighbourhood.Id).Members.AnyAsync(cancel))
            {
                await LoadDemoAsync(database, place, cancel);
            }
        }

        return new OpenedSite(database, neighbourhoods, feed);
    }

    /// <param name="before">What to do first where there are data whose schema will change; it is told their last change.</param>
    public static async Task MigrateAsync(CommonGroundDb db, Func<string, Task>? before, CancellationToken cancel)
    {
        var known = db.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
        var applied = await AppliedAsync(db, cancel);
        var newer = applied.Find(m => !known.Contains(m));
        if (newer is not null)
        {
            throw new DataFolderException($"This database was written by a newer version of the program (it has the change '{newer}'). "
                + $"Start the newer version, or restore an older backup.");
        }

        if (applied.Count < known.Count)
        {
            if (applied.Count > 0 && before is not null)
            {
                await before(applied.Max(StringComparer.Ordinal)!);
            }

            await StoragePatience.UnboundedAsync(db, cancel);
            await db.Database.MigrateAsync(cancel);
        }
    }

    /// <summary>The changes this database has had. Asked in plain SQL, because the library first builds a model of its own history table,
    /// at every start.</summary>
    private static async Task<List<string>> AppliedAsync(CommonGroundDb db, CancellationToken cancel)
    {
        try
        {
            await db.Database.OpenConnectionAsync(cancel);
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\"";
            await using var reader = await command.ExecuteReaderAsync(cancel);
            var applied = new List<string>();
            while (await reader.ReadAsync(cancel))
            {
                applied.Add(reader.GetString(0));
            }

            return applied;
        }
        catch (DbException)
        {
            // No such table, or no such database yet: the library knows which.
            return [.. await db.Database.GetAppliedMigrationsAsync(cancel)];
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    /// <summary>Brings a neighbourhood the catalogue that came with the program, unless it has it already.</summary>
    public static async Task LoadCatalogueAsync(IDbContextFactory<CommonGroundDb> database, Place place, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(place);
        var bytes = await File.ReadAllBytesAsync(Path.Combine(SiteOptions.SeedFolder, "plants.csv"), cancel);
        var print = Convert.ToHexString(SHA256.HashData(bytes));
        var id = place.Neighbourhood.Id;
        await using var db = await database.CreateDbContextAsync(cancel);
        var row = await db.Neighbourhoods.AsNoTracking().SingleAsync(n => n.Id == id, cancel);
        if (row.OffsetKey.Length == 0)
        {
            await StoreAsync(database, async there => (await there.Neighbourhoods.SingleAsync(n => n.Id == id, cancel)).OffsetKey =
                PlaceOffset.NewKey(), ChangeNote.OfProgram(id, "made the key of the yards' offsets"), cancel);
        }

        await KeepOffsetsAsync(database, id, cancel);
        if (row.CatalogueFingerprint == print)
        {
            return;
        }

        await ImportAsync(database, place, [ImportFile.Read("plants.csv", bytes)],
            ChangeNote.OfProgram(id, "brought the catalogue") with { KeepsRows = false }, cancel);
        await StoreAsync(database, async there => (await there.Neighbourhoods.SingleAsync(n => n.Id == id, cancel)).CatalogueFingerprint =
            print, ChangeNote.OfProgram(id, "noted which catalogue it was"), cancel);
    }

    /// <summary>Yards from before offsets were kept: from now on each keeps the one its key gave so far.</summary>
    private static async Task KeepOffsetsAsync(IDbContextFactory<CommonGroundDb> database, int id, CancellationToken cancel)
    {
        await using var db = (await database.CreateDbContextAsync(cancel)).In(id);
        if (!await db.Yards.AnyAsync(y => y.OffsetNorthMetres == 0 && y.OffsetEastMetres == 0, cancel))
        {
            return;
        }

        await StoreAsync(database, async there =>
        {
            var key = (await there.Neighbourhoods.SingleAsync(n => n.Id == id, cancel)).OffsetKey;
            foreach (var yard in await there.Yards.Where(y => y.OffsetNorthMetres == 0 && y.OffsetEastMetres == 0).ToListAsync(cancel))
            {
                (yard.OffsetNorthMetres, yard.OffsetEastMetres) = PlaceOffset.OfKey(key, yard.Id);
            }
        }, ChangeNote.OfProgram(id, "kept the yards' offsets with them"), cancel);
    }

    /// <summary>Stores what the program itself brings; its files are at hand, so history keeps no rows.</summary>
    private static async Task StoreAsync(IDbContextFactory<CommonGroundDb> database, Func<CommonGroundDb, Task> fill, ChangeNote note,
        CancellationToken cancel)
    {
        var saved = await database.WriteAsync(
            async db =>
            {
                await fill(db.In(note.NeighbourhoodId));
                return note with { KeepsRows = false };
            }, cancel);
        if (!saved.IsStored)
        {
            throw new DataFolderException(saved.Problems[0].Message);
        }
    }

    private static Task StoreAsync(IDbContextFactory<CommonGroundDb> database, Action<CommonGroundDb> fill, ChangeNote note,
        CancellationToken cancel) => StoreAsync(
        database,
        db =>
        {
            fill(db);
            return Task.CompletedTask;
        }, note, cancel);

    private static Neighbourhood DemoRow(DemoGroup demo)
    {
        var row = new Neighbourhood
        {
            Id = 1,
            OffsetKey = PlaceOffset.NewKey(),
            Name = demo.Name,
            IsDemo = true,
            DemoToday = DemoToday,
            TimeZone = "America/Chicago"
        };
        Features.Regions.RegionSettings.Put(row, demo.Place, demo.Name);
        return row;
    }

    private static async Task LoadDemoAsync(IDbContextFactory<CommonGroundDb> database, Place place, CancellationToken cancel)
    {
        string[] names = ["streets.geojson", "places.csv", "beds.csv", "sightings.csv", "infestations.csv", "rain.csv", "temperature.csv",
            "prices.csv"];
        var demo = DemoGroup.All.FirstOrDefault(d => d.Name == place.Neighbourhood.Name) ?? DemoGroup.QuarryBend;
        var files = names.Select(n => (Name: n, Path: Path.Combine(SiteOptions.SeedFolder, demo.Folder, n))).Where(f => File.Exists(f.Path))
            .Select(f => ImportFile.Read(f.Name, File.ReadAllBytes(f.Path))).ToList();
        var id = place.Neighbourhood.Id;
        var note = ChangeNote.OfProgram(id, "brought the demo neighbourhood") with { KeepsRows = false };
        await ImportAsync(database, place, files, note, cancel);
        await StoreAsync(
            database,
            async db =>
            {
                var member = new Member { NeighbourhoodId = id, Id = RowIds.Next(), Name = "demo member", Role = Role.Member };
                db.Members.AddRange(member,
                    new Member { NeighbourhoodId = id, Name = "demo organiser", Role = Role.Organiser },
                    new Member { NeighbourhoodId = id, Name = "demo administrator", Role = Role.Administrator });
                // The demo member keeps the old prairie yard and one on the thin street.
                foreach (var yard in await db.Yards.Where(y => demo.MembersYards.Contains(y.Code)).ToListAsync(cancel))
                {
                    yard.OwnerId = member.Id;
                }
            }, note, cancel);
    }

    private static async Task ImportAsync(IDbContextFactory<CommonGroundDb> database, Place place, IReadOnlyList<ImportFile> files,
        ChangeNote note, CancellationToken cancel)
    {
        var outcome = await new ImportFiles(database.In(place.Neighbourhood.Id), place.Neighbourhood).RunAsync(files,
            new ImportChoices(false, false, place.Clock.CalendarToday) { By = note }, null, cancel);
        if (outcome.Errors.Count > 0)
        {
            throw new DataFolderException("The files that come with the program cannot be read: " + string.Join(" ",
                outcome.Errors.Take(5)));
        }
    }
}

/// <summary>What a data folder holds, ready to serve.</summary>
/// <param name="Database">The one way in: its model and the queries it has learnt serve everybody after.</param>
/// <param name="Feed">Tells of changes as they are stored.</param>
public sealed record OpenedSite(IDbContextFactory<CommonGroundDb> Database, Neighbourhoods Neighbourhoods, ChangeFeed Feed);

/// <summary>A data folder or database that cannot be used; the message is for the person at the terminal.</summary>
public sealed class DataFolderException : Exception
{
    public DataFolderException(string message) : base(message) { }

    public DataFolderException(string message, Exception inner) : base(message, inner) { }

    public DataFolderException() { }
}
