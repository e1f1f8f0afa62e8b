using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A planned area as a bed that can be drawn: its own shape, plugs where the planting plan sets them, seed between.</summary>
/// <param name="Name">The area's name.</param>
/// <param name="Bed">Its plants.</param>
/// <param name="Assumed">Only the size was known: a rectangle twice as wide as deep is drawn.</param>
public sealed record PlanScene(string Name, Bed Bed, bool Assumed)
{
    /// <summary>Half-months of the four pictures: late May, early July, early September, January.</summary>
    public static IReadOnlyList<(string Word, int Half)> Seasons { get; } = [("May", 9), ("July", 12), ("September", 16), ("January", 0)];

    /// <summary>Of a long bed so much is drawn on paper, m.</summary>
    private const double PaperMetres = 9;

    /// <summary>The planned areas, the largest first.</summary>
    public static IReadOnlyList<PlanScene> Of(ConversionRequest request, ConversionMix mix, Func<CatalogueTaxon, Likeness> likeness)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        var drifts = DriftPlan.Of(request, mix);
        return [.. mix.Areas.OrderByDescending(a => a.Area.SquareMetres)
            .Select(a => Of(a, drifts.FirstOrDefault(d => ReferenceEquals(d.Area, a.Area)), likeness))];
    }

    /// <summary>The four seasons of a grown planting, for paper.</summary>
    public static IReadOnlyList<Drawings.Pens.Picture> ForPaper(ConversionRequest request, ConversionMix mix,
        Func<CatalogueTaxon, Likeness> likeness, SceneLengths lengths) =>
        Of(request, mix, likeness) is [var first, ..]
            ? [.. Seasons.Select(s => BedScene.Of(Middle(first.Bed), s.Half, 3, widthPx: 620,
                title: HalfMonths.Words(s.Half) + ", third year", lengths: lengths))] : [];

    /// <summary>The middle of a long bed, so that its plants are large enough to be seen on paper; a shorter bed as it is.</summary>
    private static Bed Middle(Bed bed)
    {
        var (west, east) = (bed.Outline.Min(p => p.X), bed.Outline.Max(p => p.X));
        if (east - west <= PaperMetres * 1.2) return bed;
        var (left, right) = ((west + east - PaperMetres) / 2, (west + east + PaperMetres) / 2);
        bool Inside(GroundPoint p) => p.X >= left && p.X <= right;
        IReadOnlyList<GroundPoint> outline = [.. Cut(Cut(bed.Outline, left, keepRight: true), right, keepRight: false)];
        var part = PaperMetres / (east - west);
        return bed with
        {
            Outline = outline,
            Drifts = [.. bed.Drifts.Select(d => d.Places is { } places
                ? d with { Places = [.. places.Where(Inside)], Count = places.Count(Inside) }
                : d with { Count = (int)Math.Round(d.Count * part) }).Where(d => d.Count > 0)],
        };
    }

    /// <summary>What of an outline lies on one side of a line from south to north (Sutherland and Hodgman 1974).</summary>
    private static IEnumerable<GroundPoint> Cut(IEnumerable<GroundPoint> outline, double x, bool keepRight)
    {
        List<GroundPoint> points = [.. outline];
        for (var i = 0; i < points.Count; i++)
        {
            var (a, b) = (points[i], points[(i + 1) % points.Count]);
            bool Kept(GroundPoint p) => keepRight ? p.X >= x : p.X <= x;
            if (Kept(a)) yield return a;
            if (Kept(a) != Kept(b)) yield return new(x, a.Y + ((b.Y - a.Y) * (x - a.X) / (b.X - a.X)));
        }
    }

    /// <summary>Height of the tallest grown plant beside the walk, m: within 0.6 m of that side of the largest bed. Null where nothing
    /// could be drawn.</summary>
    public static double? WalkHeightMetres(ConversionRequest request, ConversionMix mix, Func<CatalogueTaxon, Likeness> likeness)
    {
        if (Of(request, mix, likeness) is not [var first, ..]) return null;
        var (spots, _) = Planting.Of(first.Bed);
        if (spots.Count == 0) return null;
        var near = spots.Min(s => s.At.Y);
        return spots.Where(s => s.At.Y < near + .6).Max(s => s.Plant.HeightCm) / 100;
    }

    private static PlanScene Of(AreaPlanting area, DriftPlan? drifts, Func<CatalogueTaxon, Likeness> likeness)
    {
        var drawn = area.Area.Outline.Count > 2;
        var deep = Math.Sqrt(area.Area.SquareMetres / 2);
        IReadOnlyList<GroundPoint> outline = drawn ? [.. area.Area.Outline.Select(p => new GroundPoint(p.East, p.North))]
            : [new(0, 0), new(2 * deep, 0), new(2 * deep, deep), new(0, deep)];
        var plants = area.Taxa.SelectMany(t => Drifts(t, drifts, likeness(t.Taxon)))
            .Where(d => d.Count > 0).OrderBy(d => d.Plant.ScientificName, StringComparer.Ordinal).ThenBy(d => d.Places is null).ToList();
        return new PlanScene(area.Area.Name, new Bed(outline, plants, "plan " + area.Area.Name), !drawn);
    }

    private static IEnumerable<DriftOf> Drifts(PlannedTaxon taxon, DriftPlan? drifts, Likeness plant)
    {
        var how = plant.Characters is { HasBlades: true } ? Drawings.Scenes.Spread.Matrix
            : taxon.Plugs is > 0 and < 6 ? Drawings.Scenes.Spread.Dot : Drawings.Scenes.Spread.Drift;
        IReadOnlyList<GroundPoint> set = [.. drifts?.Drifts.Where(d => d.Taxon.Taxon == taxon.Taxon).SelectMany(d => d.Plugs)
            .Select(p => new GroundPoint(p.East, p.North)) ?? []];
        yield return set.Count > 0 ? new DriftOf(plant, set.Count, how, set) : new DriftOf(plant, taxon.Plugs, how);
        if (taxon.SeedsPerSquareMetre > 0)
        {
            yield return new DriftOf(plant, Math.Max(0, YardScene.Individuals(taxon.SquareMetres, plant.SpreadCm) - taxon.Plugs), how);
        }
    }
}
