using CommonGround.Storage.Infestations;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Weather;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

/// <summary>The last line of defence: what the database itself does not let in.</summary>
[Collection(DatabaseTests.Name)]
public class RefusedRowTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Names_and_codes_are_unique_where_they_must_be(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await RefusedAsync(database, new Yard
        {
            NeighbourhoodId = 1,
            BlockId = ground.Block.Id,
            Code = ground.Yard.Code,
            AreaSquareMetres = 1
        });
        await RefusedAsync(database, new Street { NeighbourhoodId = 1, Name = ground.Street.Name });
        await RefusedAsync(database, new StreetBlock { NeighbourhoodId = 1, StreetId = ground.Street.Id, Name = ground.Block.Name });
        await RefusedAsync(database, new Bed { NeighbourhoodId = 1, YardId = ground.Yard.Id, Name = ground.Bed.Name });
        await RefusedAsync(database, new Taxon
        {
            NeighbourhoodId = 1,
            Id = 99,
            ScientificName = ground.Taxon.ScientificName,
            Traits = Ground.Whole()
        });
    }

    [Theory, OnBothDatabases]
    public async Task A_bed_has_one_sighting_of_a_taxon_a_day(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await AcceptedAsync(database, ground.Sighting());
        await RefusedAsync(database, ground.Sighting());
        var nextDay = ground.Sighting();
        nextDay.ObservedOn = nextDay.ObservedOn.AddDays(1);
        await AcceptedAsync(database, nextDay);
    }

    [Theory, OnBothDatabases]
    public async Task A_day_of_weather_is_kept_once(string provider)
    {
        var (database, _) = await NewAsync(provider);
        await AcceptedAsync(database, new WeatherDay { NeighbourhoodId = 1, Date = new(2026, 5, 1), RainMillimetres = 1 });
        await RefusedAsync(database, new WeatherDay { NeighbourhoodId = 1, Date = new(2026, 5, 1), RainMillimetres = 2 });
    }

    [Theory, OnBothDatabases]
    public async Task Cover_below_nothing_and_stages_beyond_nine_are_refused(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.CoverSquareMetres = -0.001));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.GrowthStage = 10));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.GrowthStage = -1));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.Count = -1));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.SeedCollectedGrams = 0));
        await RefusedAsync(database, new Walks.Walk
        {
            NeighbourhoodId = 1,
            YardId = ground.Yard.Id,
            WalkedOn = new(2026, 8, 1),
            Minutes = 0,
            RecordedAtUtc = Ground.Recorded
        });
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.GrowthStage = 10));
        await AcceptedAsync(database, Changed(ground.Sighting(), s => (s.CoverSquareMetres, s.GrowthStage) = (0, 9)));
    }

    [Theory, OnBothDatabases]
    public async Task Yards_off_the_globe_and_lawns_larger_than_their_yard_are_refused(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        Yard Yard(double latitude, double longitude, double? lawn) => new()
        {
            NeighbourhoodId = 1,
            BlockId = ground.Block.Id,
            Code = $"{latitude}/{longitude}/{lawn}",
            Latitude = latitude,
            Longitude = longitude,
            AreaSquareMetres = 100,
            LawnSquareMetres = lawn
        };
        await RefusedAsync(database, Yard(91, 0, null));
        await RefusedAsync(database, Yard(-90.5, 0, null));
        await RefusedAsync(database, Yard(0, 180.01, null));
        await RefusedAsync(database, Yard(0, -181, null));
        await RefusedAsync(database, Yard(0, 0, 100.5));
        await RefusedAsync(database, Yard(0, 0, -1));
        await AcceptedAsync(database, Yard(90, -180, 100));
        await AcceptedAsync(database, Yard(-90, 180, null));
    }

    [Theory, OnBothDatabases]
    public async Task Beds_without_ground_and_infestations_out_of_range_are_refused(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await RefusedAsync(database, new Bed { NeighbourhoodId = 1, YardId = ground.Yard.Id, Name = "none", AreaSquareMetres = 0 });
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.AreaSquareMetres = -1));
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.CoverPercent = 100.5));
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.CoverPercent = -1));
        await RefusedAsync(database, new WeatherDay { NeighbourhoodId = 1, Date = new(2026, 5, 1), RainMillimetres = -0.1 });
    }

    [Theory, OnBothDatabases]
    public async Task A_row_cannot_point_to_one_that_is_not_there(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await RefusedAsync(database, new Street { NeighbourhoodId = 5, Name = "Nowhere" });
        await RefusedAsync(database, new Member { NeighbourhoodId = 5, Name = "nobody" });
        await RefusedAsync(database, new Taxon { NeighbourhoodId = 5, Id = 1, ScientificName = "Planta", Traits = Ground.Whole() });
        await RefusedAsync(database, new WeatherDay { NeighbourhoodId = 5, Date = new(2026, 5, 1) });
        await RefusedAsync(database, new StreetBlock { NeighbourhoodId = 1, StreetId = 5, Name = "Nowhere" });
        await RefusedAsync(database, new Yard { NeighbourhoodId = 1, BlockId = 5, Code = "X", AreaSquareMetres = 1 });
        await RefusedAsync(database, new Yard
        {
            NeighbourhoodId = 1,
            BlockId = ground.Block.Id,
            Code = "X",
            AreaSquareMetres = 1,
            OwnerId = 5
        });
        await RefusedAsync(database, new Bed { NeighbourhoodId = 1, YardId = 5, Name = "X" });
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.YardId = 5));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.BedId = 5));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.TaxonId = 5));
        await RefusedAsync(database, Changed(ground.Sighting(), s => s.RecordedById = 5));
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.BlockId = 5));
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.YardId = 5));
        await RefusedAsync(database, Changed(ground.Infestation(), i => i.TaxonId = 5));
    }

    [Theory, OnBothDatabases]
    public async Task A_row_that_others_stand_on_cannot_be_taken_away(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await AcceptedAsync(database, ground.Sighting());
        foreach (var row in new object[] { ground.Street, ground.Block, ground.Yard, ground.Bed, ground.Taxon, ground.Member })
        {
            await using var db = await database.CreateDbContextAsync();
            db.Remove(row);
            await Should.ThrowAsync<DbUpdateException>(() => db.SaveAsync(Note(db)), row.GetType().Name);
        }
    }

    private static T Changed<T>(T row, Action<T> change)
    {
        change(row);
        return row;
    }

    private async Task<(IDbContextFactory<CommonGroundDb> Database, Ground Ground)> NewAsync(string provider)
    {
        var database = await databases.NewAsync(provider);
        return (database, await Ground.LayAsync(database));
    }

    private static async Task AcceptedAsync(IDbContextFactory<CommonGroundDb> database, object row)
    {
        await using var db = await database.CreateDbContextAsync();
        db.Add(row);
        (await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"))).ShouldBeGreaterThan(0);
    }

    private static async Task RefusedAsync(IDbContextFactory<CommonGroundDb> database, object row)
    {
        await using var db = await database.CreateDbContextAsync();
        db.Add(row);
        var refused = await Should.ThrowAsync<Exception>(() => db.SaveAsync(Note(db)), row.GetType().Name);
        // Of a neighbourhood that is not there even the stamp cannot be moved.
        (refused is DbUpdateException or System.Data.Common.DbException).ShouldBeTrue(refused.ToString());
    }

    /// <summary>A note for the neighbourhood that the row names, there or not.</summary>
    private static CommonGround.Storage.History.ChangeNote Note(CommonGroundDb db) =>
        CommonGround.Storage.History.ChangeNote.OfProgram((int)db.ChangeTracker.Entries().First()
            .Property("NeighbourhoodId").CurrentValue!, "a test");
}
