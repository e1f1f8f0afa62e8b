using System.Diagnostics;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Tests;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>Whoever was told "saved" finds it again, whatever is killed in the middle.</summary>
public sealed class FaultTests : IDisposable
{
    private const int Kills = 20, Least = 300;
    private static readonly string[] Beds = ["front", "back"];
    private readonly TempFolder folder = new();

    /// <summary>What each of two people was told was saved, by the bed they record.</summary>
    private readonly Dictionary<string, List<string>> acknowledged = Beds.ToDictionary(b => b, _ => new List<string>(),
        StringComparer.Ordinal);

    private int Acknowledged => acknowledged.Values.Sum(a => a.Count);

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        folder.Dispose();
    }

    [Fact]
    public async Task Of_two_programs_killed_at_any_moment_neither_has_lost_what_it_acknowledged_on_sqlite()
    {
        var location = StorageLocation.SqliteFile(folder.File("commonground.db"));
        await LayAsync(location);
        var chance = new Random(1108);
        for (var kills = 0; kills < Kills || Acknowledged < Least; kills += 2)
        {
            kills.ShouldBeLessThan(120, "the writers hardly get to write");
            using var one = Writer(location, Beds[kills / 2 % 2]);
            using var other = Writer(location, Beds[(kills / 2 + 1) % 2]);
            await Task.WhenAll(ReadAsync(one, chance.Next(10, 20)), ReadAsync(other, chance.Next(10, 20)));
            await Task.Delay(chance.Next(0, 12));
            one.Process.Kill();
            // The other goes on in the middle of it, then meets the same.
            await ReadAsync(other, chance.Next(5, 15));
            await RestAsync(one);
            other.Process.Kill();
            await RestAsync(other);
            await CompareAsync(location);
        }
    }

    [Fact]
    public async Task A_postgresql_server_killed_at_any_moment_while_two_people_record_has_lost_nothing_that_was_acknowledged()
    {
        var cluster = new PostgresCluster(durable: true);
        await cluster.StartAsync();
        try
        {
            var location = new StorageLocation("postgres", cluster.NewDatabase());
            await LayAsync(location);
            var chance = new Random(2611);
            for (var kill = 0; kill < Kills || Acknowledged < Least; kill++)
            {
                kill.ShouldBeLessThan(60, "the writers hardly get to write");
                using (var one = Writer(location, Beds[0]))
                using (var other = Writer(location, Beds[1]))
                {
                    await Task.WhenAll(ReadAsync(one, chance.Next(6, 12)), ReadAsync(other, chance.Next(6, 12)));
                    await Task.Delay(chance.Next(0, 12));
                    await cluster.KillAsync();
                    // Each writer goes on until its next save is refused in words; nothing read after the kill is forgotten.
                    await Task.WhenAll(RestAsync(one), RestAsync(other));
                }

                await cluster.RestartAsync();
                await CompareAsync(location);
            }
        }
        finally
        {
            await cluster.StopAsync();
        }
    }

    [Fact]
    public async Task On_a_full_disk_a_save_is_refused_in_words_nothing_is_lost_and_with_room_it_works_again()
    {
        var location = StorageLocation.SqliteFile(folder.File("commonground.db"));
        await LayAsync(location);
        await CheckpointAsync(location);
        var size = new FileInfo(folder.File("commonground.db")).Length;
        // The system lets no file of the writer's grow beyond some 400 KiB: refused writes, as on a full disk (setrlimit(2): RLIMIT_FSIZE,
        // EFBIG once SIGXFSZ is ignored).
        using (var writer = Writer(location, Beds[0], limitKilobytes: (int)(size / 1024) + 400))
        {
            var lines = await RestAsync(writer);
            writer.Process.ExitCode.ShouldBe(1);
            lines[^1].ShouldStartWith("refused");
            lines[^1].ShouldContain("was not saved");
            lines[^1].ShouldContain("what you typed is kept", Case.Insensitive);
        }

        Acknowledged.ShouldBeGreaterThan(0);
        await CompareAsync(location);
        var before = Acknowledged;
        using (var again = Writer(location, Beds[0]))
        {
            await ReadAsync(again, 20);
            again.Process.Kill();
            await RestAsync(again);
        }

        Acknowledged.ShouldBeGreaterThanOrEqualTo(before + 20);
        await CompareAsync(location);
    }

    [Fact]
    public async Task A_database_that_may_not_grow_says_that_the_disk_is_full_and_takes_saves_again_when_it_may()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Bergamot, 1))).Problems.ShouldBeEmpty();
        // SQLite answers SQLITE_FULL when a file would outgrow max_page_count: https://www.sqlite.org/pragma.html#pragma_max_page_count.
        // The pool hands the same connection on.
        await LimitAsync(garden, "(SELECT 1)");
        var refused = await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { Remarks = new string('r', 60_000) });
        refused.ChangeId.ShouldBeNull();
        refused.Problems.ShouldHaveSingleItem().Message.ShouldStartWith("The disk that holds the record is full, so this was not saved.");
        (await garden.SightingsAsync()).Count.ShouldBe(1);
        await LimitAsync(garden, "1073741823");
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { Remarks = new string('r', 60_000) })).Problems
            .ShouldBeEmpty();
        (await garden.SightingsAsync()).Count.ShouldBe(2);
    }

    private static async Task LimitAsync(Garden garden, string pages)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        // A limit below the file's size becomes its size.
        command.CommandText = $"PRAGMA max_page_count = {(pages.StartsWith('(') ? "1" : pages)}";
        await command.ExecuteScalarAsync();
    }

    private static async Task LayAsync(StorageLocation location)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.MigrateAsync();
        var street = new Street { NeighbourhoodId = 1, Id = RowIds.Next(), Name = "North" };
        var block = new StreetBlock { NeighbourhoodId = 1, Id = RowIds.Next(), StreetId = street.Id, Name = "A to B" };
        var yard = new Yard
        {
            NeighbourhoodId = 1,
            Id = RowIds.Next(),
            BlockId = block.Id,
            Code = "N-1",
            Latitude = 41.5,
            Longitude = -88.5,
            AreaSquareMetres = 600
        };
        db.AddRange(new Neighbourhood { Id = 1, Name = "Testgrund", TimeZone = "America/Chicago" }, street, block, yard);
        db.AddRange(Beds.Select(b => new Bed { NeighbourhoodId = 1, Id = RowIds.Next(), YardId = yard.Id, Name = b }));
        db.Taxa.AddRange(Flora.All.Select((t, i) => new Taxon
        {
            NeighbourhoodId = 1,
            Id = i + 1,
            ScientificName = t.ScientificName,
            Traits = t
        }));
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
    }

    private RecordingPerson Writer(StorageLocation location, string bed, int? limitKilobytes = null)
    {
        var program = Path.Combine(AppContext.BaseDirectory, "CommonGround.Web.Tests.dll");
        string[] arguments = [location.Provider, location.ConnectionString, bed, Next(bed).ToString(), "100000"];
        var start = limitKilobytes is { } most
            // The runtime's own two mappings of compiled code are a file as well, so they are turned off under the limit.
            ? new ProcessStartInfo("bash", ["-c", $"trap '' XFSZ; ulimit -f {most}; exec dotnet \"$0\" \"$@\"", program,
            .. arguments])
            { Environment = { ["DOTNET_EnableWriteXorExecute"] = "0" } }
            : new ProcessStartInfo("dotnet", [program, .. arguments]);
        start.RedirectStandardOutput = true;
        start.UseShellExecute = false;
        return new(Process.Start(start) ?? throw new InvalidOperationException("The writer did not start."), acknowledged[bed]);
    }

    /// <summary>Past every count that was tried, acknowledged or not.</summary>
    private int Next(string bed) => acknowledged[bed] is [.., var last] ? int.Parse(last.Split(' ')[1]) + 2 : 1;

    private static async Task ReadAsync(RecordingPerson writer, int lines)
    {
        for (var i = 0; i < lines; i++)
        {
            var line = (await writer.Process.StandardOutput.ReadLineAsync()).ShouldNotBeNull("the writer stopped by itself");
            line.ShouldStartWith("saved");
            writer.Acknowledged.Add(line);
        }
    }

    /// <summary>What was still on its way when the writer ended.</summary>
    private static async Task<List<string>> RestAsync(RecordingPerson writer)
    {
        var lines = (await writer.Process.StandardOutput.ReadToEndAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries).ToList();
        await writer.Process.WaitForExitAsync();
        writer.Acknowledged.AddRange(lines.Where(l => l.StartsWith("saved", StringComparison.Ordinal)));
        return lines;
    }

    /// <summary>Every acknowledged save is there with its values; of the one cut off, both rows or neither.</summary>
    private async Task CompareAsync(StorageLocation location)
    {
        SqliteConnection.ClearAllPools();
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        (await DatabaseCopy.Of(location).FaultsAsync(db, default)).ShouldBeEmpty();
        foreach (var bed in await db.Beds.AsNoTracking().ToListAsync())
        {
            var stored = await db.Sightings.AsNoTracking().Where(s => s.BedId == bed.Id).ToDictionaryAsync(s => s.Id);
            foreach (var parts in acknowledged[bed.Name].Select(l => l.Split(' ')))
            {
                var row = stored.GetValueOrDefault(long.Parse(parts[2]))
                    .ShouldNotBeNull($"save {parts[1]} of {bed.Name} was acknowledged and is gone");
                (row.Count, row.CoverSquareMetres, row.ObservedOn).ShouldBe((int.Parse(parts[1]), 1.0,
                    Garden.Today.AddDays(-int.Parse(parts[1]))));
            }

            // At most one save a kill was under way. Its planting and the bed's new version come together or not at all.
            if (acknowledged[bed.Name] is [.., var line])
            {
                var last = line.Split(' ');
                var unanswered = stored.Values.Any(s => s.Count > int.Parse(last[1]));
                (bed.Version == Guid.Parse(last[3])).ShouldBe(!unanswered, "the planting and its bed were written by half");
            }

            stored.Count.ShouldBeLessThanOrEqualTo(acknowledged[bed.Name].Count + 60);
        }
    }

    private static async Task CheckpointAsync(StorageLocation location)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE)");
    }

    /// <summary>One who records in a process of their own.</summary>
    private sealed record RecordingPerson(Process Process, List<string> Acknowledged) : IDisposable
    {
        public void Dispose() => Process.Dispose();
    }
}
