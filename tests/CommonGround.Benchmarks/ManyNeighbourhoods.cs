using System.Data.Common;
using System.Diagnostics;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Benchmarks;

/// <summary>
/// 1,000 neighbourhoods of 10,000 plantings each in one database: how long a cold one takes to open, a save with its history to be stored,
/// and what stays in memory. Compared in the same run with plain SQL that writes the same rows.
/// </summary>
internal sealed class ManyNeighbourhoods(IDbContextFactory<CommonGroundDb> database)
{
    private const int Neighbourhoods = 1_000, Yards = 500, PlantingsPerYard = 20;
    private static readonly DateOnly Today = new(2026, 8, 19);
    private readonly Random random = new(1126);

    public static async Task PrintAsync(StorageLocation location)
    {
        var many = new ManyNeighbourhoods(StorageRegistration.Open(location));
        var since = Stopwatch.GetTimestamp();
        await many.FillAsync();
        Console.WriteLine($"{location.Provider}: {Neighbourhoods:n0} neighbourhoods, {Neighbourhoods * Yards * PlantingsPerYard:n0} "
            + $"plantings, filled in {Stopwatch.GetElapsedTime(since).TotalSeconds:0} s");
        await many.OpenAsync();
        await many.SaveAsync();
        await many.StayAsync();
    }

#pragma warning disable EF1002 // Only names and numbers written in this project get here.
    private async Task FillAsync()
    {
        var taxa = CatalogueFile.Read("plants.csv", await File.ReadAllBytesAsync(Path.Combine(SiteOptions.SeedFolder, "plants.csv"))).Taxa;
        await using var db = await database.CreateDbContextAsync();
        await SiteStartup.MigrateAsync(db, null, default);
        await LayFirstAsync(db, taxa);
        // The others are copies under another number: every key begins with the neighbourhood.
        await db.Database
            .ExecuteSqlRawAsync($"INSERT INTO \"Neighbourhoods\" ({Columns<Neighbourhood>(db, "Id")}, \"Id\") SELECT {Columns<Neighbourhood>(db, "Id")}, n FROM (WITH RECURSIVE numbers(n) AS (SELECT 2 UNION ALL SELECT n + 1 FROM numbers WHERE n < {Neighbourhoods}) SELECT n FROM numbers) AS t, \"Neighbourhoods\" WHERE \"Id\" = 1");
        foreach (var (table, columns) in new[] { Copied<ChangeStamp>(db), Copied<Taxon>(db), Copied<Street>(db), Copied<StreetBlock>(db),
            Copied<Yard>(db), Copied<Bed>(db), Copied<Sighting>(db) })
        {
            for (var from = 2; from <= Neighbourhoods; from += 50)
            {
                await db.Database
                    .ExecuteSqlRawAsync($"INSERT INTO \"{table}\" ({columns}, \"NeighbourhoodId\") SELECT {Prefixed(columns)}, n.\"Id\" FROM \"{table}\" AS t, \"Neighbourhoods\" AS n WHERE t.\"NeighbourhoodId\" = 1 AND n.\"Id\" BETWEEN {from} AND {Math.Min(from + 49, Neighbourhoods)}");
            }
        }

        await db.Database.ExecuteSqlRawAsync("ANALYZE");
        await Statistics.RenewAsync(db);
    }

#pragma warning restore EF1002

    private async Task LayFirstAsync(CommonGroundDb db, IReadOnlyList<CatalogueTaxon> taxa)
    {
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        db.Neighbourhoods.Add(new Neighbourhood
        {
            Id = 1,
            Name = "An invented neighbourhood",
            TimeZone = "America/Chicago",
            DemoToday = Today
        });
        db.Taxa.AddRange(taxa.Select((t, i) => new Taxon
        {
            NeighbourhoodId = 1,
            Id = i + 1,
            ScientificName = t.ScientificName,
            Traits = t
        }));
        for (var y = 0; y < Yards; y++)
        {
            var block = (y / 12) + 1;
            if (y % 12 == 0)
            {
                db.Streets.Add(new Street { NeighbourhoodId = 1, Id = block, Name = $"Street {block}" });
                db.Blocks.Add(new StreetBlock
                {
                    NeighbourhoodId = 1,
                    Id = block,
                    StreetId = block,
                    Name = "A to B",
                    MiddleLatitude = 41.5 + (block / 500.0),
                    MiddleLongitude = -90.5
                });
            }

            db.Yards.Add(new Yard
            {
                NeighbourhoodId = 1,
                Id = y + 1,
                BlockId = block,
                Code = $"Y-{y + 1}",
                Latitude = 41.5 + (block / 500.0),
                Longitude = -90.5 + (y % 12 / 4000.0),
                AreaSquareMetres = 600,
                Shared = y % 5 != 0
            });
            db.Beds.Add(new Bed { NeighbourhoodId = 1, Id = y + 1, YardId = y + 1, Name = "front", AreaSquareMetres = 400 });
            foreach (var taxon in Enumerable.Range(1, taxa.Count).OrderBy(_ => random.Next()).Take(PlantingsPerYard))
            {
                db.Sightings.Add(new Sighting
                {
                    NeighbourhoodId = 1,
                    Id = (y * 10_000L) + taxon + 1_000_000L,
                    YardId = y + 1,
                    BedId = y + 1,
                    TaxonId = taxon,
                    ObservedOn = Today.AddDays(-random.Next(300)),
                    CoverSquareMetres = 1 + random.NextDouble(),
                    Observer = "a walker"
                });
            }
        }

        await db.SaveAsync(ChangeNote.OfProgram(1, "built an invented neighbourhood") with { KeepsRows = false });
    }

    /// <summary>Every figure of a neighbourhood that nobody looked at before.</summary>
    private async Task OpenAsync()
    {
        var times = new List<double>();
        for (var i = 0; i < 43; i++)
        {
            var live = LiveOf(Any());
            var since = Stopwatch.GetTimestamp();
            await live.FiguresAsync(organiser: false);
            times.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
        }

        // The first three also compile the code.
        Print("a cold neighbourhood opened, every figure", times[3..]);
        var warm = LiveOf(1);
        await warm.FiguresAsync(organiser: false);
        var compared = new List<double>();
        for (var i = 0; i < 500; i++)
        {
            var since = Stopwatch.GetTimestamp();
            await warm.FiguresAsync(organiser: false);
            compared.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
        }

        Print("an answer from memory, stamp compared", compared[100..]);
    }

    private async Task SaveAsync()
    {
        var currentUser = new CurrentUser(Role.Organiser, null, "an organiser", Customary: false);
        List<double> ours = [], plain = [];
        for (var i = 0; i < 220; i++)
        {
            var (id, yard) = (Any(), random.Next(Yards) + 1);
            await using var db = await database.In(id).CreateDbContextAsync();
            var bed = await db.Beds.AsNoTracking().SingleAsync(b => b.Id == yard);
            var taxon = (await db.Taxa.AsNoTracking().SingleAsync(t => t.Id == (i % 100) + 1)).Traits;
            var record = new RecordPlantings(database.In(id), new CurrentNeighbourhood(id, "", false), Clock());
            var sheet = new RecordSheet(yard, yard, bed.Version, Today, "a walker",
                [new PlantingDraft { Typed = taxon.ScientificName, Taxon = taxon, CoverSquareMetres = 1.5, SameDay = SameDay.InPlace }]);
            var since = Stopwatch.GetTimestamp();
            var saved = await record.SaveAsync(sheet, currentUser with { NeighbourhoodId = id });
            ours.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
            if (saved.ChangeId is null)
            {
                throw new InvalidOperationException(string.Join(" ", saved.Problems.Select(p => p.Message)));
            }

            plain.Add(await PlainAsync(db, id, yard, 5_000_000_000 + i));
        }

        Print("a planting saved with its history", ours[20..]);
        Print("the same rows in plain SQL", plain[20..]);
    }

    /// <summary>What a save has to write, and nothing more: stamp, change, two rows of history, the sighting, the bed's version.</summary>
    private static async Task<double> PlainAsync(CommonGroundDb db, int id, int yard, long number)
    {
        var connection = db.Database.GetDbConnection();
        await db.Database.OpenConnectionAsync();
        var since = Stopwatch.GetTimestamp();
        await using (var transaction = await connection.BeginTransactionAsync())
        {
            await using var command = connection.CreateCommand();
            command.Transaction = transaction;
            command.CommandText =
                $"""
                UPDATE "ChangeStamps" SET "LastChange" = "LastChange" + 1 WHERE "NeighbourhoodId" = {id};
                INSERT INTO "Changes" ("NeighbourhoodId", "Id", "AtUtc", "What", "From") VALUES ({id}, {number}, CURRENT_TIMESTAMP, 'recorded 1 planting', '');
                INSERT INTO "ChangedRows" ("NeighbourhoodId", "ChangeId", "Ordinal", "Kind", "RowKey", "RowAction", "YardId", "Hash") VALUES ({id}, {number}, 1, 'Sighting', '{number}', 'Added', {yard}, '');
                INSERT INTO "Sightings" ("NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "ObservedOn", "CoverSquareMetres", "CoverDerived", "Origin", "Certainty", "Qualifier", "Observer", "Remarks", "RecordedAtUtc")
                VALUES ({id}, {number}, {yard}, {yard}, 1, '1999-01-{(number % 28) + 1:00}', 1.5, {(db.Database.IsSqlite() ? "0" : "false")}, 'Planted', 'Certain', '', 'a walker', '', CURRENT_TIMESTAMP);
                UPDATE "Beds" SET "Version" = '{Guid.NewGuid()}' WHERE "NeighbourhoodId" = {id} AND "Id" = {yard};
                """;
            await command.ExecuteNonQueryAsync();
            await transaction.CommitAsync();
        }

        return Stopwatch.GetElapsedTime(since).TotalMilliseconds;
    }

    /// <summary>Everybody's neighbourhood is looked at once; what is held stays within its bound.</summary>
    private async Task StayAsync()
    {
        const int Looked = 300;
        const long MostCells = 1_000_000;
        var all = new Neighbourhoods(database, TimeProvider.System);
        await all.ReadAsync();
        var before = Memory();
        foreach (var place in all.All.Take(Looked))
        {
            await place.Live.NowAsync();
            all.ForgetIdle(TimeSpan.FromMinutes(15), MostCells);
        }

        var held = all.All.Count(p => p.Live.CellsHeld > 0);
        Console.WriteLine($"{Looked} neighbourhoods looked at with room for {MostCells:n0} plantings: {held} held, "
            + $"{(Memory() - before) / 1024.0 / 1024:0} MB");
        GC.KeepAlive(all);
    }

    private static long Memory()
    {
        GC.Collect(2, GCCollectionMode.Forced, blocking: true, compacting: true);
        return GC.GetTotalMemory(forceFullCollection: true);
    }

    private int Any() => random.Next(Neighbourhoods) + 1;

    private static GroupClock Clock() => new(TimeProvider.System, "America/Chicago", Today);

    private LiveCommunity LiveOf(int id) => new(new CommunityQueries(database.In(id), new CurrentNeighbourhood(id, "", false)), Clock(),
        TimeProvider.System);

    private static void Print(string what, List<double> milliseconds)
    {
        milliseconds.Sort();
        Console.WriteLine($"{what}: median {milliseconds[milliseconds.Count / 2]:0.00} ms, 95 % within "
            + $"{milliseconds[(int)(milliseconds.Count * 0.95)]:0.00} ms, longest {milliseconds[^1]:0.00} ms, of {milliseconds.Count}");
    }

    private static (string Table, string Columns) Copied<T>(CommonGroundDb db)
        where T : class => (db.Model.FindEntityType(typeof(T))!.GetTableName()!, Columns<T>(db, "NeighbourhoodId"));

    private static string Columns<T>(CommonGroundDb db, string without)
        where T : class => string.Join(", ", db.Model.FindEntityType(typeof(T))!.GetProperties().Select(p => p.GetColumnName())
            .Where(c => c != without).Select(c => $"\"{c}\""));

    private static string Prefixed(string columns) => string.Join(", ", columns.Split(", ").Select(c => "t." + c));
}
