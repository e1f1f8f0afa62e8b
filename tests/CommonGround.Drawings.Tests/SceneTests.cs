using System.IO.Compression;
using System.Text;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Scenes;

namespace CommonGround.Drawings.Tests;

public class SceneTests
{
    private static readonly HouseFront Bungalow = new(Story.OneAndAHalf, Door.Right, 3, FrontWalk.Straight);

    [Theory]
    [InlineData(9, 3)]
    [InlineData(12, 3)]
    [InlineData(16, 3)]
    [InlineData(0, 3)]
    [InlineData(12, 1)]
    public void A_bed_of_300_plants_stays_within_250_kilobytes_compressed(int half, int year)
    {
        var picture = BedScene.Of(Beds.Front, half, year, Bungalow);
        picture.Items.OfType<Placed>().Count().ShouldBe(300);
        Look.Keep($"scene-{half:00}-{year}", picture);
        var svg = SvgPen.File(picture);
        Zipped(svg).ShouldBeLessThan(250 * 1024);
        svg.ShouldBe(SvgPen.File(BedScene.Of(Beds.Front, half, year, Bungalow)));
    }

    [Fact]
    public void Every_plant_keeps_its_place_size_and_lean_through_the_year()
    {
        static List<(double, double, double, double, bool)> Uses(int half) =>
            [.. BedScene.Of(Beds.Front, half, 3).Items.OfType<Placed>().Select(p => (p.X, p.Y, p.Scale, p.Lean, p.Mirrored))];
        var may = Uses(9);
        foreach (var half in new[] { 0, 12, 17, 22 }) Uses(half).ShouldBe(may);
    }

    [Fact]
    public void The_rod_holds_for_the_back_row_as_for_the_front()
    {
        var picture = BedScene.Of(Beds.Front, 16, 3);
        // One symbol a plant serves every row, and no use is scaled by its depth.
        var uses = picture.Items.OfType<Placed>().ToList();
        var (front, back) = (uses.OrderByDescending(u => u.Y).Take(100).Average(u => u.Scale),
            uses.OrderBy(u => u.Y).Take(100).Average(u => u.Scale));
        (front / back).ShouldBe(1, .01);
    }

    [Fact]
    public void A_bed_of_any_outline_holds_all_its_plants()
    {
        GroundPoint[] bent = [new(0, 0), new(6, 0), new(6, 1.2), new(2, 1.2), new(2, 4), new(0, 4)];
        var bed = new Bed(bent, [new DriftOf(SeedTable.Of("Liatris aspera"), 40, Spread.Drift),
            new DriftOf(SeedTable.Of("Sporobolus heterolepis"), 60, Spread.Matrix)], "bent");
        var (spots, _) = Planting.Of(bed);
        spots.Count.ShouldBe(100);
        spots.ShouldAllBe(s => bed.Holds(s.At));
        // Shoelace by hand: 6 × 1.2 + 2 × 2.8.
        bed.AreaSquareMetres.ShouldBe(12.8, 1e-9);
        GroundPoint[] places = [new(1, 1), new(2, .5)];
        Planting.Of(new Bed(bent, [new DriftOf(SeedTable.Of("Liatris aspera"), 2, Spread.Drift, places)], "own")).Spots.Select(s => s.At)
            .ShouldBe(places, ignoreOrder: true);
    }

    [Fact]
    public void Boxes_stay_inside_the_page_with_any_house_front()
    {
        foreach (var house in new HouseFront?[] { null, Bungalow, new(Story.One, Door.Left, 0, FrontWalk.None),
            new(Story.Two, Door.Middle, 6, FrontWalk.FromTheSide) })
        {
            var picture = BedScene.Of(Beds.Front, 16, 3, house);
            foreach (var item in picture.Items)
            {
                var box = item switch { Drawn d => Bounds.Of(d.Strokes), Placed p => Of(picture, p), _ => null };
                if (box is not { } b) continue;
                b.Left.ShouldBeGreaterThanOrEqualTo(0);
                b.Top.ShouldBeGreaterThanOrEqualTo(0);
                b.Right.ShouldBeLessThanOrEqualTo(picture.Width);
                b.Bottom.ShouldBeLessThanOrEqualTo(picture.Height);
            }
        }

        static Bounds? Of(Picture picture, Placed p)
        {
            if (Bounds.Of(picture.Symbols[p.Symbol]) is not { } s) return null;
            var (l, r) = p.Mirrored ? (-s.Right, -s.Left) : (s.Left, s.Right);
            return new Bounds(p.X + (l * p.Scale) - Math.Abs(p.Lean * s.Top), p.Y + (s.Top * p.Scale),
                p.X + (r * p.Scale) + Math.Abs(p.Lean * s.Top), p.Y + (s.Bottom * p.Scale));
        }
    }

    [Fact]
    public void The_words_say_what_is_drawn()
    {
        var may = BedScene.Of(Beds.Front, 9, 3).Description;
        may.ShouldStartWith("Late May, third year or later: a bed of 300 plants, 26 kinds, to scale beside a one-metre rod. In flower: ");
        may.ShouldContain("pink prairie smoke in front");
        may.ShouldNotContain("rough blazing star behind");
        var january = BedScene.Of(Beds.Front, 0, 3).Description;
        january.ShouldContain("Nothing in flower.");
        january.ShouldContain("In seed or dry: ");
        SceneWords.Of(SeedTable.Of("Echinacea pallida"), 11, 3)
            .ShouldBe("pale purple coneflower, late June: in flower, pink, about 95 cm.");
        SceneWords.Of(SeedTable.Of("Mertensia virginica"), 14, 3).ShouldEndWith("nothing above ground.");
    }

    private static long Zipped(string svg)
    {
        using var to = new MemoryStream();
        using (var zip = new GZipStream(to, CompressionLevel.Optimal, leaveOpen: true)) zip.Write(Encoding.UTF8.GetBytes(svg));
        return to.Length;
    }
}
