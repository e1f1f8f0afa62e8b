using CommonGround.Storage.Operations;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Saving;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Storage.Tests.Saving;

/// <summary>What the door says of a write is true, on both databases.</summary>
[Collection(DatabaseTests.Name)]
public class DoorTests(Databases databases)
{
    private static readonly ChangeNote Note = ChangeNote.OfProgram(1, "a test");

    [Theory, OnBothDatabases]
    public async Task Whoever_was_overtaken_looks_again_and_stores_on_top_of_the_other(string provider)
    {
        var (database, _) = await NewAsync(provider);
        var looks = 0;
        var saved = await database.WriteAsync(async db =>
        {
            var bed = await db.Beds.SingleAsync();
            if (++looks == 1)
            {
                // Somebody is faster, between our look and our write.
                (await database.WriteAsync(async other =>
                {
                    (await other.Beds.SingleAsync()).AreaSquareMetres = 9;
                    return Note with { What = "the faster one" };
                })).IsStored.ShouldBeTrue();
            }

            bed.Name = "renamed";
            return Note;
        });
        (saved.IsStored, looks).ShouldBe((true, 2));
        await using var after = await database.CreateDbContextAsync();
        var stored = await after.Beds.SingleAsync();
        (stored.Name, stored.AreaSquareMetres).ShouldBe(("renamed", 9));
    }

    [Theory, OnBothDatabases]
    public async Task A_name_taken_a_moment_before_is_found_by_the_second_look(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var looks = 0;
        async Task<Intent> AddAsync(CommonGroundDb db)
        {
            if (await db.Beds.AnyAsync(b => b.Name == "side"))
            {
                return Intent.Refuse("name", "There is a bed of this name.");
            }

            if (++looks == 1)
            {
                (await database.WriteAsync(AddAsync)).IsStored.ShouldBeTrue();
            }

            db.Beds.Add(new Bed { NeighbourhoodId = 1, YardId = ground.Yard.Id, Name = "side" });
            return Note;
        }

        (await database.WriteAsync(AddAsync)).Problems.ShouldBe([new("name", "There is a bed of this name.")]);
    }

    [Theory, OnBothDatabases]
    public async Task Whoever_is_overtaken_every_time_is_told_so_in_the_end_and_not_before_three_looks(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var looks = 0;
        var saved = await database.WriteAsync(
            db =>
            {
                looks++;
                db.Beds.Add(new Bed { NeighbourhoodId = 1, YardId = ground.Yard.Id, Name = ground.Bed.Name });
                return Task.FromResult(Intent.Store(Note));
            }, new Problem("name", "in the caller's words"));
        (saved.Problems.Single().Message, saved.IsTrouble, looks).ShouldBe(("in the caller's words", false, 3));
    }

    [Theory, OnBothDatabases]
    public async Task A_value_that_breaks_a_rule_is_told_by_that_rule(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var saved = await database.WriteAsync(db =>
        {
            db.Beds.Add(new Bed { NeighbourhoodId = 1, YardId = ground.Yard.Id, Name = "none", AreaSquareMetres = -1 });
            return Task.FromResult(Intent.Store(Note));
        });
        saved.Problems.ShouldHaveSingleItem().Message.ShouldStartWith("A bed's area is above 0");
    }

    [Theory, OnBothDatabases]
    public async Task Every_rule_of_the_tables_has_words(string provider)
    {
        await using var db = await databases.Bare(provider).CreateDbContextAsync();
        var rules = db.GetService<IDesignTimeModel>().Model.GetEntityTypes().SelectMany(t => t.GetCheckConstraints()).Select(c => c.Name!)
            .ToList();
        rules.Count.ShouldBeGreaterThan(10);
        rules.Where(r => !RuleWords.Knows(r)).ShouldBeEmpty();
    }

    [Theory, OnBothDatabases]
    public async Task Changes_that_hold_together_are_stored_together_or_not_at_all(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var saved = await database.WriteTogetherAsync(async (db, save) =>
        {
            (await db.Beds.SingleAsync()).Name = "renamed";
            await save(Note);
            return [new Problem("", "the second does not go")];
        });
        saved.IsStored.ShouldBeFalse();
        await using var after = await database.CreateDbContextAsync();
        (await after.Beds.SingleAsync()).Name.ShouldBe(ground.Bed.Name);
    }

    [Theory, OnBothDatabases]
    public async Task Rows_stored_in_bulk_are_the_rows_stored_one_by_one_history_included(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var whole = ground.Sighting();
        var bare = ground.BareSighting();
        var saved = await database.WriteInBulkAsync(
            db =>
            {
                db.Sightings.AddRange(whole, bare);
                return Task.FromResult(Intent.Store(Note));
            }, _ => Task.FromResult(true), null);
        await using var after = await database.CreateDbContextAsync();
        (await after.Sightings.AsNoTracking().SingleAsync(s => s.Id == whole.Id)).ShouldBeEquivalentTo(whole);
        (await after.Sightings.AsNoTracking().SingleAsync(s => s.Id == bare.Id)).ShouldBeEquivalentTo(bare);
        var rows = await after.ChangedRows.AsNoTracking().Where(r => r.ChangeId == saved.ChangeId).ToListAsync();
        rows.Count.ShouldBe(2);
        (await ChangeReversal.PrepareAsync(after, rows, default)).ShouldBe(ReversalResult.Ready);
        await after.SaveAsync(Note);
        (await after.Sightings.CountAsync()).ShouldBe(0);
    }

    [Theory, OnBothDatabases]
    public async Task What_no_longer_holds_under_the_lock_is_looked_at_again_and_not_for_ever(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var (looks, held) = (0, 0);
        Task<Intent> PrepareAsync(CommonGroundDb db)
        {
            looks++;
            db.Sightings.Add(ground.Sighting());
            return Task.FromResult(Intent.Store(Note));
        }

        (await database.WriteInBulkAsync(PrepareAsync, _ => Task.FromResult(++held == 2), null)).IsStored.ShouldBeTrue();
        (looks, held).ShouldBe((2, 2));
        (await database.WriteInBulkAsync(PrepareAsync, _ => Task.FromResult(false), null)).Problems.ShouldHaveSingleItem(
            ).Message.ShouldContain("Somebody else saved");
        looks.ShouldBe(5);
    }

    /// <summary>
    /// SQLite waits <c>busy_timeout</c> for a lock (sqlite.org/pragma.html#pragma_busy_timeout), and Microsoft.Data.Sqlite tries again
    /// until the command's own timeout, 30 s by default, is over (learn.microsoft.com, "Database errors: locking, retries and timeouts").
    /// Both five seconds: the second is over as soon as the first is.
    /// </summary>
    [Fact]
    public async Task The_patience_for_a_locked_file_is_five_seconds_and_is_not_had_twice()
    {
        var database = await databases.NewAsync("sqlite");
        await using var db = await database.CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        var connection = (SqliteConnection)db.Database.GetDbConnection();
        await using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA busy_timeout";
        (await command.ExecuteScalarAsync()).ShouldBe(5000L);
        (command.CommandTimeout, connection.DefaultTimeout, db.Database.GetCommandTimeout()
            ?? connection.DefaultTimeout).ShouldBe((5, 5, 5));
    }

    [Fact]
    public async Task A_locked_file_is_told_as_such_after_one_patience_and_a_given_one_is_taken()
    {
        var database = await databases.NewAsync("sqlite");
        await Ground.LayAsync(database);
        var location = databases.LocationOf(database);
        await using var holder = new SqliteConnection(location.ConnectionString);
        await holder.OpenAsync();
        await using (var hold = holder.CreateCommand())
        {
            hold.CommandText = "BEGIN IMMEDIATE";
            await hold.ExecuteNonQueryAsync();
        }

        var impatient = StorageRegistration.Open(location with { ConnectionString = location.ConnectionString + ";Default Timeout=1" })
            .In(1);
        var looks = 0;
        var saved = await impatient.WriteAsync(async db =>
        {
            looks++;
            (await db.Beds.SingleAsync()).Name = "renamed";
            return Note;
        });
        // Whoever finds the file locked has waited once; looking again would be waiting again.
        (saved.IsTrouble, looks).ShouldBe((true, 1));
        saved.Problems.Single().Message.ShouldBe(new StorageFailure(StorageFailureKind.Busy, false).Message);
    }

    private async Task<(NeighbourhoodDatabase Database, Ground Ground)> NewAsync(string provider)
    {
        var database = await databases.NewAsync(provider);
        return (database, await Ground.LayAsync(database));
    }
}
