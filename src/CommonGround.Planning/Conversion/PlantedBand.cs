using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>The band along the walk that is planted with plugs, mulched and weeded beside a sowing: no seed goes there.</summary>
internal static class PlantedBand
{
    private const double LeastDepth = 1, ClosestMetres = 0.28;

    /// <summary>In shade and on wet ground the plugs stand all over; elsewhere beside a sowing they stand together in front.</summary>
    public static bool Is(ConversionRequest request, Method method, bool sown) => method == Method.Mixed && request.Light != Light.Shade
        && request.Moisture is Moisture.Dry or Moisture.Medium && sown;

    /// <summary>Depth of the band, m: a metre, or more where so many plugs would stand closer than 28 cm.</summary>
    public static double Depth(IReadOnlyList<PlanPoint> bed, int plugs)
    {
        var wide = bed.Max(p => p.East) - bed.Min(p => p.East);
        return Math.Max(LeastDepth, plugs * PlugGrid.RowShare * ClosestMetres * ClosestMetres / wide);
    }

    /// <summary>Ground of the bands of all areas, m²; 0 where there are none. Never more than half of an area.</summary>
    public static double SquareMetres(ConversionRequest request, Method method, int plugs, bool sown)
    {
        if (plugs == 0 || !Is(request, method, sown)) return 0;
        var counts = PlugSpacing.Apportion(plugs, [.. request.Areas.Select(a => a.SquareMetres)]);
        return request.Areas.Select((area, i) =>
        {
            if (counts[i] == 0) return 0;
            var bed = area.Outline.Count > 2 ? area.Outline : DriftPlan.Rectangle(area.SquareMetres);
            var share = Area(Below(bed, bed.Min(p => p.North) + Depth(bed, counts[i]))) / Math.Max(1e-9, Area(bed));
            return area.SquareMetres * Math.Min(0.5, share);
        }).Sum();
    }

    /// <summary>What of a bed lies south of a line (Sutherland and Hodgman 1974).</summary>
    private static List<PlanPoint> Below(IReadOnlyList<PlanPoint> bed, double north)
    {
        List<PlanPoint> kept = [];
        for (var i = 0; i < bed.Count; i++)
        {
            var (a, b) = (bed[i], bed[(i + 1) % bed.Count]);
            if (a.North <= north) kept.Add(a);
            if (a.North <= north != b.North <= north)
                kept.Add(new(a.East + ((b.East - a.East) * (north - a.North) / (b.North - a.North)), north));
        }

        return kept;
    }

    /// <summary>Shoelace formula.</summary>
    private static double Area(IReadOnlyList<PlanPoint> bed) => Math.Abs(bed.Select((p, i) => (p, Next: bed[(i + 1) % bed.Count]))
        .Sum(e => (e.p.East * e.Next.North) - (e.Next.East * e.p.North))) / 2;
}
