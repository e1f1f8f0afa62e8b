using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

[Collection(DatabaseTests.Name)]
public class SchemaTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task The_migrations_make_the_schema_the_model_describes(string provider)
    {
        var database = databases.Bare(provider);
        await using var db = await database.CreateDbContextAsync();
        (await db.Database.GetPendingMigrationsAsync()).ShouldNotBeEmpty();
        await db.Database.MigrateAsync();
        (await db.Database.GetPendingMigrationsAsync()).ShouldBeEmpty();
        db.Database.HasPendingModelChanges().ShouldBeFalse();
        await db.Database.MigrateAsync();
        (await db.Neighbourhoods.CountAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task Sqlite_writes_ahead_syncs_fully_waits_and_minds_references()
    {
        var database = await databases.NewAsync("sqlite");
        await using var db = await database.CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        (await PragmaAsync(db, "journal_mode")).ShouldBe("wal");
        (await PragmaAsync(db, "synchronous")).ShouldBe("2"); // FULL, https://www.sqlite.org/pragma.html#pragma_synchronous
        (await PragmaAsync(db, "foreign_keys")).ShouldBe("1");
        (await PragmaAsync(db, "busy_timeout")).ShouldBe("5000");
    }

    [Fact]
    public async Task A_sqlite_reader_does_not_wait_for_a_writer()
    {
        var database = await databases.NewAsync("sqlite");
        var ground = await Ground.LayAsync(database);
        await using var writer = await database.CreateDbContextAsync();
        await using var writing = await writer.Database.BeginTransactionAsync();
        writer.Add(ground.Sighting());
        await writer.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        await using var reader = await database.CreateDbContextAsync();
        (await reader.Sightings.CountAsync()).ShouldBe(0);
        await writing.CommitAsync();
        (await reader.Sightings.CountAsync()).ShouldBe(1);
    }

    [Fact]
    public void A_database_nobody_knows_is_refused_by_name()
    {
        var refusal = Should.Throw<ArgumentException>(() => StorageRegistration.Open(new StorageLocation("oracle", "")));
        refusal.Message.ShouldContain("oracle");
        refusal.Message.ShouldContain("sqlite or postgres");
    }

    [Fact]
    public void Row_numbers_are_never_handed_out_twice_and_grow()
    {
        var handedOut = new long[20_000];
        Parallel.For(0, handedOut.Length, i => handedOut[i] = RowIds.Next());
        handedOut.Distinct().Count().ShouldBe(handedOut.Length);
        RowIds.Next().ShouldBeGreaterThan(handedOut.Max());
    }

    private static async Task<string> PragmaAsync(CommonGroundDb db, string name)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"PRAGMA {name}";
        return Convert.ToString(await command.ExecuteScalarAsync())!;
    }
}
