using System.Text.RegularExpressions;
using CommonGround.DemoData;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.Tests.DemoData;

/// <summary>The demo neighbourhood is what its README says it is.</summary>
public class QuarryBendTests(Neighbourhood bend) : IClassFixture<Neighbourhood>
{
    private const int Norm = 3;
    private static readonly DateOnly AsOf = new(2026, 8, 19);

    [Fact]
    public void The_files_are_what_the_generator_writes_byte_for_byte()
    {
        var files = QuarryBend.Files(File.ReadAllBytes(Path.Combine(TestFiles.Root, "seed-data", "plants.csv")));
        foreach (var (name, content) in files)
            content.AsSpan().SequenceEqual(Neighbourhood.Bytes(name))
                .ShouldBeTrue($"{name} differs: run dotnet run --project seed-data/generator and commit what it writes.");
    }

    [Fact]
    public void Every_file_imports_without_error_or_notice()
    {
        foreach (var file in new[] { bend.Catalogue, bend.Places, bend.Beds, bend.Sightings, bend.Infestations, bend.Streets })
        {
            file.Errors.ShouldBeEmpty();
            file.Notices.ShouldBeEmpty();
        }
    }

    [Fact]
    public void Every_file_read_and_written_again_is_the_same_file()
    {
        void ShouldBeTheFile(string name, string written) =>
            System.Text.Encoding.UTF8.GetBytes(written.Replace("\r\n", "\n", StringComparison.Ordinal)).AsSpan()
                .SequenceEqual(Neighbourhood.Bytes(name)).ShouldBeTrue(name);
        ShouldBeTheFile("places.csv", PlaceRows.Write(bend.Places.Places));
        ShouldBeTheFile("beds.csv", PlaceRows.Write(bend.Beds.Beds));
        ShouldBeTheFile("sightings.csv", SightingRows.Write(bend.Sightings.Sightings));
        ShouldBeTheFile("infestations.csv", SightingRows.Write(bend.Infestations.Infestations));
        ShouldBeTheFile("streets.geojson", GeoJsonText.Write(bend.Streets.Blocks));
    }

    [Fact]
    public void There_are_eight_streets_38_blocks_and_160_yards_with_their_own_codes()
    {
        bend.Streets.Blocks.Select(b => b.Street).Distinct().Order(StringComparer.Ordinal)
            .ShouldBe(["Coopers Row", "Foundry Lane", "Kiln Street", "Lathe Street", "Millrace Road", "Sawyer Street", "Tollgate Lane",
            "Wheelwright Avenue"]);
        (bend.Streets.Blocks.Count, bend.Places.Places.Count).ShouldBe((38, 160));
        var blocks = bend.Streets.Blocks.Select(b => (b.Street, b.Block)).ToHashSet();
        bend.Places.Places.ShouldAllBe(p => blocks.Contains(new(p.Street, p.Block))
            && Regex.IsMatch(p.Yard, "^[A-Z]{2}-[0-9]{2}$", RegexOptions.NonBacktracking)
            && p.Yard.StartsWith(p.Street.Substring(0, 2), StringComparison.OrdinalIgnoreCase));
        bend.Places.Places.ShouldAllBe(p => p.Household == "Household " + p.Yard);
        bend.ShownBlocks().Count.ShouldBe(34);
        (bend.Places.Places.Count(p => p.Shared) / 160.0).ShouldBeInRange(0.78, 0.92);
    }

    [Fact]
    public void Blocks_are_as_long_as_blocks_are_and_meet_exactly_at_their_crossings()
    {
        foreach (var block in bend.Streets.Blocks)
        {
            var line = block.Shape.Parts[0];
            line.Zip(line.Skip(1), Neighbourhood.Metres).Sum().ShouldBeInRange(118, 163, $"{block.Street}, {block.Block}");
        }
        var ends = bend.Streets.Blocks.SelectMany(b => new[] { b.Shape.Parts[0][0], b.Shape.Parts[0][^1] }).Distinct().ToList();
        ends.Count.ShouldBe(27);
        foreach (var a in ends) ends.Count(b => Neighbourhood.Metres(a, b) < 50).ShouldBe(1);
    }

    [Fact]
    public void Yards_lie_beside_their_block_and_clear_of_each_other()
    {
        var points = bend.Places.Places.Select(p => (Place: p, At: new GeoPoint(p.Latitude, p.Longitude))).ToList();
        foreach (var (place, at) in points)
        {
            points.Count(other => Neighbourhood.Metres(at, other.At) < 16).ShouldBe(1, place.Yard);
            var line = bend.Streets.Blocks.Single(b => b.Street == place.Street && b.Block == place.Block).Shape.Parts[0];
            line.Zip(line.Skip(1), (a, b) => DistanceToSegment(at, a, b)).Min().ShouldBeInRange(12, 16, place.Yard);
            place.YardSquareMetres.ShouldBeInRange(350, 1200);
        }
    }

    [Fact]
    public void Six_seasons_of_walks_give_about_2500_plantings()
    {
        bend.Plantings.Count.ShouldBeInRange(2300, 2700);
        bend.Sightings.Sightings.Count.ShouldBeInRange(5000, 7000);
        bend.Sightings.Sightings.Select(s => s.ObservedOn.Year).Distinct().Order().ShouldBe([2021, 2022, 2023, 2024, 2025, 2026]);
        bend.Sightings.Sightings.Max(s => s.ObservedOn).ShouldBeLessThan(AsOf);
        bend.Growing.Select(p => p.Taxon).Distinct().Count().ShouldBeGreaterThanOrEqualTo(150);
        bend.Plantings.Count(p => p.Cover == 0).ShouldBeInRange(40, 150);
        bend.Growing.Select(p => p.Last.Yard).Distinct().Count().ShouldBe(160);
        bend.Sightings.Sightings.ShouldAllBe(s => Regex.IsMatch(s.Observer, "^walker [0-9]+$", RegexOptions.NonBacktracking));
    }

    [Fact]
    public void Doubt_is_honest()
    {
        double Share(Certainty certainty) => bend.Plantings.Count(p => p.Last.Certainty == certainty) / (double)bend.Plantings.Count;
        Share(Certainty.Tentative).ShouldBeInRange(0.01, 0.02);
        Share(Certainty.Probable).ShouldBeInRange(0.045, 0.075);
        bend.Sightings.Sightings.ShouldAllBe(s => (s.Certainty == Certainty.Tentative) == (s.Name.Qualifier.Length > 0));
        bend.Sightings.Sightings.Count(s => s.CoverSquareMetres is null).ShouldBeGreaterThan(200);
    }

    [Fact]
    public void No_bed_is_ever_fuller_than_it_is_large_nor_planted_before_it_was_dug()
    {
        var beds = bend.Beds.Beds.ToDictionary(b => (b.Yard, b.Bed));
        var states = beds.Keys.ToDictionary(k => k, _ => new Dictionary<string, double>());
        foreach (var row in bend.Sightings.Sightings)
        {
            var (bed, taxon) = (beds[(row.Yard, row.Bed)], bend.Index.Resolve(row.Name.Name)!);
            states[(row.Yard, row.Bed)][taxon.ScientificName] = row.CoverSquareMetres
                ?? Neighbourhood.DerivedCover(row.Count!.Value, taxon.SpacingMetres!.Value);
            states[(row.Yard, row.Bed)].Values.Sum()
                .ShouldBeLessThanOrEqualTo(bed.AreaSquareMetres!.Value, $"{row.Yard} {row.Bed} on {row.ObservedOn}");
            if (bed.EstablishedOn is { } dug) row.ObservedOn.ShouldBeGreaterThan(dug);
        }
        bend.Beds.Beds.GroupBy(b => b.Yard).ShouldAllBe(y => y.Count() >= 1 && y.Count() <= 5
            && y.Sum(b => b.AreaSquareMetres!.Value) < bend.Place(y.Key).YardSquareMetres - bend.Place(y.Key).LawnSquareMetres!.Value);
    }

    [Fact]
    public void Flowers_are_seen_in_season() =>
        bend.Sightings.Sightings.Where(s => s.GrowthStage == 6)
            .ShouldAllBe(s => bend.Index.Resolve(s.Name.Name)!.Bloom!.Value.Contains(HalfMonth.Of(s.ObservedOn)));

    [Fact]
    public void Half_the_blocks_go_quiet_in_mid_September()
    {
        var blocks = bend.ShownBlocks().Values.Select(bend.NativesInFlower).ToList();
        int Covered(int t) => blocks.Count(b => b[t] >= Norm);
        // Blocks by how many of the five half-months from August 16 are covered, as the README's table has them: 18 of 34 have fewer than
        // three.
        Enumerable.Range(0, 6).Select(n => blocks.Count(b => Enumerable.Range(15, 5).Count(t => b[t] >= Norm) == n))
            .ShouldBe([2, 4, 12, 8, 5, 3]);
        Covered(HalfMonth.Of(new DateOnly(2026, 9, 16))).ShouldBe(16);
        Covered(HalfMonth.Of(new DateOnly(2026, 4, 16))).ShouldBeLessThanOrEqualTo(9);
        Covered(HalfMonth.Of(new DateOnly(2026, 10, 16))).ShouldBeLessThanOrEqualTo(6);
        Enumerable.Range(10, 5).Select(Covered).ShouldAllBe(covered => covered == blocks.Count);
    }

    [Fact]
    public void Kiln_Street_has_next_to_nothing_in_flower_after_August()
    {
        foreach (var (_, yards) in bend.ShownBlocks().Where(b => b.Key.Street == "Kiln Street"))
            bend.NativesInFlower(yards)[16..20].ShouldAllBe(n => n <= 1);
    }

    [Fact]
    public void The_old_prairie_seeds_into_its_neighbours_the_nearer_the_more()
    {
        const string Old = "LA-07";
        (bend.Place(Old).Street, bend.Growing.Where(p => p.Last.Yard == Old).Select(p => p.Taxon).Distinct()
            .Count() >= 60).ShouldBe(("Lathe Street", true));
        bend.Beds.Beds.Where(b => b.Yard == Old && b.EstablishedOn is not null).ShouldAllBe(b => b.EstablishedOn!.Value.Year < 2021);
        var prairie = bend.Growing.Where(p => p.Last.Yard == Old).Select(p => p.Taxon).ToHashSet();
        GeoPoint At(string yard) => new(bend.Place(yard).Latitude, bend.Place(yard).Longitude);
        double MeanWithin(double from, double to)
        {
            var yards = bend.Places.Places.Where(p => p.Yard != Old && Neighbourhood.Metres(At(p.Yard), At(Old)) is var d && d >= from
                && d < to).Select(p => p.Yard).ToHashSet();
            return bend.Growing.Count(p => yards.Contains(p.Last.Yard) && p.Last.Origin == Origin.SelfSown && prairie.Contains(p.Taxon))
                / (double)yards.Count;
        }
        var (near, middle, far) = (MeanWithin(0, 100), MeanWithin(100, 200), MeanWithin(200, 400));
        near.ShouldBeGreaterThan(2 * middle);
        middle.ShouldBeGreaterThan(2 * far);
    }

    [Fact]
    public void Ninety_infestations_are_open_and_many_have_a_history()
    {
        var places = bend.Infestations.Infestations.GroupBy(i => (i.Yard, i.Block, i.Name.Name)).ToList();
        places.Count(p => p.Last().AreaSquareMetres > 0).ShouldBe(90);
        places.Count(p => p.Count() > 1).ShouldBeGreaterThan(40);
        bend.Infestations.Infestations.Max(i => i.ObservedOn).ShouldBeLessThan(AsOf);
        var blocks = bend.Streets.Blocks.Select(b => b.Block).ToList();
        bend.Infestations.Infestations.ShouldAllBe(i => bend.Index.Resolve(i.Name.Name) != null);
        bend.Infestations.Infestations.Where(i => i.Yard.Length == 0).ShouldAllBe(i => blocks.Count(b => b == i.Block) == 1);
        bend.Infestations.Infestations.Where(i => i.Yard.Length > 0)
            .ShouldAllBe(i => i.AreaSquareMetres < bend.Place(i.Yard).YardSquareMetres);
        places.Count(p => p.Key.Name == "Pastinaca sativa" && (p.Key.Yard.StartsWith("MI-", StringComparison.Ordinal)
            || p.Key.Yard.Length == 0)).ShouldBe(places.Count(p => p.Key.Name == "Pastinaca sativa"));
        places.Where(p => p.Key.Name == "Alliaria petiolata").ShouldAllBe(p => bend.Place(p.Key.Yard).Light != Light.FullSun);
    }

    [Fact]
    public void Honeysuckle_spreads_outward_from_one_lot_over_the_years()
    {
        var records = bend.Infestations.Infestations.Where(i => i.Name.Name == "Lonicera maackii").GroupBy(i => i.Yard).ToList();
        GeoPoint At(string yard) => new(bend.Place(yard).Latitude, bend.Place(yard).Longitude);
        var source = records.MaxBy(r => r.Max(i => i.AreaSquareMetres))!;
        bend.Place(source.Key).Street.ShouldBe("Coopers Row");
        var others = records.Where(r => r.Key != source.Key)
            .Select(r => (First: r.Min(i => i.ObservedOn.Year), Distance: Neighbourhood.Metres(At(r.Key), At(source.Key)))).ToList();
        others.Where(o => o.First >= 2024).Average(o => o.Distance)
            .ShouldBeGreaterThan(1.5 * others.Where(o => o.First <= 2022).Average(o => o.Distance));
    }

    private static double DistanceToSegment(GeoPoint at, GeoPoint a, GeoPoint b)
    {
        var length = Neighbourhood.Metres(a, b);
        var (toA, toB) = (Neighbourhood.Metres(at, a), Neighbourhood.Metres(at, b));
        var along = ((toA * toA) + (length * length) - (toB * toB)) / (2 * length);
        return along < 0 ? toA : along > length ? toB : Math.Sqrt(Math.Max(0, (toA * toA) - (along * along)));
    }
}
