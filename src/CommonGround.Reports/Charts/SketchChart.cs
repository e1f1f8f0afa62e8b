using System.Globalization;
using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>What a sketch shows of a yard.</summary>
/// <param name="Areas">The ground to convert.</param>
/// <param name="YardSquareMetres">Null when nobody has measured the yard.</param>
/// <param name="YardOutline">Its corners, metres east and north; empty when not drawn.</param>
/// <param name="Street">Name to write on the street's side; empty for none.</param>
public sealed record Sketch(IReadOnlyList<ConversionArea> Areas, double? YardSquareMetres, IReadOnlyList<PlanPoint> YardOutline,
    string Street = "");

/// <summary>The yard from above, to scale: the ground to convert dotted, the rest turf, with a ruler.</summary>
public static class SketchChart
{
    private const double Margin = 8, Foot = 34, KeyWidth = 176;

    /// <param name="title">"Sketch of yard KI-12".</param>
    /// <param name="sketch">What to draw.</param>
    /// <param name="feet">Figures in feet, else in metres.</param>
    /// <param name="width">px, 300 or more.</param>
    /// <param name="height">px, 150 or more.</param>
    public static Chart Draw(string title, Sketch sketch, bool feet, double width, double height)
    {
        var ground = SketchGround.Of(sketch);
        var scale = Math.Min((width - KeyWidth - (2 * Margin)) / ground.Wide, (height - Foot - (2 * Margin)) / ground.Deep);
        (double X, double Y) At(PlanPoint p) => (Margin + ((p.East - ground.West) * scale), Margin + ((ground.North - p.North) * scale));
        var marks = new List<Mark>();
        double right = Margin + (ground.Wide * scale), bottom = Margin + (ground.Deep * scale);
        var unit = feet ? 0.3048 : 1;
        var ruler = Scale.Step(ground.Wide / unit, 5);
        Grid(marks, ruler * unit / 5 * scale, right, bottom);
        if (ground.Yard.Count > 2)
        {
            marks.Add(new PathMark("sk-yard", [.. ground.Yard.Select(At)], Closed: true));
            Turf(marks, [.. ground.Yard.Select(At)], [.. ground.Areas.Select(a => a.Outline.Select(At).ToList())]);
        }

        List<List<(double X, double Y)>> drawn = [.. ground.Areas.Select(a => a.Outline.Select(At).ToList())];
        // Where a name would run over its edge all areas go by letters, which the key explains.
        var letters = ground.Areas.Count > 1 && ground.Areas.Zip(drawn)
            .Any(a => (Name(a.First, feet).Length * 7) + 10 > a.Second.Max(c => c.X) - a.Second.Min(c => c.X));
        for (var i = 0; i < drawn.Count; i++)
        {
            marks.Add(new PathMark("sk-area", drawn[i], Closed: true));
            Dots(marks, drawn[i]);
            Label(marks, drawn[i], letters ? Letter(i) : Name(ground.Areas[i], feet));
        }

        if (sketch.Street.Length > 0)
        {
            marks.Add(new TextMark("lab", (Margin + right) / 2, bottom + 20, sketch.Street, Anchor.Middle));
        }

        var keyed = Key(marks, right + 18, ground, ruler, ruler * unit * scale, feet, letters);
        return new Chart(width, Math.Max(bottom + Foot - Margin, keyed), Alt(title, sketch, ground, feet), marks);
    }

    /// <summary>"82 m²" or "883 ft²".</summary>
    internal static string Area(double squareMetres, bool feet) => feet
        ? $"{(squareMetres / (0.3048 * 0.3048)).ToString("#,0", CultureInfo.InvariantCulture)} ft²"
        : $"{squareMetres.ToString(squareMetres < 10 ? "0.0" : "#,0", CultureInfo.InvariantCulture)} m²";

    private static string Name(ConversionArea area, bool feet) => $"{area.Name} {Area(area.SquareMetres, feet)}";

    private static string Letter(int i) => i < 26 ? $"{(char)('A' + i)}" : (i + 1).ToString(CultureInfo.InvariantCulture);

    private static void Grid(List<Mark> marks, double step, double right, double bottom)
    {
        for (var x = Margin; x <= right + 0.01 && step > 3; x += step)
        {
            marks.Add(new LineMark("sk-grid", x, Margin, x, bottom));
        }

        for (var y = bottom; y >= Margin - 0.01 && step > 3; y -= step)
        {
            marks.Add(new LineMark("sk-grid", Margin, y, right, y));
        }
    }

    private static void Turf(List<Mark> marks, IReadOnlyList<(double X, double Y)> yard,
        IReadOnlyList<IReadOnlyList<(double X, double Y)>> areas)
    {
        foreach (var (x, y) in Lattice(yard, 15))
        {
            if (Inside(yard, x + 2, y - 4) && !areas.Any(a => Inside(a, x, y)))
            {
                marks.Add(new LineMark("sk-turf", x, y, x + 1.6, y - 4.5));
            }
        }
    }

    private static void Dots(List<Mark> marks, IReadOnlyList<(double X, double Y)> corners)
    {
        foreach (var (x, y) in Lattice(corners, 10))
        {
            marks.Add(new CircleMark("sk-dot", x, y, 1.1));
        }
    }

    private static IEnumerable<(double X, double Y)> Lattice(IReadOnlyList<(double X, double Y)> corners, double step)
    {
        var odd = false;
        for (var y = corners.Min(c => c.Y) + (step / 2); y < corners.Max(c => c.Y); y += step * 0.8, odd = !odd)
        {
            for (var x = corners.Min(c => c.X) + (odd ? step : step / 2); x < corners.Max(c => c.X); x += step)
            {
                if (Inside(corners, x, y))
                {
                    yield return (x, y);
                }
            }
        }
    }

    /// <summary>Even–odd rule.</summary>
    private static bool Inside(IReadOnlyList<(double X, double Y)> corners, double x, double y)
    {
        var inside = false;
        for (int i = 0, j = corners.Count - 1; i < corners.Count; j = i++)
        {
            var (a, b) = (corners[i], corners[j]);
            if (a.Y > y != b.Y > y && x < ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y)) + a.X)
            {
                inside = !inside;
            }
        }

        return inside;
    }

    private static void Label(List<Mark> marks, IReadOnlyList<(double X, double Y)> corners, string text)
    {
        double x = (corners.Min(c => c.X) + corners.Max(c => c.X)) / 2, y = (corners.Min(c => c.Y) + corners.Max(c => c.Y)) / 2;
        // About 7 px a letter; a name wider than its area stands on it all the same, kept inside the drawing's left edge.
        var half = (text.Length * 3.5) + 5;
        x = Math.Max(x, half);
        marks.Add(new RectMark("sk-label", x - half, y - 10, 2 * half, 20, 3));
        marks.Add(new TextMark("lab", x, y + 5, text, Anchor.Middle));
    }

    /// <returns>How far down it reaches.</returns>
    private static double Key(List<Mark> marks, double x, SketchGround ground, double ruler, double pixels, bool feet, bool letters)
    {
        var y = Margin;
        if (ground.NorthKnown)
        {
            marks.Add(new PathMark("solid", [(x + 150, y), (x + 156, y + 20), (x + 144, y + 20)], Closed: true));
            marks.Add(new TextMark("axis strong", x + 150, y + 35, "N", Anchor.Middle));
        }

        marks.Add(new RectMark("sk-area", x, y, 24, 18));
        marks.AddRange([new CircleMark("sk-dot", x + 6, y + 6, 1.1), new CircleMark("sk-dot", x + 15, y + 6, 1.1),
            new CircleMark("sk-dot", x + 10, y + 13, 1.1), new CircleMark("sk-dot", x + 19, y + 13, 1.1)]);
        marks.Add(new TextMark("lab", x + 32, y + 14, "to plant", TailStyle: "axis",
            Tail: Area(ground.Areas.Sum(a => a.SquareMetres), feet)));
        y += 32;
        if (ground.Yard.Count > 2)
        {
            marks.Add(new RectMark("sk-yard", x, y, 24, 18));
            marks.AddRange([new LineMark("sk-turf", x + 6, y + 12, x + 8, y + 7), new LineMark("sk-turf", x + 14, y + 15, x + 16, y + 10),
                new LineMark("sk-turf", x + 16, y + 7, x + 18, y + 3)]);
            marks.Add(new TextMark("lab", x + 32, y + 14, "rest of yard"));
            y += 32;
        }

        marks.Add(new TextMark("axis", x, y + 8, feet
            ? $"{Scale.Words(ruler)} ft ({Scale.Words(ruler * 0.3048)} m); a square: {Words(ruler / 5)} ft"
            : $"{Scale.Words(ruler)} m ({Scale.Words(ruler / 0.3048)} ft); a square: {Words(ruler / 5)} m"));
        marks.AddRange([new LineMark("ground", x, y + 20, x + pixels, y + 20), new LineMark("ground", x, y + 15, x, y + 25),
            new LineMark("ground", x + pixels, y + 15, x + pixels, y + 25)]);
        y += 46;
        for (var i = 0; letters && i < ground.Areas.Count; i++, y += 18)
        {
            marks.Add(new TextMark("lab strong", x, y, Letter(i)));
            marks.Add(new TextMark("lab small-lab", x + 16, y, Name(ground.Areas[i], feet)));
        }

        return y;
    }

    private static string Words(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Alt(string title, Sketch sketch, SketchGround ground, bool feet)
    {
        var yard = ground.Yard.Count < 3 ? "" : sketch.YardOutline.Count > 2 ? " in the yard’s own outline"
            : $" in a yard drawn as a square of {Area(sketch.YardSquareMetres ?? 0, feet)}";
        var squares = sketch.Areas.Count(a => a.Outline.Count < 3);
        var assumed = squares > 0
            ? $"; {(squares == sketch.Areas.Count ? "shapes and places are" : "some shapes and places are")} not known and drawn as "
            + $"rectangles" : "";
        return $"{title}, to scale: {string.Join(", ", sketch.Areas.Select(a => $"{a.Name} {Area(a.SquareMetres, feet)}"))}{yard}{assumed}.";
    }
}

/// <summary>The areas with an outline each: their own, or a rectangle of their size where only that is known.</summary>
internal sealed record SketchGround(IReadOnlyList<ConversionArea> Areas, IReadOnlyList<PlanPoint> Yard, bool NorthKnown)
{
    public double West => All.Min(p => p.East);

    public double North => All.Max(p => p.North);

    public double Wide => Math.Max(0.5, All.Max(p => p.East) - West);

    public double Deep => Math.Max(0.5, North - All.Min(p => p.North));

    private IEnumerable<PlanPoint> All => Areas.SelectMany(a => a.Outline).Concat(Yard);

    public static SketchGround Of(Sketch sketch)
    {
        var drawn = sketch.Areas.Where(a => a.Outline.Count > 2).ToList();
        var typed = sketch.Areas.Where(a => a.Outline.Count < 3).ToList();
        var yard = sketch.YardOutline;
        if (yard.Count < 3 && drawn.Count == 0 && sketch.YardSquareMetres is { } size && size >= sketch.Areas.Sum(a => a.SquareMetres))
        {
            // A yard half as wide again as it is deep, as most are drawn: the front on the street below.
            var deep = Math.Sqrt(size / 1.5);
            yard = Box(0, 0, size / deep, deep);
        }

        var beside = drawn.Count > 0 || sketch.YardOutline.Count > 2;
        double west = beside ? drawn.SelectMany(a => a.Outline).Concat(yard).Max(p => p.East) + 1 : 0;
        var south = beside ? drawn.SelectMany(a => a.Outline).Concat(yard).Min(p => p.North) : 0;
        var areas = new List<ConversionArea>(drawn);
        var room = !beside && yard.Count > 2 ? yard.Max(p => p.East) : double.PositiveInfinity;
        var total = typed.Sum(a => a.SquareMetres);
        foreach (var area in typed)
        {
            // Side by side along the street, together no wider than the yard: all of one depth there, squares elsewhere.
            var depth = double.IsFinite(room) ? Math.Max(total / (0.9 * room),
                Math.Min(Math.Sqrt(total / typed.Count), yard.Max(p => p.North))) : Math.Sqrt(area.SquareMetres);
            var wide = area.SquareMetres / depth;
            var gap = double.IsFinite(room) ? Math.Max(0, (room - (total / depth)) / (typed.Count + 1)) : 0;
            areas.Add(area with { Outline = Box(west + gap, south, wide, depth) });
            west += wide + (double.IsFinite(room) ? gap : 1);
        }

        return new SketchGround(areas, yard, drawn.Count > 0 || sketch.YardOutline.Count > 2);
    }

    private static PlanPoint[] Box(double west, double south, double wide, double deep) =>
        [new(west, south), new(west + wide, south), new(west + wide, south + deep), new(west, south + deep)];
}
