using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Storage.Tests;

/// <summary>Many neighbourhoods share one database: every key is led by the neighbourhood, so no row can reach into another's.</summary>
[Collection(DatabaseTests.Name)]
public class NeighbourhoodKeyTests(Databases databases)
{
    /// <remarks>A distributed PostgreSQL such as Citus asks for it; what does not is on every node: docs/scale.md lists both.</remarks>
    [Theory, OnBothDatabases]
    public async Task Every_key_reference_and_index_is_led_by_the_neighbourhood(string provider)
    {
        await using var db = await databases.Bare(provider).CreateDbContextAsync();
        var entities = db.Model.GetEntityTypes().Where(e => e.ClrType != typeof(Neighbourhood) && e.ClrType != typeof(SiteCounter)
            && !OfAccounts(e)).ToList();
        entities.Count.ShouldBeGreaterThan(8);
        foreach (var entity in entities)
        {
            Led(entity.FindPrimaryKey()!.Properties).ShouldBeTrue($"key of {entity.DisplayName()}");
            entity.GetForeignKeys().ShouldNotBeEmpty(entity.DisplayName());
            // Accounts belong to no neighbourhood: a member row is what ties one to it.
            foreach (var reference in entity.GetForeignKeys().Where(r => !OfAccounts(r.PrincipalEntityType)))
            {
                Led(reference.Properties).ShouldBeTrue(reference.ToString());
                (reference.PrincipalEntityType.ClrType == typeof(Neighbourhood)
                    || Led(reference.PrincipalKey.Properties)).ShouldBeTrue(reference.ToString());
            }

            // Two are asked across all neighbourhoods: whose code this is, and what is due to be erased.
            foreach (var index in entity.GetIndexes().Where(i => i.Properties[0].Name is not (nameof(Invitation.CodeHash)
                or nameof(Change.EraseAtUtc) or nameof(Member.AccountId))))
            {
                Led(index.Properties).ShouldBeTrue(index.ToString());
            }
        }
    }

    [Theory, OnBothDatabases]
    public async Task Two_neighbourhoods_with_the_same_codes_and_names_do_not_meet(string provider)
    {
        var database = await databases.NewAsync(provider);
        var first = await Ground.LayAsync(database, 1);
        var second = await Ground.LayAsync(database, 2);
        second.Yard.Code.ShouldBe(first.Yard.Code);
        await using var db = await database.CreateDbContextAsync();
        db.AddRange(first.Sighting(), first.Infestation());
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        db.AddRange(second.Sighting(), second.Infestation());
        await db.SaveAsync(ChangeNote.OfProgram(2, "a test"));
        (await db.Sightings.AcrossNeighbourhoods().Where(s => s.NeighbourhoodId == 2).Select(s => s.YardId)
            .ToListAsync()).ShouldBe([second.Yard.Id]);
        (await db.Yards.AcrossNeighbourhoods().CountAsync(y => y.Code == first.Yard.Code)).ShouldBe(2);
    }

    [Theory, OnBothDatabases]
    public async Task Even_the_same_row_number_may_stand_in_two_neighbourhoods(string provider)
    {
        var database = await databases.NewAsync(provider);
        var first = await Ground.LayAsync(database, 1);
        await Ground.LayAsync(database, 2);
        await using var db = await database.CreateDbContextAsync();
        db.Streets.Add(new Street { NeighbourhoodId = 2, Id = first.Street.Id, Name = "Another" });
        (await db.SaveAsync(ChangeNote.OfProgram(2, "a test"))).ShouldBeGreaterThan(0);
    }

    [Theory, OnBothDatabases]
    public async Task A_row_cannot_point_into_another_neighbourhood(string provider)
    {
        var database = await databases.NewAsync(provider);
        var first = await Ground.LayAsync(database, 1);
        await Ground.LayAsync(database, 2);
        await using var db = await database.CreateDbContextAsync();
        db.Yards.Add(new Yard { NeighbourhoodId = 2, BlockId = first.Block.Id, Code = "X", AreaSquareMetres = 1 });
        await Should.ThrowAsync<DbUpdateException>(() => db.SaveAsync(ChangeNote.OfProgram(2, "a test")));
    }

    [Theory, OnBothDatabases]
    public async Task A_save_for_one_neighbourhood_cannot_write_into_another(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database, 1);
        var second = await Ground.LayAsync(database, 2);
        await using var db = await database.CreateDbContextAsync();
        db.Add(second.Sighting());
        (await Should.ThrowAsync<InvalidOperationException>(() => db.SaveAsync(ChangeNote.OfProgram(1, "a test")))).Message
            .ShouldContain("another neighbourhood");
    }

    private static bool OfAccounts(IReadOnlyEntityType type) => type.ClrType.Namespace == typeof(Account).Namespace
        || type.ClrType.Namespace!.StartsWith("Microsoft.", StringComparison.Ordinal);

    private static bool Led(IReadOnlyList<IReadOnlyProperty> properties) => properties[0].Name == "NeighbourhoodId";
}
