namespace CommonGround.Reports.Charts;

/// <summary>Textures inside an outline, made of lines and dots so that page and paper draw the same.</summary>
internal static class Flat
{
    /// <summary>Even–odd rule.</summary>
    public static bool Inside(IReadOnlyList<Planning.Conversion.PlanPoint> corners, double east, double north) =>
        Inside([.. corners.Select(c => (c.East, c.North))], east, north);

    /// <summary>Even–odd rule.</summary>
    public static bool Inside(IReadOnlyList<(double X, double Y)> corners, double x, double y)
    {
        var inside = false;
        for (int i = 0, j = corners.Count - 1; i < corners.Count; j = i++)
        {
            var (a, b) = (corners[i], corners[j]);
            if (a.Y > y != b.Y > y && x < ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y)) + a.X) inside = !inside;
        }

        return inside;
    }

    /// <summary>Parallel lines cut at the outline.</summary>
    /// <param name="degrees">0 is level, 90 upright, 45 falls to the right on the page.</param>
    /// <param name="step">px between lines; they run through the same places in every outline, so neighbours of one texture match.</param>
    public static void Hatch(List<Mark> marks, IReadOnlyList<(double X, double Y)> outline, double degrees, double step)
    {
        var (cos, sin) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
        List<(double Along, double Across)> turned = [.. outline.Select(p => ((p.X * cos) + (p.Y * sin), (p.Y * cos) - (p.X * sin)))];
        var cuts = new List<double>();
        for (var across = Math.Ceiling(turned.Min(p => p.Across) / step) * step; across < turned.Max(p => p.Across); across += step)
        {
            cuts.Clear();
            for (int i = 0, j = turned.Count - 1; i < turned.Count; j = i++)
            {
                var (a, b) = (turned[i], turned[j]);
                if (a.Across > across != b.Across > across)
                    cuts.Add(a.Along + ((b.Along - a.Along) * (across - a.Across) / (b.Across - a.Across)));
            }

            cuts.Sort();
            for (var k = 0; k + 1 < cuts.Count; k += 2)
            {
                marks.Add(new LineMark("dr-hatch", (cuts[k] * cos) - (across * sin), (cuts[k] * sin) + (across * cos),
                    (cuts[k + 1] * cos) - (across * sin), (cuts[k + 1] * sin) + (across * cos)));
            }
        }
    }

    /// <summary>Dots on a lattice of its own inside the outline.</summary>
    public static void Dots(List<Mark> marks, IReadOnlyList<(double X, double Y)> outline, double step)
    {
        for (var row = (int)Math.Ceiling(outline.Min(p => p.Y) / step); row * step < outline.Max(p => p.Y); row++)
        {
            for (var x = (Math.Ceiling(outline.Min(p => p.X) / step) + (row % 2 == 0 ? 0 : 0.5)) * step; x < outline.Max(p => p.X);
                x += step)
            {
                if (Inside(outline, x, row * step)) marks.Add(new CircleMark("dr-dot", x, row * step, 0.8));
            }
        }
    }
}
