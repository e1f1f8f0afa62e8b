using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

public class ImportFilesTests
{
    private const string Head = "yard,bed,scientific_name,observed_on,cover_m2,count\n";

    [Fact]
    public async Task One_bad_row_among_the_files_and_nothing_is_stored_and_every_error_is_told()
    {
        using var garden = await Garden.LayAsync();
        var outcome = await garden.ImportAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2\nNorth,A to B,N-1,41.5,-88.5,100\n"),
            ("sightings.csv",
                Head + "N-1,front,Monarda fistulosa,2026-08-01,1,\nN-9,front,Monarda fistulosa,2026-08-20,1,\nN-1,front,Monarda "
                    + "fistulosa,2026-07-01,much,\n"));
        outcome.Errors.Select(e => (e.File, e.Line, e.Column)).ShouldBe([("sightings.csv", 3, "yard"), ("sightings.csv", 3, "observed_on"),
            ("sightings.csv", 4, "cover_m2")], ignoreOrder: true);
        foreach (var error in outcome.Errors)
        {
            error.Value.ShouldNotBeEmpty();
            error.What.ShouldNotBeEmpty();
            error.HowToCorrect.ShouldNotBeEmpty();
        }

        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Streets.CountAsync() + await db.Yards.CountAsync() + await db.Beds.CountAsync() + await db.Sightings.CountAsync(
            )).ShouldBe(0);
    }

    [Fact]
    public async Task The_same_files_again_change_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        (string, string)[] files =
        [
            ("sightings.csv", Head + "N-1,front,Monarda fistulosa,2026-08-01,1,\nN-1,front,Aster laevis,2026-08-01,,2\n"),
            ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\nN-1,Alliaria petiolata,2026-05-02,4,30\n"),
            ("rain.csv", "date,rain_mm\n2026-05-01,12.7\n"),
            ("streets.geojson",
                """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.5,41.5],[-88.4,41.5]]}}]}"""),
        ];
        (await garden.StoreAsync(files)).Changed.ShouldBeTrue();
        var versions = (await garden.BedAsync()).Bed.Version;
        var again = await garden.StoreAsync(files);
        again.Changed.ShouldBeFalse();
        again.Counts.ShouldAllBe(c => c.Added == 0 && c.Changed == 0 && c.Unchanged > 0);
        (await garden.BedAsync()).Bed.Version.ShouldBe(versions);
    }

    // Every fact of a yard and a bed is given: light and the like were once compared as objects, and no yard equalled itself.
    [Fact]
    public async Task The_same_places_again_are_counted_as_unchanged_and_a_changed_one_as_changed()
    {
        using var garden = await Garden.LayAsync();
        const string Yards =
            "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,soil_group,household,shared\nNorth,A to "
            + "B,N-1,41.5,-88.5,700,300,full_sun,medium,B,The Smiths,yes\n";
        var other = "North,A to B,N-2,41.5,-88.5,600,200,shade,dry,C,The Joneses,no\n";
        var beds = ("beds.csv", "yard,bed,area_m2,light,moisture\nN-1,front,20,full_sun,medium\n");
        (await garden.StoreAsync(("places.csv", Yards + other), beds)).Counts.ShouldBe([new("yards", 2, 0, 0), new("beds", 1, 0, 0)]);
        (await garden.StoreAsync(("places.csv", Yards + other), beds)).Counts.ShouldBe([new("yards", 0, 0, 2), new("beds", 0, 0, 1)]);
        other = other.Replace("shade", "part_shade", StringComparison.Ordinal);
        (await garden.StoreAsync(("places.csv", Yards + other), beds)).Counts.ShouldBe([new("yards", 0, 1, 1), new("beds", 0, 0, 1)]);
    }

    [Fact]
    public async Task Checking_only_tells_what_would_happen_and_stores_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        var file = Interchange.ImportFile.Read("sightings.csv",
            System.Text.Encoding.UTF8.GetBytes(Head + "N-1,front,Monarda fistulosa,2026-08-01,1,\n"));
        var outcome = await new ImportFiles(garden.Database, garden.Neighbourhood).RunAsync([file],
            new ImportChoices(false, true, Garden.Today), null, CancellationToken.None);
        outcome.Counts.ShouldContain(new ImportCount("sightings", 1, 0, 0));
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Of_two_rows_of_one_bed_taxon_and_day_the_later_holds()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            Head + "N-1,front,Symphyotrichum laeve,2026-08-01,1,\nn-1,FRONT,Aster laevis,2026-08-01,2,\n"));
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(2);
        await garden.StoreAsync(("sightings.csv", Head + "N-1,front,Symphyotrichum laeve,2026-08-01,3,\n"));
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(3);
    }

    [Fact]
    public async Task Cover_0_ends_a_planting()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv", Head + "N-1,front,Monarda fistulosa,2026-07-01,4,\n"));
        (await garden.Live.NowAsync()).Yards[0].Presences.ShouldHaveSingleItem();
        await garden.StoreAsync(("sightings.csv", Head + "N-1,front,Monarda fistulosa,2026-08-01,0,\n"));
        (await garden.Live.NowAsync()).Yards[0].Presences.ShouldBeEmpty();
        (await garden.SightingsAsync()).Count.ShouldBe(2);
    }

    [Fact]
    public async Task What_a_file_does_not_tell_of_a_known_sighting_stays_as_it_is()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,origin,certainty,growth_stage,observer,remarks,verified_by,place_in_bed,seed_g\n"
                + "N-1,front,Monarda fistulosa,2026-08-01,1,self_sown,certain,8,Ada,by the wall,A. Botanist,left end,12\n"));
        await garden.StoreAsync(("again.csv", Head + "N-1,front,Monarda fistulosa,2026-08-01,2,\n"));
        var s = (await garden.SightingsAsync()).ShouldHaveSingleItem();
        (s.CoverSquareMetres, s.Origin, s.Certainty, s.GrowthStage, s.Observer, s.Remarks, s.VerifiedBy, s.PlaceInBed, s.SeedCollectedGrams)
            .ShouldBe((2, Ecology.Taxa.Origin.SelfSown, Ecology.Taxa.Certainty.Certain, 8, "Ada", "by the wall", "A. Botanist", "left end",
                12));
        // A column that is there and blank says that it is not known.
        await garden.StoreAsync(("blank.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,growth_stage,seed_g\nN-1,front,Monarda fistulosa,2026-08-01,2,,\n"));
        s = (await garden.SightingsAsync()).ShouldHaveSingleItem();
        (s.GrowthStage, s.SeedCollectedGrams, s.PlaceInBed).ShouldBe((null, null, "left end"));
    }

    [Fact]
    public async Task A_count_tells_its_cover_by_the_spacing_and_says_that_it_was_derived()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            Head + "N-1,front,Symphyotrichum laeve,2026-08-01,,12\nN-1,front,Monarda fistulosa,2026-08-01,1.5,3\n"));
        var sightings = await garden.SightingsAsync();
        // 12 plants at 0.5 m: 12 × 0.866 × 0.25 = 2.598 m².
        sightings[0].CoverSquareMetres.ShouldBe(2.598, 1e-12);
        (sightings[0].Count, sightings[0].CoverDerived).ShouldBe((12, true));
        (sightings[1].CoverSquareMetres, sightings[1].Count, sightings[1].CoverDerived).ShouldBe((1.5, 3, false));
    }

    [Fact]
    public async Task A_count_of_a_plant_without_a_spacing_is_an_error_that_says_what_to_give()
    {
        using var garden = await Garden.WithOneYardAsync();
        var error = (await garden.ImportAsync(("sightings.csv", Head + "N-1,front,Aquilegia canadensis,2026-08-01,,12\n"))).Errors
            .ShouldHaveSingleItem();
        (error.Column, error.HowToCorrect).ShouldBe(("count", "Give cover_m2 as well."));
    }

    [Fact]
    public async Task Synonyms_and_doubt_in_the_name_are_understood()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,certainty\nN-1,front,Aster cf. laevis,2026-07-01,1,\nN-1,front,Monarda aff. "
                + "fistulosa,2026-07-02,1,probable\nN-1,front,monarda  FISTULOSA,2026-07-03,1,certain\n"));
        var sightings = await garden.SightingsAsync();
        sightings.Select(s => Flora.All[s.TaxonId - 1].ScientificName).ShouldBe([Flora.Smooth, Flora.Bergamot, Flora.Bergamot]);
        sightings.Select(s => (s.Qualifier, s.Certainty)).ShouldBe([("cf.", Certainty.Tentative), ("aff.", Certainty.Probable),
            ("", Certainty.Certain)]);
    }

    [Fact]
    public async Task A_day_in_the_future_is_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        var outcome = await garden.ImportAsync(
            ("sightings.csv", Head + "N-1,front,Monarda fistulosa,2026-08-20,1,\n"),
                ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\nN-1,Alliaria petiolata,2026-08-20,4,30\n"),
                    ("rain.csv", "date,rain_mm\n2026-08-20,1\n"));
        outcome.Errors.Select(e => e.File).ShouldBe(["infestations.csv", "rain.csv", "sightings.csv"]);
        outcome.Errors.ShouldAllBe(e => e.What.Contains("future") && e.What.Contains("2026-08-19"));
        (await garden.ImportAsync(("sightings.csv", Head + "N-1,front,Monarda fistulosa,2026-08-19,1,\n"))).Errors.ShouldBeEmpty();
    }

    [Fact]
    public async Task Cover_beyond_the_bed_or_where_it_is_not_measured_the_yard_is_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        var outcome = await garden.ImportAsync(("sightings.csv",
            Head + "N-1,front,Monarda fistulosa,2026-08-01,10.5,\nN-1,back,Monarda fistulosa,2026-08-01,100.5,\nN-1,front,Symphyotrichum "
                + "laeve,2026-08-01,,500\n"));
        outcome.Errors.Select(e => (e.Line, e.Column)).ShouldBe([(2, "cover_m2"), (3, "cover_m2"), (4, "count")]);
        outcome.Errors[0].What.ShouldContain("the bed, which is 10 m²");
        outcome.Errors[1].What.ShouldContain("the yard, which is 100 m²");
        await garden.StoreAsync(("sightings.csv",
            Head + "N-1,front,Monarda fistulosa,2026-08-01,10,\nN-1,back,Monarda fistulosa,2026-08-01,100,\n"));
    }

    [Fact]
    public async Task An_unknown_yard_is_an_error_with_the_nearest_codes()
    {
        using var garden = await Garden.WithOneYardAsync();
        var error = (await garden.ImportAsync(("sightings.csv", Head + "N-11,front,Monarda fistulosa,2026-08-01,1,\n"))).Errors
            .ShouldHaveSingleItem();
        (error.Line, error.Column, error.Value).ShouldBe((2, "yard", "N-11"));
        error.HowToCorrect.ShouldContain("Did you mean N-1?");
    }

    [Fact]
    public async Task A_bed_first_named_by_a_sighting_is_made_with_its_area_unknown()
    {
        using var garden = await Garden.WithOneYardAsync();
        var outcome = await garden.StoreAsync(("sightings.csv",
            Head + "N-1,by the gate,Monarda fistulosa,2026-08-01,1,\nN-1,By The Gate,Symphyotrichum laeve,2026-08-01,1,\n"));
        outcome.Counts.ShouldContain(new ImportCount("beds", 1, 0, 0));
        (await garden.BedAsync(bed: "by the gate")).Bed.AreaSquareMetres.ShouldBeNull();
    }

    [Fact]
    public async Task Twenty_thousand_rows_are_stored_in_one_go()
    {
        using var garden = await Garden.LayAsync();
        var places = string.Concat(Enumerable.Range(0, 200).Select(i => $"North,B{i / 20},Y-{i},41.5,-88.5,100\n"));
        var sightings = string.Concat(Enumerable.Range(0, 20_000)
            .Select(i => $"Y-{i % 200},front,{Flora.All[i / 200 % 5].ScientificName},{new DateOnly(2026, 1, 1).AddDays(i / 1000):yyyy-MM-dd},{1 + (i % 7)},\n"));
        var outcome = await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2\n" + places),
            ("sightings.csv", Head + sightings));
        outcome.Counts.ShouldContain(new ImportCount("sightings", 20_000, 0, 0));
        (await garden.SightingsAsync()).Count.ShouldBe(20_000);
        (await garden.Live.NowAsync()).Yards.Count.ShouldBe(200);
    }
}
