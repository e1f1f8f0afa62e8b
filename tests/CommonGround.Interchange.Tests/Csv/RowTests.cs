using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Tests.Csv;

public class RowTests
{
    [Fact]
    public void A_place_is_read_whole()
    {
        var place = TestFiles.Rows(TestFiles.PlacesHeader, TestFiles.GoodPlace).Places.ShouldHaveSingleItem();
        (place.Street, place.Block, place.Yard, place.Latitude, place.Longitude).ShouldBe(("Kiln Street", "Race to Lathe", "KI-01", 41.9,
            -88.3));
        (place.YardSquareMetres, place.LawnSquareMetres, place.Light, place.Moisture).ShouldBe((600, 400, Light.FullSun, Moisture.Medium));
        (place.SoilGroup, place.Household, place.Shared, place.Line).ShouldBe((SoilGroup.B, "Household KI-01", true, 2));
    }

    [Fact]
    public void What_a_place_leaves_blank_is_unknown_and_not_shared()
    {
        var place = TestFiles.Rows("street,block,yard,latitude,longitude,yard_m2",
            "Kiln Street,A,KI-01,41.9,-88.3,600").Places.ShouldHaveSingleItem();
        (place.LawnSquareMetres, place.Light, place.Moisture, place.SoilGroup, place.Shared).ShouldBe((null, null, null, null, false));
    }

    [Fact]
    public void A_place_south_of_the_equator_is_refused_with_how_to_mend_it()
    {
        var error = TestFiles.Rows(TestFiles.PlacesHeader, TestFiles.GoodPlace.Replace("41.9", "-41.9", StringComparison.Ordinal))
            .OnlyError();
        (error.Line, error.Column, error.Value).ShouldBe((2, "latitude", "-41.9"));
        error.What.ShouldStartWith("This lies south of the equator");
    }

    [Theory]
    [InlineData("3,0", false)]
    [InlineData("0,0", true)]
    [InlineData(",0", true)]
    [InlineData("3,", true)]
    public void Nothing_counted_and_yet_ground_covered_is_refused(string coverAndCount, bool fine)
    {
        var file = TestFiles.Rows(
            "yard,bed,scientific_name,observed_on,cover_m2,count", $"KI-01,front,Monarda fistulosa,2026-07-01,{coverAndCount}");
        if (fine)
        {
            file.Errors.ShouldBeEmpty();
            return;
        }

        var error = file.OnlyError();
        (error.Column, error.What).ShouldBe(("count", "No plant is counted, yet 3 m² are covered."));
        error.HowToCorrect.ShouldContain("Leave the count blank");
    }

    [Fact]
    public void The_same_yard_twice_is_refused_whatever_its_case()
    {
        var error = TestFiles.Rows(TestFiles.PlacesHeader, TestFiles.GoodPlace,
            TestFiles.GoodPlace.Replace("KI-01,", "ki-01,", StringComparison.Ordinal)).OnlyError();
        (error.Line, error.Column, error.What).ShouldBe((3, "yard", "The yard is already on line 2."));
    }

    [Fact]
    public void The_same_bed_twice_is_refused_but_another_yard_may_have_one_of_that_name()
    {
        TestFiles.Rows(TestFiles.BedsHeader, "KI-01,front,12,,,", "KI-02,front,12,,,").Errors.ShouldBeEmpty();
        TestFiles.Rows(TestFiles.BedsHeader, "KI-01,front,12,,,", "KI-01,Front,14,,,").OnlyError().Line.ShouldBe(3);
    }

    [Fact]
    public void Swapped_coordinates_are_suspected() =>
        TestFiles.Rows(TestFiles.PlacesHeader, TestFiles.GoodPlace.Replace("41.9,-88.3", "-88.3,41.9", StringComparison.Ordinal))
            .OnlyError().What.ShouldContain("swapped");

    [Fact]
    public void Every_error_is_listed_not_only_the_first()
    {
        var file = TestFiles.Rows(TestFiles.SightingsHeader, ",front,Monarda fistulosa,8/14/2026,x,y,bought,sure,12,,",
            TestFiles.GoodSighting, "KI-01,front,,2026-07-14,,,,,,,");
        file.Errors.Select(e => (e.Line, e.Column)).ShouldBe([
            (2, "yard"), (2, "observed_on"), (2, "cover_m2"), (2, "count"), (2, "origin"), (2, "certainty"), (2, "growth_stage"),
            (4, "scientific_name"), (4, "cover_m2")]);
        file.Sightings.Count.ShouldBe(1);
    }

    [Fact]
    public void A_later_sighting_of_the_same_day_is_kept_after_the_earlier_so_that_it_can_hold()
    {
        var file = TestFiles.Rows(TestFiles.SightingsHeader, TestFiles.GoodSighting,
            TestFiles.GoodSighting.Replace("1.5", "2.5", StringComparison.Ordinal));
        file.Errors.ShouldBeEmpty();
        file.Sightings.Select(s => s.CoverSquareMetres).ShouldBe([1.5, 2.5]);
    }

    [Fact]
    public void A_sighting_may_give_a_count_alone_and_leave_the_rest_blank()
    {
        var sighting = TestFiles.Rows(TestFiles.SightingsHeader, "KI-01,front,Monarda fistulosa,2026-07-14,,12,,,,,").Sightings
            .ShouldHaveSingleItem();
        (sighting.CoverSquareMetres, sighting.Count, sighting.Origin, sighting.Certainty,
            sighting.GrowthStage).ShouldBe((null, 12, Origin.Unknown, Certainty.Probable, null));
    }

    [Theory]
    [InlineData("", Certainty.Tentative, 0)]
    [InlineData("tentative", Certainty.Tentative, 0)]
    [InlineData("probable", Certainty.Probable, 0)]
    [InlineData("certain", Certainty.Tentative, 1)]
    public void A_cf_name_is_never_certain(string written, Certainty kept, int notices)
    {
        var file = TestFiles.Rows(TestFiles.SightingsHeader, $"KI-01,front,Aster cf. laevis,2026-07-14,1,,,{written},,,");
        var sighting = file.Sightings.ShouldHaveSingleItem();
        (sighting.Name.Name, sighting.Name.Qualifier, sighting.Certainty,
            file.Notices.Count).ShouldBe(("Aster laevis", "cf.", kept, notices));
    }

    [Fact]
    public void An_infestation_names_a_yard_or_a_block_and_area_0_needs_no_cover()
    {
        TestFiles.Rows(TestFiles.InfestationsHeader, TestFiles.GoodInfestation,
            ",Race to Lathe,Lonicera maackii,2026-05-02,0,,,").Errors.ShouldBeEmpty();
        TestFiles.Rows(TestFiles.InfestationsHeader, ",,Lonicera maackii,2026-05-02,3,10,,")
            .OnlyError().What.ShouldBe("The row names neither yard nor block.");
    }

    [Fact]
    public void A_day_of_weather_given_twice_is_refused_only_where_the_values_differ()
    {
        TestFiles.Rows("date,rain_mm", "2026-05-01,3", "2026-05-01,3.0").ShouldSatisfyAllConditions(f => f.Errors.ShouldBeEmpty(),
            f => f.Rain.Count.ShouldBe(1));
        TestFiles.Rows("date,rain_mm", "2026-05-01,3", "2026-05-01,4").OnlyError().Line.ShouldBe(3);
        TestFiles.Rows("date,tmin_c,tmax_c", "2026-05-01,3,14", "2026-05-01,3,15").OnlyError().Column.ShouldBe("date");
    }

    [Theory]
    [InlineData("2026-05-01,14,3")]
    [InlineData("2026-05-01,-100,3")]
    [InlineData("2026-05-01,3,61")]
    [InlineData("2026-05-01,,3")]
    [InlineData("5/1/2026,3,14")]
    public void Impossible_temperatures_are_refused(string row) => TestFiles.Rows("date,tmin_c,tmax_c", row).Errors.Count.ShouldBe(1);

    [Theory]
    [InlineData("2026-05-01,-1")]
    [InlineData("2026-05-01,2001")]
    [InlineData("2026-05-01,")]
    [InlineData("2026-05-01,trace")]
    public void Impossible_rain_is_refused(string row) => TestFiles.Rows("date,rain_mm", row).Errors.Count.ShouldBe(1);
}
