namespace CommonGround.Planning.Conversion;

/// <summary>A group of one taxon that stands together.</summary>
/// <param name="Plugs">Where each goes, metres in the area's own measure; one or more.</param>
/// <param name="Outlines">Its edge, rounded; more than one where the bed's shape tears it apart. Outlines of two drifts never
/// overlap.</param>
public sealed record Drift(PlannedTaxon Taxon, IReadOnlyList<PlanPoint> Plugs, IReadOnlyList<IReadOnlyList<PlanPoint>> Outlines)
{
    /// <summary>The plug nearest the middle: where its number is written.</summary>
    public PlanPoint Middle { get; } = Nearest(Plugs);

    private static PlanPoint Nearest(IReadOnlyList<PlanPoint> plugs)
    {
        var (east, north) = (plugs.Average(p => p.East), plugs.Average(p => p.North));
        return plugs.MinBy(p => (Math.Pow(p.East - east, 2) + Math.Pow(p.North - north, 2), p.East, p.North));
    }
}

/// <summary>Where every plug of one area goes: drifts on a grid, low ones on the kerb's side.</summary>
/// <param name="Bed">The area's corners, metres east and north; the kerb's side has the smallest north.</param>
/// <param name="Assumed">Only the size was known: a rectangle twice as wide as deep is drawn.</param>
/// <param name="Drifts">From the kerb back.</param>
/// <param name="SpacingMetres">From plug to plug along a row; rows are 0.866 of it apart and staggered.</param>
/// <param name="BandMetres">Depth of the planted band along the kerb; the ground behind it is sown. Null where all of the area is
/// planted.</param>
public sealed record DriftPlan(ConversionArea Area, IReadOnlyList<PlanPoint> Bed, bool Assumed, IReadOnlyList<Drift> Drifts,
    double SpacingMetres, double? BandMetres)
{
    /// <summary>Larger ground is sown and not set out plug by plug.</summary>
    public const double BelowSquareMetres = 100;

    /// <summary>A plan for each area that has plugs; none from 100 m² on, and none for seed alone. Same input, same plan.</summary>
    /// <remarks>
    /// Drifts are runs of a path that goes through the grid in bands of two or three rows, from the kerb back and to and fro; they are
    /// dealt out by height, and within a band so that neighbours flower at different times and no two spreaders touch. Our own method, see
    /// docs/measures.md#drifts.
    /// </remarks>
    public static IReadOnlyList<DriftPlan> Of(ConversionRequest request, ConversionMix mix)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        if (request.SquareMetres >= BelowSquareMetres) return [];
        return [.. mix.Areas.Where(a => a.Taxa.Any(t => t.Plugs > 0)).Select(a => Of(request, mix, a))];
    }

    private static DriftPlan Of(ConversionRequest request, ConversionMix mix, AreaPlanting area)
    {
        var drawn = area.Area.Outline.Count > 2;
        var bed = drawn ? area.Area.Outline : Rectangle(area.Area.SquareMetres);
        var count = area.Taxa.Sum(t => t.Plugs);
        double? band = PlantedBand.Is(request, mix.Method, mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0))
            ? PlantedBand.Depth(bed, count) : null;
        var grid = PlugGrid.Of(bed, band, count);
        var runs = DriftOrder.Of(area.Taxa, grid.Bands);
        var drifts = new List<Drift>();
        var at = 0;
        foreach (var (taxon, size) in runs)
        {
            var cells = grid.Path.Skip(at).Take(size).ToList();
            at += size;
            drifts.Add(new(taxon, [.. cells.Select(grid.At)], DriftOutline.Of(cells, grid, bed)));
        }

        return new(area.Area, bed, !drawn, drifts, grid.Spacing, band);
    }

    /// <summary>Twice as wide as deep, where only the size is known.</summary>
    internal static PlanPoint[] Rectangle(double squareMetres)
    {
        var deep = Math.Sqrt(squareMetres / 2);
        return [new(0, 0), new(2 * deep, 0), new(2 * deep, deep), new(0, deep)];
    }
}
