using System.Reflection;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plans;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Tours;
using CommonGround.Storage.Walks;
using CommonGround.Storage.Weather;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Storage.Tests;

/// <summary>No query reaches into another neighbourhood by accident: a context sees one, or refuses to answer. Walks over every kind of row
/// the model has.</summary>
[Collection(DatabaseTests.Name)]
public class TenancyTests(Databases databases)
{
    private static readonly MethodInfo Counting = typeof(TenancyTests).GetMethod(nameof(NumbersAsync),
        BindingFlags.Static | BindingFlags.NonPublic)!;

    [Theory, OnBothDatabases]
    public async Task Every_row_that_belongs_to_a_neighbourhood_is_filtered_by_it(string provider)
    {
        await using var db = await databases.Bare(provider).CreateDbContextAsync();
        var bare = db.Model.GetEntityTypes().Where(HasNeighbourhood)
            .Where(t => t.GetDeclaredQueryFilters().All(f => f.Key != "Neighbourhood")).Select(t => t.DisplayName());
        bare.ShouldBeEmpty();
        db.Model.GetEntityTypes().Count(HasNeighbourhood).ShouldBeGreaterThan(14);
        // The rest is the group itself and who signs in: both are asked across the site, before anybody stands anywhere.
        db.Model.GetEntityTypes().Where(t => !HasNeighbourhood(t)
            && t.ClrType.Namespace!.StartsWith("CommonGround.", StringComparison.Ordinal)).Select(t => t.ClrType)
            .ShouldBe([typeof(Account), typeof(Neighbourhood), typeof(Session), typeof(SiteCounter)], ignoreOrder: true);
    }

    [Theory, OnBothDatabases]
    public async Task A_query_that_does_not_say_where_it_stands_is_not_answered(string provider)
    {
        var database = databases.Site(await databases.NewAsync(provider));
        await using var db = await database.CreateDbContextAsync();
        foreach (var type in db.Model.GetEntityTypes().Where(HasNeighbourhood))
        {
            (await Should.ThrowAsync<InvalidOperationException>(() => CountAsync(db, type, across: false), type.DisplayName())).Message
                .ShouldContain("does not say which neighbourhood");
        }

        (await Should.ThrowAsync<InvalidOperationException>(() => db.Yards.Where(y => y.Shared).ExecuteDeleteAsync())).Message
            .ShouldContain("does not say which neighbourhood");
        (await Should.ThrowAsync<InvalidOperationException>(() => db.Yards.FindAsync(1, 1L).AsTask())).Message
            .ShouldContain("does not say which neighbourhood");
    }

    [Theory, OnBothDatabases]
    public async Task A_query_sees_the_rows_of_its_own_neighbourhood_and_of_no_other(string provider)
    {
        var database = databases.Site(await databases.NewAsync(provider));
        for (var id = 1; id <= 3; id++)
        {
            await FillAsync(database, id);
        }

        for (var id = 1; id <= 3; id++)
        {
            await using var db = await database.In(id).CreateDbContextAsync();
            foreach (var type in db.Model.GetEntityTypes().Where(HasNeighbourhood))
            {
                (await CountAsync(db, type, across: false)).Distinct().ShouldBe([id], ignoreOrder: true, customMessage: type.DisplayName());
                (await CountAsync(db, type, across: true)).Distinct().ShouldBe([1, 2, 3], ignoreOrder: true,
                    customMessage: type.DisplayName());
            }

            // Joined tables and questions within questions are filtered too.
            (await db.Beds.CountAsync(b => db.Yards.Any(y => y.Id == b.YardId))).ShouldBe(1);
            (await db.Yards.Join(db.Blocks, y => y.BlockId, b => b.Id, (y, b) => new { y.NeighbourhoodId, Other = b.NeighbourhoodId })
                .ToListAsync()).ShouldAllBe(r => r.NeighbourhoodId == id && r.Other == id);
        }
    }

    [Theory, OnBothDatabases]
    public async Task What_is_altered_or_deleted_in_bulk_is_ones_own_too(string provider)
    {
        var database = databases.Site(await databases.NewAsync(provider));
        await FillAsync(database, 1);
        await FillAsync(database, 2);
        await using (var db = await database.In(2).CreateDbContextAsync())
        {
            (await db.Sightings.ExecuteUpdateAsync(set => set.SetProperty(s => s.Remarks, "two"))).ShouldBe(1);
            (await db.Sightings.ExecuteDeleteAsync()).ShouldBe(1);
        }

        await using var other = await database.In(1).CreateDbContextAsync();
        (await other.Sightings.SingleAsync()).Remarks.ShouldNotBe("two");
    }

    private static bool HasNeighbourhood(IReadOnlyEntityType type) => type.FindProperty("NeighbourhoodId") is not null;

    private static Task<List<int>> CountAsync(CommonGroundDb db, IReadOnlyEntityType type, bool across) =>
        (Task<List<int>>)Counting.MakeGenericMethod(type.ClrType).Invoke(null, [db, across])!;

    private static Task<List<int>> NumbersAsync<T>(CommonGroundDb db, bool across)
        where T : class => (across ? db.Set<T>().AcrossNeighbourhoods() : db.Set<T>()).Select(r => EF.Property<int>(r, "NeighbourhoodId"))
            .ToListAsync();

    /// <summary>One row of every kind.</summary>
    private static async Task FillAsync(IDbContextFactory<CommonGroundDb> database, int id)
    {
        var ground = await Ground.LayAsync(database, id);
        await using var db = await database.CreateDbContextAsync();
        db.AddRange(ground.Sighting(), ground.Infestation(), new WeatherDay { NeighbourhoodId = id, Date = new(2026, 5, 1) },
            new PriceRow { NeighbourhoodId = id, TaxonId = ground.Taxon.Id, PlugEach = 3 },
            new PlantOverride
            {
                NeighbourhoodId = id,
                TaxonId = ground.Taxon.Id,
                Trait = "height_max_m",
                Value = "1.2",
                Reason = "measured",
                SetAtUtc = Ground.Recorded
            },
            new PlantNote { NeighbourhoodId = id, TaxonId = ground.Taxon.Id, Text = "too tall", WrittenAtUtc = Ground.Recorded },
            new SavedPlan
            {
                NeighbourhoodId = id,
                YardId = ground.Yard.Id,
                Number = 1,
                Request = "{}",
                Shares = "{}",
                MadeAtUtc = Ground.Recorded
            },
            new Photo
            {
                NeighbourhoodId = id,
                YardId = ground.Yard.Id,
                FileName = $"{id}.jpg",
                Sha256 = "AB",
                AddedAtUtc = Ground.Recorded
            },
            new Invitation { NeighbourhoodId = id, CodeHash = $"hash {id}", MadeAtUtc = Ground.Recorded, EndsAtUtc = Ground.Recorded },
            new Walk
            {
                NeighbourhoodId = id,
                YardId = ground.Yard.Id,
                WalkedOn = new(2026, 8, 1),
                Minutes = 41,
                RecordedAtUtc = Ground.Recorded
            },
            ground.Treatment(),
            ground.Step(),
            new WildlifeRecord
            {
                NeighbourhoodId = id,
                YardId = ground.Yard.Id,
                ObservedOn = new(2026, 8, 1),
                RecordedAtUtc = Ground.Recorded
            },
            new Tour { NeighbourhoodId = id, Key = "KEYS-OF-TOURS", On = new(2026, 8, 22), YardId = ground.Yard.Id },
            new ReceivedNote
            {
                NeighbourhoodId = id,
                ClientId = Guid.NewGuid(),
                YardId = ground.Yard.Id,
                SaidAtUtc = Ground.Recorded,
                ReceivedAtUtc = Ground.Recorded
            },
            new PublishedYards
            {
                NeighbourhoodId = id,
                BlockId = ground.Block.Id,
                Yards = "1 2 3",
                Number = 1,
                SinceUtc = Ground.Recorded
            });
        await db.SaveAsync(ChangeNote.OfProgram(id, "a test"));
    }
}
