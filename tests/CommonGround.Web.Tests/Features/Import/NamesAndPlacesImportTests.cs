using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

public class NamesAndPlacesImportTests
{
    private const string Head = "yard,bed,scientific_name,observed_on,cover_m2\n";
    private const string InfestationHead = "yard,block,scientific_name,observed_on,area_m2,cover_percent,growth_stage\n";

    [Fact]
    public async Task An_unlisted_name_is_an_error_with_those_that_share_a_word()
    {
        using var garden = await Garden.WithOneYardAsync();
        var error = (await garden.ImportAsync(("sightings.csv", Head + "N-1,front,Symphyotrichum leave,2026-08-01,1\n"))).Errors
            .ShouldHaveSingleItem();
        (error.File, error.Line, error.Column, error.Value).ShouldBe(("sightings.csv", 2, "scientific_name", "Symphyotrichum leave"));
        error.HowToCorrect.ShouldStartWith("Did you mean Symphyotrichum laeve, Symphyotrichum oblongifolium? ");
        error.HowToCorrect.ShouldContain("allow names that the catalogue does not list");
    }

    [Fact]
    public async Task An_unlisted_name_that_is_allowed_counts_in_richness_and_in_nothing_else()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.ImportAsync(allowUnlisted: true, ("sightings.csv",
            Head + "N-1,front,Planta ignota,2026-08-01,1\nN-1,front,Symphyotrichum laeve,2026-08-01,1\n"))).Errors.ShouldBeEmpty();
        var site = (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood;
        (site.Richness, site.NativeRichness, site.IntroducedRichness, site.WithoutC).ShouldBe((2, 1, 0, 1));
        site.NativeMeanC.ShouldBe(8);
        site.MeanC.ShouldBe(8);
        site.Bloom.HalfMonths[15].N.ShouldBe(1);
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Taxa.SingleAsync(t => t.Unlisted)).ScientificName.ShouldBe("Planta ignota");
    }

    [Fact]
    public async Task An_unlisted_name_stays_one_taxon_however_often_and_in_whatever_case_it_is_written()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.ImportAsync(allowUnlisted: true, ("sightings.csv",
            Head + "N-1,front,Planta ignota,2026-07-01,1\nN-1,front,planta  Ignota,2026-07-02,2\nN-1,front,Planta cf. ignota,2026-07-03,3\n"))).Errors.ShouldBeEmpty();
        (await garden.ImportAsync(("sightings.csv", Head + "N-1,front,Planta Ignota,2026-07-04,4\n"))).Errors.ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Taxa.CountAsync(t => t.Unlisted)).ShouldBe(1);
        (await db.Sightings.CountAsync()).ShouldBe(4);
    }

    [Fact]
    public async Task An_infestation_lies_in_a_yard_or_on_a_block_of_a_street()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("more.csv", "street,block,yard,latitude,longitude,yard_m2\nSouth,A to B,S-1,41.6,-88.5,100\n"));
        await garden.StoreAsync(("infestations.csv", InfestationHead
            + "N-1,,Alliaria petiolata,2026-05-02,4,30,6\n,\"South, A to B\",Alliaria petiolata,2026-05-02,9,50,\n"));
        await using var db = await garden.Database.CreateDbContextAsync();
        var records = await db.Infestations.OrderBy(i => i.AreaSquareMetres).ToListAsync();
        records[0].YardId.ShouldBe((await garden.BedAsync()).Yard.Id);
        (records[0].AreaSquareMetres, records[0].CoverPercent, records[0].GrowthStage).ShouldBe((4, 30, 6));
        records[1].YardId.ShouldBeNull();
        records[1].BlockId.ShouldBe((await db.Yards.SingleAsync(y => y.Code == "S-1")).BlockId);
        records[1].GrowthStage.ShouldBeNull();
    }

    [Fact]
    public async Task A_block_of_two_streets_or_of_none_is_an_error_that_says_how_to_write_it()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("more.csv", "street,block,yard,latitude,longitude,yard_m2\nSouth,A to B,S-1,41.6,-88.5,100\n"));
        var outcome = await garden.ImportAsync(("infestations.csv",
            InfestationHead + ",A to B,Alliaria petiolata,2026-05-02,9,50,\n,B to C,Alliaria petiolata,2026-05-02,9,50,\n"));
        outcome.Errors.Select(e => (e.Line, e.Column, e.What))
            .ShouldBe([(2, "block", "Several streets have a block of this name."), (3, "block", "There is no block of this name.")]);
        outcome.Errors[0].HowToCorrect.ShouldContain("street, block");
    }

    [Fact]
    public async Task An_infestation_larger_than_its_yard_is_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.ImportAsync(("infestations.csv", InfestationHead + "N-1,,Alliaria petiolata,2026-05-02,101,30,6\n"))).Errors
            .ShouldHaveSingleItem().Column.ShouldBe("area_m2");
    }

    [Fact]
    public async Task Rain_and_temperature_meet_in_one_day_whichever_comes_first()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("rain.csv", "date,rain_mm\n2026-05-01,12.7\n2026-05-02,0\n"));
        await garden.StoreAsync(("temperature.csv", "date,tmin_c,tmax_c\n2026-05-01,3.5,14\n2026-04-30,-1,9\n"));
        await using var db = await garden.Database.CreateDbContextAsync();
        var days = await db.WeatherDays.OrderBy(w => w.Date).ToListAsync();
        days.Select(w => (w.Date.Day, w.RainMillimetres, w.MinimumCelsius, w.MaximumCelsius))
            .ShouldBe([(30, null, -1, 9), (1, 12.7, 3.5, 14), (2, 0, null, null)]);
    }

    [Fact]
    public async Task A_known_yard_is_brought_up_to_date_and_never_doubled()
    {
        using var garden = await Garden.WithOneYardAsync();
        var outcome = await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,B to C,n-1,41.5,-88.5,120,yes\n"));
        outcome.Counts.ShouldContain(new ImportCount("yards", 0, 1, 0));
        var (yard, _) = await garden.BedAsync();
        // The file has no column of lawns, so it says nothing of this one's.
        (yard.AreaSquareMetres, yard.Shared, yard.LawnSquareMetres).ShouldBe((120, true, 60));
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,lawn_m2,shared\nNorth,B to C,n-1,41.5,-88.5,120,,yes\n"));
        (await garden.BedAsync()).Yard.LawnSquareMetres.ShouldBeNull();
    }

    [Fact]
    public async Task A_bed_larger_than_its_yard_is_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        var error = (await garden.ImportAsync(("beds.csv", "yard,bed,area_m2\nN-1,vast,101\n"))).Errors.ShouldHaveSingleItem();
        (error.Line, error.Column).ShouldBe((2, "area_m2"));
        error.What.ShouldContain("100 m²");
    }

    [Fact]
    public async Task A_text_longer_than_the_record_holds_is_refused_with_its_line()
    {
        using var garden = await Garden.WithOneYardAsync();
        var code = new string('x', 41);
        var outcome = await garden.ImportAsync(
            ("places.csv", $"street,block,yard,latitude,longitude,yard_m2,household\nNorth,A to B,{code},41.5,-88.5,100,\nNorth,A to "
                + $"B,N-2,41.5,-88.5,100,{new string('h', 201)}\n"),
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2,observer\nN-1,front,Monarda "
                + $"fistulosa,2026-08-01,1,{new string('o', 201)}\n"));
        outcome.Errors.Select(e => (e.File, e.Line, e.Column))
            .ShouldBe([("places.csv", 2, "yard"), ("places.csv", 3, "household"), ("sightings.csv", 2, "observer")]);
    }
}
