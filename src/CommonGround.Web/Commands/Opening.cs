using System.Data.Common;
using System.Security.Cryptography;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary>Makes a data folder ready: schema up to date, a neighbourhood in it, the catalogue loaded, the demo brought in once.</summary>
public static class Opening
{
    public static readonly DateOnly DemoToday = new(2026, 8, 19);

    /// <exception cref="DataFolderException">The folder cannot be opened; the message says why and what to do.</exception>
    public static async Task<OpenedNeighbourhood> OpenAsync(SiteOptions options, TimeProvider time, CancellationToken cancel = default)
    {
        Directory.CreateDirectory(options.DataFolder);
        var database = StorageRegistration.Open(options.Storage);
        await using var db = await database.CreateDbContextAsync(cancel);
        await MigrateAsync(db, schema => Care.BeforeUpgrade.WriteAsync(options, schema, time, cancel), cancel);
        var neighbourhood = await db.Neighbourhoods.AsNoTracking().OrderBy(n => n.Id).FirstOrDefaultAsync(cancel);
        if (neighbourhood is null)
        {
            neighbourhood = options.Demo
                ? new Neighbourhood { Id = 1, Name = "Quarry Bend", IsDemo = true, DemoToday = DemoToday, TimeZone = "America/Chicago" }
                : new Neighbourhood { Id = 1, Name = options.GroupName, TimeZone = options.TimeZone };
            db.Neighbourhoods.Add(neighbourhood);
            await db.SaveChangesAsync(cancel);
        }

        var opened = new OpenedNeighbourhood(
            new CurrentNeighbourhood(neighbourhood.Id, neighbourhood.Name, neighbourhood.IsDemo),
            new GroupClock(time, neighbourhood.TimeZone, neighbourhood.DemoToday),
            database);
        await LoadCatalogueAsync(database, opened, neighbourhood.CatalogueFingerprint, cancel);
        // Its people come last: without them the demo was never brought in whole.
        if (neighbourhood.IsDemo && !await db.Members.AnyAsync(m => m.NeighbourhoodId == neighbourhood.Id, cancel))
        {
            await LoadDemoAsync(database, opened, cancel);
        }

        return opened;
    }

    /// <param name="before">What to do first where there are data whose schema will change; it is told their last change.</param>
    public static async Task MigrateAsync(CommonGroundDb db, Func<string, Task>? before, CancellationToken cancel)
    {
        var known = db.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
        var applied = await AppliedAsync(db, cancel);
        var newer = applied.Find(m => !known.Contains(m));
        if (newer is not null)
        {
            throw new DataFolderException($"This database was written by a newer version of the program (it has the change '{newer}'). Start the newer version, or restore an older backup.");
        }

        if (applied.Count < known.Count)
        {
            if (applied.Count > 0 && before is not null)
            {
                await before(applied.Max(StringComparer.Ordinal)!);
            }

            await db.Database.MigrateAsync(cancel);
        }
    }

    /// <summary>The changes this database has had. Asked in plain SQL, because the library first builds a model of its own history table, at every start.</summary>
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

    private static async Task LoadCatalogueAsync(IDbContextFactory<CommonGroundDb> database, OpenedNeighbourhood opened, string fingerprint, CancellationToken cancel)
    {
        var path = Path.Combine(SiteOptions.SeedFolder, "plants.csv");
        var bytes = await File.ReadAllBytesAsync(path, cancel);
        var print = Convert.ToHexString(SHA256.HashData(bytes));
        if (print == fingerprint)
        {
            return;
        }

        await ImportAsync(database, opened, [ImportFile.Read("plants.csv", bytes)], cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        await db.Neighbourhoods.Where(n => n.Id == opened.Neighbourhood.Id).ExecuteUpdateAsync(set => set.SetProperty(n => n.CatalogueFingerprint, print), cancel);
    }

    private static async Task LoadDemoAsync(IDbContextFactory<CommonGroundDb> database, OpenedNeighbourhood opened, CancellationToken cancel)
    {
        string[] names = ["streets.geojson", "places.csv", "beds.csv", "sightings.csv", "infestations.csv", "rain.csv", "temperature.csv", "prices.csv"];
        var files = names.Select(n => ImportFile.Read(n, File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "quarry-bend", n)))).ToList();
        await ImportAsync(database, opened, files, cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var member = new Member { NeighbourhoodId = opened.Neighbourhood.Id, Name = "a member", Role = Role.Member };
        db.Members.Add(member);
        db.Members.Add(new Member { NeighbourhoodId = opened.Neighbourhood.Id, Name = "an organiser", Role = Role.Organiser });
        await db.SaveChangesAsync(cancel);
        // The demo member keeps the old prairie yard and one on the thin street.
        await db.Yards.Where(y => y.NeighbourhoodId == opened.Neighbourhood.Id && (y.Code == "LA-07" || y.Code == "KI-05"))
            .ExecuteUpdateAsync(set => set.SetProperty(y => y.OwnerId, member.Id), cancel);
        await transaction.CommitAsync(cancel);
    }

    private static async Task ImportAsync(IDbContextFactory<CommonGroundDb> database, OpenedNeighbourhood opened, IReadOnlyList<ImportFile> files, CancellationToken cancel)
    {
        var queries = new CommunityQueries(database, opened.Neighbourhood);
        using var live = new LiveCommunity(queries, opened.Clock);
        var outcome = await new ImportFiles(database, opened.Neighbourhood, live).RunAsync(files, new ImportChoices(false, false, opened.Clock.CalendarToday), null, cancel);
        if (outcome.Errors.Count > 0)
        {
            throw new DataFolderException("The files that come with the program cannot be read: " + string.Join(" ", outcome.Errors.Take(5)));
        }
    }
}

/// <summary>What a data folder holds, ready to serve.</summary>
/// <param name="Database">The one way in: its model and the queries it has learnt serve everybody after.</param>
public sealed record OpenedNeighbourhood(CurrentNeighbourhood Neighbourhood, GroupClock Clock, IDbContextFactory<CommonGroundDb> Database);

/// <summary>A data folder or database that cannot be used; the message is for the person at the terminal.</summary>
public sealed class DataFolderException : Exception
{
    public DataFolderException(string message) : base(message) { }

    public DataFolderException(string message, Exception inner) : base(message, inner) { }

    public DataFolderException() { }
}
