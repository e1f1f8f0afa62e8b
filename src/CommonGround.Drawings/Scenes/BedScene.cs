using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>A bed to scale, seen from the walk's side: every plant as tall as its row says, front and back alike.</summary>
/// <remarks>The eye is level and far off: depth lifts a plant on the paper and does not make it smaller, so the rod holds for all of
/// them.</remarks>
public static class BedScene
{
    private const double Lift = .31, WideSide = 60, WideHead = 36;

    /// <summary>Taller plants, trees mostly, would make all others too small to be seen: they are cut off at the top of the picture,
    /// cm.</summary>
    public const double CutAboveCm = 400;

    /// <summary>Height of the picture above the ground where plants are cut off in it, at the least, cm.</summary>
    private const double CutRoomCm = 260;

    /// <summary>Plants whose tops do not fit into the picture. A bed of nothing but such plants is drawn whole, at a smaller
    /// scale.</summary>
    public static IReadOnlyList<Likeness> Cut(IReadOnlyList<Spot> spots)
    {
        ArgumentNullException.ThrowIfNull(spots);
        return spots.All(s => s.Plant.HeightCm > CutAboveCm) ? []
            : [.. spots.Select(s => s.Plant).Where(p => p.HeightCm > CutAboveCm).Distinct()
                .OrderBy(p => p.ScientificName, StringComparer.Ordinal)];
    }

    /// <param name="bed">The bed.</param>
    /// <param name="half">Half-month, 0–23.</param>
    /// <param name="year">1, 2, or 3 and more.</param>
    /// <param name="house">The front behind it; null for none.</param>
    /// <param name="widthPx">Width of the picture, 200 or more.</param>
    /// <param name="title">Its name; null draws none and leaves no margin, for a page that says it beside the picture.</param>
    /// <param name="lengths">Metres in words, and whether the rod is a yardstick; null for metres.</param>
    public static Picture Of(Bed bed, int half, int year, HouseFront? house = null, double widthPx = 1200, string? title = "",
        SceneLengths? lengths = null)
    {
        ArgumentNullException.ThrowIfNull(bed);
        ArgumentOutOfRangeException.ThrowIfLessThan(widthPx, 200);
        var (spots, each) = Planting.Of(bed);
        var (sideways, head) = title is null ? (18, 6.0) : (Math.Min(WideSide, widthPx * .05), WideHead);
        var corners = bed.Outline.Count > 0 ? bed.Outline : [new GroundPoint(0, 0), new GroundPoint(4, 2)];
        var (west, east) = (corners.Min(p => p.X) - .35, corners.Max(p => p.X) + .35);
        var (near, far) = (corners.Min(p => p.Y), corners.Max(p => p.Y));
        var cut = Cut(spots);
        var tallest = Math.Max(cut.Count > 0 ? CutRoomCm : 120,
            spots.Where(s => !cut.Contains(s.Plant)).Select(s => s.Plant.HeightCm * 1.12).DefaultIfEmpty(0).Max());
        var wide = Math.Max((east - west) * 100, house is null ? 200 : 1000);
        var back = (far - near) * 100;
        var k = Math.Min((widthPx - (2 * sideways)) / wide, tallest > CutAboveCm * 1.12 ? widthPx * .7 / (tallest + (back * Lift))
            : double.MaxValue);
        var above = Math.Max(((back * Lift) + tallest) * k, house is null ? 0 : ((((back + 200) * Lift) + House.TallCm(house)) * k) + 12);
        var ground = head + above;
        var middle = (west + east) / 2;
        P2 At(double x, double y) => new((widthPx / 2) + ((x - middle) * 100 * k), ground - ((y - near) * 100 * Lift * k));
        var items = new List<Item>();
        if (house is not null)
        {
            Behind(items, house, k, At(middle, far + 2), At(middle, far), At(middle, near - .7).Y);
        }

        items.Add(new Drawn(Soil(bed, At, half, year), 3));
        var symbols = new SceneSymbols(half, year, k);
        foreach (var spot in spots)
        {
            var foot = At(spot.At.X, spot.At.Y);
            var depth = far > near ? (spot.At.Y - near) / (far - near) : 0;
            items.Add(symbols.Place(spot, foot, depth > .7 ? 2 : depth > .38 ? 1 : 0));
        }

        Front(items, bed, At, k, (near, west, half), lengths?.Feet ?? false);
        if (title is not null)
        {
            items.Add(new Label("head", sideways, 24, title.Length > 0 ? title : HalfMonths.Words(half)));
        }

        var name = title is { Length: > 0 } ? title : $"The bed in {HalfMonths.Words(half)}";
        return new Picture(widthPx, Math.Ceiling(ground + (100 * Lift * k) + 24), name, SceneWords.Of(spots, each, half, year, lengths),
            items,
            symbols.All);
    }

    private static void Behind(List<Item> items, HouseFront house, double k, P2 foot, P2 back, double street)
    {
        items.Add(new Drawn(House.Draw(house, k, foot.X, foot.Y), 3));
        if (house.Walk == FrontWalk.None)
        {
            return;
        }

        // The walk is seen behind the bed only: the bed's outline is the plan's own.
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "walk");
        var door = House.DoorMiddle(house, k, foot.X);
        var half = 52 * k;
        var shift = house.Walk == FrontWalk.FromTheSide ? 330 * k : 0;
        pen.Shape(new Trace().M(new(door - half, foot.Y)).L(new(door + half, foot.Y))
            .L(new(door + shift + (half * 1.15), Math.Min(street, back.Y))).L(new(door + shift - (half * 1.15), Math.Min(street, back.Y)))
            .Z());
        items.Add(new Drawn(strokes, 2));
    }

    /// <summary>Bare ground shows where plants are young; the outline of the bed is a fine line.</summary>
    private static List<Stroke> Soil(Bed bed, Func<double, double, P2> at, int half, int year)
    {
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "soil") { Wobble = .3 };
        if (bed.Outline.Count < 3)
        {
            return strokes;
        }

        var edge = bed.Outline.Append(bed.Outline[0]).Select(p => at(p.X, p.Y)).ToList();
        pen.Lines(edge.Zip(edge.Skip(1)).Select(e => (IReadOnlyList<P2>)[e.First, (e.First + e.Second) * .5, e.Second]), ink: "t i");
        var c = new Chance("soil " + bed.Seed);
        var (west, east) = (bed.Outline.Min(p => p.X), bed.Outline.Max(p => p.X));
        var (near, far) = (bed.Outline.Min(p => p.Y), bed.Outline.Max(p => p.Y));
        var flecks = new List<IReadOnlyList<P2>>();
        for (var i = 0; i < (half < 4 ? 0 : year == 1 ? 420 : 150); i++)
        {
            var p = new GroundPoint(c.R(west, east), c.R(near, far));
            if (bed.Holds(p))
            {
                var q = at(p.X, p.Y);
                flecks.Add([q, q + new P2(c.R(1, 2.6), c.R(-.6, .6))]);
            }
        }

        pen.Lines(flecks, ink: "t i");
        return strokes;
    }

    /// <summary>The walk's edge, some turf, and the rod in front, where nothing covers it.</summary>
    private static void Front(List<Item> items, Bed bed, Func<double, double, P2> at, double k, (double Near, double West, int Half) edge,
        bool feet)
    {
        var (near, west, half) = edge;
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "front") { Wobble = .3 };
        var c = new Chance("turf " + bed.Seed);
        var wide = bed.Outline.Count > 0 ? bed.Outline.Max(p => p.X) : 4;
        var turf = new List<IReadOnlyList<P2>>();
        for (var i = 0; i < (half < 4 ? 0 : (int)(160 * Math.Min(1, (wide + .35 - west) * 100 * k / 1000))); i++)
        {
            var q = at(c.R(west, wide + .35), near - c.R(.12, .75));
            for (var blade = 0; blade < 3; blade++)
            {
                turf.Add([q + new P2(blade * 2.4, 0), q + new P2((blade * 2.4) + c.R(-1, 1.8), -c.R(2.2, 4))]);
            }

        }

        pen.Lines(turf, ink: "t b");
        var walk = at(west, near - .85).Y;
        var (left, right) = (at(west, 0).X, at(wide + .35, 0).X);
        pen.Lines([[new(left, walk), new((left + right) / 2, walk + .6), new(right, walk)],
            [new(left, walk + 7), new((left + right) / 2, walk + 7.6), new(right, walk + 7)]], ink: "t i");
        var rod = at(west - .12, near - .4);
        items.Add(new Drawn([.. strokes, .. Rod.Draw(rod.X, rod.Y, k, feet)]));
        if (right - left > 300)
        {
            items.Add(new Label("small", rod.X - 4, rod.Y - (Rod.LengthCm(feet) * k) - 5, Rod.Words(feet), LabelAnchor.Start));
        }
    }
}
