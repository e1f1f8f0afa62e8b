using CommonGround.Ecology.Sites;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Tests.Features.Community;

/// <summary>From stored rows to the community matrix, on a neighbourhood small enough to reckon by hand.</summary>
public class CommunityQueriesTests
{
    private const string Places =
        "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A to B,N-1,41.5,-88.5,100,yes\nNorth,A to B,N-2,41.5,-88.502,100,yes\n"
        + "North,A to B,N-3,41.503,-88.504,100,no\nSouth,C to D,S-1,42.5,-88.5,100,no\n";
    private const string SightingHead = "yard,bed,scientific_name,observed_on,cover_m2,certainty\n";
    private const string InfestationHead = "yard,block,scientific_name,observed_on,area_m2,cover_percent,growth_stage\n";

    [Fact]
    public async Task The_latest_sighting_of_a_bed_and_taxon_holds_and_beds_are_added_up()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv", SightingHead +
            "N-1,front,Symphyotrichum laeve,2026-07-01,3,certain\nN-1,front,Symphyotrichum laeve,2026-06-01,1,certain\n"
            + "N-1,back,Symphyotrichum laeve,2026-07-01,2,certain\nN-1,front,Monarda fistulosa,2026-06-01,4,certain\nN-1,front,Monarda "
            + "fistulosa,2026-08-01,0,certain\n"));
        (await PresencesAsync(garden, "N-1", new(2026, 5, 31))).ShouldBeEmpty();
        (await PresencesAsync(garden, "N-1", new(2026, 6, 1))).ShouldBe([(Flora.Smooth, 1, 1), (Flora.Bergamot, 4, 4)], ignoreOrder: true);
        (await PresencesAsync(garden, "N-1", new(2026, 7, 31))).ShouldBe([(Flora.Smooth, 5, 5), (Flora.Bergamot, 4, 4)], ignoreOrder: true);
        (await PresencesAsync(garden, "N-1", Garden.Today)).ShouldBe([(Flora.Smooth, 5, 5)]);
        (await PresencesAsync(garden, "N-2", Garden.Today)).ShouldBeEmpty();
    }

    [Fact]
    public async Task Cover_under_a_tentative_name_is_kept_apart()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv", SightingHead
            + "N-1,front,Symphyotrichum laeve,2026-07-01,3,probable\nN-1,back,Symphyotrichum laeve,2026-07-01,2,tentative\n"
            + "N-1,front,Monarda cf. fistulosa,2026-06-01,4,\n"));
        (await PresencesAsync(garden, "N-1", Garden.Today)).ShouldBe([(Flora.Smooth, 5, 3), (Flora.Bergamot, 4, 0)], ignoreOrder: true);
        var site = (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood;
        site.Bloom.HalfMonths[15].ShouldBe(new(2, 9, (5 * 1) + (4 * 0.8)));
        site.BloomWithoutTentative.HalfMonths[15].ShouldBe(new(1, 3, 3));
    }

    [Fact]
    public async Task An_infestation_counts_as_cover_and_of_it_and_a_planting_the_larger()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(
            ("sightings.csv",
                SightingHead + "N-2,front,Alliaria petiolata,2026-06-01,2,certain\nN-3,front,Alliaria petiolata,2026-06-01,3,tentative\n"),
            ("infestations.csv",
                InfestationHead
                    + "N-1,,Alliaria petiolata,2026-05-02,4,30,\nN-2,,Alliaria petiolata,2026-05-02,10,50,\nN-3,,Alliaria "
                    + "petiolata,2026-05-02,4,25,\n"));
        (await PresencesAsync(garden, "N-1", Garden.Today)).ShouldBe([(Flora.Mustard, 4 * 0.3, 4 * 0.3)]);
        (await PresencesAsync(garden, "N-2", Garden.Today)).ShouldBe([(Flora.Mustard, 5, 5)]);
        (await PresencesAsync(garden, "N-3", Garden.Today)).ShouldBe([(Flora.Mustard, 3, 0)]);
    }

    [Fact]
    public async Task The_latest_record_of_an_infestation_counts_and_area_0_closes_it()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("infestations.csv", InfestationHead
            + "N-1,,Alliaria petiolata,2026-05-02,4,50,6\nN-1,,Alliaria petiolata,2026-06-02,8,50,7\nN-1,,Alliaria "
            + "petiolata,2026-08-10,0,,\n"));
        (await garden.Queries.LoadAsync(new(2026, 8, 9), default)).Matrix.Infestations.ShouldHaveSingleItem().AreaSquareMetres.ShouldBe(8);
        (await garden.Queries.LoadAsync(Garden.Today, default)).Matrix.Infestations.ShouldBeEmpty();
        (await PresencesAsync(garden, "N-1", Garden.Today)).ShouldBeEmpty();
    }

    [Fact]
    public async Task An_infestation_stays_one_when_its_yard_is_put_on_another_block()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("infestations.csv", InfestationHead + "S-1,,Alliaria petiolata,2026-05-02,4,50,6\n"));
        await garden.StoreAsync(("places.csv", Places.Replace("South,C to D", "South,D to E", StringComparison.Ordinal)));
        var moved = (await garden.Queries.LoadAsync(Garden.Today, default)).Matrix;
        moved.Blocks[moved.Infestations.ShouldHaveSingleItem().Block].Name.ShouldBe("D to E");
        (await garden.StoreAsync(("infestations.csv", InfestationHead + "S-1,,Alliaria petiolata,2026-05-02,4,50,6\n"))).Changed
            .ShouldBeFalse();
        await garden.StoreAsync(("infestations.csv", InfestationHead + "S-1,,Alliaria petiolata,2026-08-02,0,,\n"));
        (await garden.Queries.LoadAsync(Garden.Today, default)).Matrix.Infestations.ShouldBeEmpty();
    }

    [Fact]
    public async Task Pressure_at_the_infested_yard_is_weight_times_area_times_cover_times_stage()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("infestations.csv", InfestationHead + "S-1,,Alliaria petiolata,2026-05-02,8,25,5\n"));
        var figures = await garden.Live.FiguresAsync(organiser: true);
        // High impact 1 × 8 m² × 0.25 × 0.5 before flowering, at no distance: 1 m². North is a degree of latitude away, 111 km: nothing.
        var (north, south) = figures.Matrix.Streets[0].Name == "North" ? (0, 1) : (1, 0);
        figures.Streets[south].InvasivePressureSquareMetres!.Value.ShouldBe(1, 1e-12);
        figures.Streets[north].InvasivePressureSquareMetres.ShouldBe(0);
        // The mean over the two blocks.
        figures.Neighbourhood.InvasivePressureSquareMetres!.Value.ShouldBe(0.5, 1e-12);
    }

    [Fact]
    public async Task A_block_without_a_shape_lies_at_the_mean_of_its_yards_and_with_one_at_its_middle()
    {
        using var garden = await LaidAsync();
        var (latitude, longitude) = await MiddleAsync(garden);
        latitude.ShouldBe(41.501, 1e-9);
        longitude.ShouldBe(-88.502, 1e-9);
        await garden.StoreAsync(("streets.geojson",
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},"geometry":{"type":"Polygon","coordinates":[[[-88.5,41.5],[-88.4,41.5],[-88.4,41.6],[-88.5,41.6],[-88.5,41.5]]]}}]}"""));
        (latitude, longitude) = await MiddleAsync(garden);
        latitude.ShouldBe(41.55, 1e-4);
        longitude.ShouldBe(-88.45, 1e-4);
        await garden.StoreAsync(("streets.geojson",
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.5,41.5],[-88.5,41.51],[-88.5,41.54]]}}]}"""));
        (latitude, longitude) = await MiddleAsync(garden);
        latitude.ShouldBe(41.52, 1e-4);
        longitude.ShouldBe(-88.5, 1e-9);
    }

    [Fact]
    public async Task A_block_that_has_neither_a_shape_nor_a_yard_takes_no_part()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("places.csv", Places.Replace("South,C to D", "South,D to E", StringComparison.Ordinal)));
        var matrix = await garden.Live.NowAsync();
        matrix.Blocks.Select(b => b.Name).ShouldBe(["A to B", "D to E"], ignoreOrder: true);
    }

    [Fact]
    public async Task Measures_of_two_natives_of_equal_cover_come_out_as_by_hand()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv", SightingHead
            + "N-1,front,Symphyotrichum laeve,2026-07-01,5,certain\nN-2,front,Schizachyrium scoparium,2026-07-01,5,certain\n"));
        var figures = await garden.Live.FiguresAsync(organiser: true);
        var block = figures.Blocks[figures.Shown.ShouldHaveSingleItem()];
        (block.Yards, block.Richness, block.NativeRichness).ShouldBe((3, 2, 2));
        block.Shannon!.Value.ShouldBe(Math.Log(2), 1e-12);
        block.Simpson!.Value.ShouldBe(0.5, 1e-12);
        // (8 + 5) / 2 and times the root of 2.
        block.NativeMeanC.ShouldBe(6.5);
        block.NativeFqi!.Value.ShouldBe(6.5 * Math.Sqrt(2), 1e-12);
        block.Bloom.HalfMonths[16].ShouldBe(new(1, 5, 5));
        figures.SeasonCovered(block).ShouldBe(0);
        block.Gaps.ShouldHaveSingleItem().ShouldBe(new(6, 19));
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places));
        return garden;
    }

    private static async Task<(double Latitude, double Longitude)> MiddleAsync(Garden garden)
    {
        var block = (await garden.Live.NowAsync()).Blocks.Single(b => b.Name == "A to B");
        return (block.Latitude, block.Longitude);
    }

    private static async Task<List<(string, double, double)>> PresencesAsync(Garden garden, string yard, DateOnly asOf)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        var id = db.Yards.Single(y => y.Code == yard).Id;
        CommunityMatrix matrix = (await garden.Queries.LoadAsync(asOf, default)).Matrix;
        return [.. matrix.Yards[matrix.PositionOf(id)!.Value].Presences.Select(p => (matrix.Taxa[p.Taxon].ScientificName,
            p.CoverSquareMetres, p.CertainSquareMetres))];
    }
}
