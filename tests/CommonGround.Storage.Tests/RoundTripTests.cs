using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Weather;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

[Collection(DatabaseTests.Name)]
public class RoundTripTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Places_and_people_come_back_as_they_went(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        await using var db = await database.CreateDbContextAsync();
        (await db.Neighbourhoods.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Neighbourhood);
        (await db.Members.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Member);
        (await db.Streets.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Street);
        (await db.Blocks.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Block);
        (await db.Yards.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Yard);
        (await db.Beds.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(ground.Bed);
    }

    [Theory, OnBothDatabases]
    public async Task A_sighting_and_an_infestation_come_back_to_the_last_digit(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        var (sighting, infestation) = (ground.Sighting(), ground.Infestation());
        await SaveAsync(database, sighting, infestation);
        await using var db = await database.CreateDbContextAsync();
        (await db.Sightings.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(sighting);
        (await db.Infestations.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(infestation);
    }

    [Theory, OnBothDatabases]
    public async Task A_treatment_and_a_step_of_a_case_come_back_with_every_value(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        var (treatment, step) = (ground.Treatment(), ground.Step());
        await SaveAsync(database, treatment, step);
        await using var db = await database.CreateDbContextAsync();
        (await db.Treatments.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(treatment);
        (await db.CaseSteps.AsNoTracking().SingleAsync()).ShouldBeEquivalentTo(step);
    }

    [Theory, OnBothDatabases]
    public async Task A_moment_comes_back_as_the_same_moment_in_UTC(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        await SaveAsync(database, ground.Sighting(), ground.Infestation());
        await using var db = await database.CreateDbContextAsync();
        foreach (var moment in new[] { (await db.Sightings.SingleAsync()).RecordedAtUtc,
            (await db.Infestations.SingleAsync()).RecordedAtUtc, await db.Sightings.Select(s => s.RecordedAtUtc).MaxAsync() })
        {
            moment.ShouldBe(Ground.Recorded);
            moment.Kind.ShouldBe(DateTimeKind.Utc);
        }
    }

    [Theory, OnBothDatabases]
    public async Task Every_trait_of_a_catalogue_row_comes_back(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        await using var db = await database.CreateDbContextAsync();
        var stored = await db.Taxa.AsNoTracking().SingleAsync();
        SameTraits(stored.Traits, Ground.Whole());
        stored.Traits.Bloom!.Value.Contains(0).ShouldBeTrue();
        stored.Traits.Bloom!.Value.Contains(2).ShouldBeFalse();
        stored.Traits.Sources["bloom"].ShouldBe("from memory");
        stored.Unlisted.ShouldBeFalse();
    }

    [Theory, OnBothDatabases]
    public async Task Traits_nobody_knows_come_back_as_not_known_and_zeros_as_zeros(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        var plain = new CatalogueTaxon { ScientificName = "Planta ignota" };
        var zeros = new CatalogueTaxon
        {
            ScientificName = "Planta nulla",
            C = 0,
            PollinatorValue = 0,
            HeightMinMetres = 0,
            ControlStart = 0,
            ControlEnd = 0
        };
        await SaveAsync(database, new Taxon
        {
            NeighbourhoodId = 1,
            Id = 8,
            ScientificName = plain.ScientificName,
            Unlisted = true,
            Traits = plain
        }, new Taxon { NeighbourhoodId = 1, Id = 9, ScientificName = zeros.ScientificName, Traits = zeros });
        await using var db = await database.CreateDbContextAsync();
        var taxa = await db.Taxa.AsNoTracking().ToDictionaryAsync(t => t.Id);
        taxa[8].Unlisted.ShouldBeTrue();
        SameTraits(taxa[8].Traits, plain);
        taxa[8].Traits.C.ShouldBeNull();
        taxa[8].Traits.Bloom.ShouldBeNull();
        taxa[8].Traits.Synonyms.ShouldBeEmpty();
        taxa[8].Traits.Rank.ShouldBe("species");
        SameTraits(taxa[9].Traits, zeros);
        taxa[9].Traits.C.ShouldBe(0);
        taxa[9].Traits.PollinatorValue.ShouldBe(0);
        taxa[9].Traits.ControlStart.ShouldBe(0);
    }

    [Theory, OnBothDatabases]
    public async Task What_is_not_known_is_not_zero(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        var unmeasured = new Bed { NeighbourhoodId = 1, Id = RowIds.Next(), YardId = ground.Yard.Id, Name = "back" };
        var bare = new Yard { NeighbourhoodId = 1, Id = RowIds.Next(), BlockId = ground.Block.Id, Code = "B", AreaSquareMetres = 1 };
        var paved = new Yard
        {
            NeighbourhoodId = 1,
            Id = RowIds.Next(),
            BlockId = ground.Block.Id,
            Code = "P",
            AreaSquareMetres = 1,
            LawnSquareMetres = 0
        };
        var unseen = ground.BareSighting();
        await SaveAsync(database, unmeasured, bare, paved, unseen);
        await using var db = await database.CreateDbContextAsync();
        (await db.Beds.SingleAsync(b => b.Name == "back")).AreaSquareMetres.ShouldBeNull();
        var yards = await db.Yards.ToDictionaryAsync(y => y.Code);
        yards["B"].LawnSquareMetres.ShouldBeNull();
        yards["B"].Light.ShouldBeNull();
        yards["B"].OwnerId.ShouldBeNull();
        yards["P"].LawnSquareMetres.ShouldBe(0);
        var sighting = await db.Sightings.SingleAsync();
        (sighting.GrowthStage, sighting.Count, sighting.RecordedById).ShouldBe((null, null, null));
        sighting.CoverSquareMetres.ShouldBe(0);
    }

    [Theory, OnBothDatabases]
    public async Task A_day_of_weather_comes_back_whichever_half_is_known(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        WeatherDay[] days =
        [
            new() { NeighbourhoodId = 1, Date = new(2024, 2, 29), RainMillimetres = 0 },
            new() { NeighbourhoodId = 1, Date = new(2026, 5, 1), MinimumCelsius = -3.5, MaximumCelsius = 14.25 },
            new() { NeighbourhoodId = 1, Date = new(2026, 5, 2), RainMillimetres = 12.7, MinimumCelsius = 0, MaximumCelsius = 0 },
        ];
        await SaveAsync(database, [.. days.Cast<object>()]);
        await using var db = await database.CreateDbContextAsync();
        var stored = await db.WeatherDays.AsNoTracking().OrderBy(w => w.Date).ToListAsync();
        stored.ShouldBeEquivalentTo(days.ToList());
        (await db.WeatherDays.CountAsync(w => w.Date >= new DateOnly(2026, 5, 1))).ShouldBe(2);
    }

    [Theory, OnBothDatabases]
    public async Task Words_are_stored_as_words_so_that_a_new_one_in_between_changes_nothing(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        await SaveAsync(database, ground.Sighting());
        await using var db = await database.CreateDbContextAsync();
        (await db.Database.SqlQueryRaw<string>("""SELECT "Origin" AS "Value" FROM "Sightings" """).ToListAsync()).ShouldBe(["SelfSown"]);
        (await db.Database.SqlQueryRaw<string>("""SELECT "Moisture" AS "Value" FROM "Yards" """).ToListAsync()).ShouldBe(["Moist"]);
    }

    [Theory, OnBothDatabases]
    public async Task A_changed_trait_is_noticed_and_saved(string provider)
    {
        var database = await databases.NewAsync(provider);
        await Ground.LayAsync(database);
        await using (var db = await database.CreateDbContextAsync())
        {
            var taxon = await db.Taxa.SingleAsync();
            taxon.Traits = taxon.Traits with { CommonNames = ["pale coneflower"] };
            (await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"))).ShouldBeGreaterThan(0);
            taxon.Traits = taxon.Traits with { CommonNames = ["pale coneflower"] };
            await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
            (await db.Changes.CountAsync()).ShouldBe(2); // the laying of the ground and the first altering; the second altered nothing
        }

        await using var again = await database.CreateDbContextAsync();
        (await again.Taxa.SingleAsync()).Traits.DisplayName.ShouldBe("pale coneflower");
    }

    [Theory, OnBothDatabases]
    public async Task An_infestation_of_a_block_alone_has_no_yard(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        var record = new InfestationRecord
        {
            NeighbourhoodId = 1,
            BlockId = ground.Block.Id,
            TaxonId = 7,
            ObservedOn = new(2026, 5, 2),
            RecordedAtUtc = Ground.Recorded
        };
        await SaveAsync(database, record);
        await using var db = await database.CreateDbContextAsync();
        var stored = await db.Infestations.SingleAsync();
        stored.YardId.ShouldBeNull();
        stored.GrowthStage.ShouldBeNull();
        stored.Id.ShouldBe(record.Id);
        stored.Id.ShouldBeGreaterThan(0);
    }

    /// <summary>Trait by trait; lists in order, sources by key.</summary>
    private static void SameTraits(CatalogueTaxon stored, CatalogueTaxon expected)
    {
        foreach (var trait in typeof(CatalogueTaxon).GetProperties())
        {
            var (came, went) = (trait.GetValue(stored), trait.GetValue(expected));
            if (went is System.Collections.IEnumerable items and not string)
            {
                ((System.Collections.IEnumerable)came!).Cast<object>().ShouldBe(items.Cast<object>(),
                    ignoreOrder: trait.Name == nameof(CatalogueTaxon.Sources), trait.Name);
            }
            else
            {
                came.ShouldBe(went, trait.Name);
            }
        }
    }

    private static async Task SaveAsync(IDbContextFactory<CommonGroundDb> database, params object[] rows)
    {
        await using var db = await database.CreateDbContextAsync();
        db.AddRange(rows);
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
    }
}
