using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

/// <summary>Two people change the same yard or bed: the second is told, nothing is overwritten.</summary>
[Collection(DatabaseTests.Name)]
public class VersionTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Who_saves_a_bed_second_is_told(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        await using var first = await database.CreateDbContextAsync();
        await using var second = await database.CreateDbContextAsync();
        (await first.Beds.SingleAsync()).Name = "first";
        (await second.Beds.SingleAsync()).Name = "second";
        await first.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        await Should.ThrowAsync<DbUpdateConcurrencyException>(() => second.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1,
            "a test")));
        await using var after = await database.CreateDbContextAsync();
        (await after.Beds.SingleAsync()).Name.ShouldBe("first");
    }

    [Theory, OnBothDatabases]
    public async Task Who_saves_a_yard_second_is_told(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        await using var first = await database.CreateDbContextAsync();
        await using var second = await database.CreateDbContextAsync();
        (await first.Yards.SingleAsync()).Household = "first";
        (await second.Yards.SingleAsync()).Household = "second";
        await first.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        await Should.ThrowAsync<DbUpdateConcurrencyException>(() => second.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1,
            "a test")));
        await using var after = await database.CreateDbContextAsync();
        (await after.Yards.SingleAsync()).Household.ShouldBe("first");
    }

    [Theory, OnBothDatabases]
    public async Task A_version_changes_with_every_save_and_only_then(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        ground.Bed.Version.ShouldNotBe(Guid.Empty);
        await using var db = await database.CreateDbContextAsync();
        var bed = await db.Beds.SingleAsync();
        bed.Version.ShouldBe(ground.Bed.Version);
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        bed.Version.ShouldBe(ground.Bed.Version);
        bed.Name = "new";
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        bed.Version.ShouldNotBe(ground.Bed.Version);
    }
}
