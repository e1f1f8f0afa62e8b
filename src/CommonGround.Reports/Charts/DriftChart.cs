using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>A planting plan from above, to scale: drifts with number and texture, every plug a dot, and a grid to copy with pegs and
/// string.</summary>
public static class DriftChart
{
    private const double Left = 34, Top = 8, Foot = 40, Line = 16, Swatch = 22;

    /// <summary>What the textures mean, for the line under the picture.</summary>
    public const string Textures =
        "Texture: upright lines, grass or sedge; dots, flowers before mid-June; strokes rising to the right, in June and July; falling, "
        + "from August; crossed, tall.";

    /// <param name="title">"Front bed, 82 m²".</param>
    /// <param name="plan">What goes where.</param>
    /// <param name="numbered">All taxa of the plan in the order of their numbers.</param>
    /// <param name="feet">Grid in feet, else in metres.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(string title, DriftPlan plan, IReadOnlyList<PlannedTaxon> numbered, bool feet, double width)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(numbered);
        var numbers = numbered.Index().ToDictionary(t => t.Item.Taxon.ScientificName, t => t.Index + 1, StringComparer.Ordinal);
        var (west, south) = (plan.Bed.Min(p => p.East), plan.Bed.Min(p => p.North));
        var (wide, deep) = (plan.Bed.Max(p => p.East) - west, plan.Bed.Max(p => p.North) - south);
        var scale = Math.Min((width - Left - 8) / wide, 460 / deep);
        var bottom = Top + (deep * scale);
        (double X, double Y) At(PlanPoint p) => (Left + ((p.East - west) * scale), bottom - ((p.North - south) * scale));
        var marks = new List<Mark>();
        var bed = plan.Bed.Select(At).ToList();
        marks.Add(new PathMark("dr-bed", bed, Closed: true));
        if (plan.BandMetres is not null) Sown(marks, plan, At, scale);
        foreach (var drift in plan.Drifts)
        {
            foreach (var outline in drift.Outlines.Select(o => o.Select(At).ToList()))
            {
                marks.Add(new PathMark("dr-edge", outline, Closed: true));
                Texture(marks, outline, drift.Taxon);
            }
        }

        Grid(marks, plan, feet, wide, deep, scale, bottom);
        marks.Add(new PathMark("dr-frame", bed, Closed: true));
        foreach (var drift in plan.Drifts)
        {
            foreach (var plug in drift.Plugs.Where(p => p != drift.Middle || drift.Plugs.Count == 1).Select(At))
            {
                marks.Add(new CircleMark(Ink(drift.Taxon), plug.X, plug.Y, Math.Clamp(plan.SpacingMetres * scale * 0.13, 1.6, 4)));
            }
        }

        foreach (var drift in plan.Drifts)
        {
            var (x, y) = At(drift.Middle);
            var number = numbers[drift.Taxon.Taxon.ScientificName].ToString(CultureInfo.InvariantCulture);
            marks.Add(new CircleMark("dr-number", x, y, 8.5));
            marks.Add(new TextMark("axis strong", x, y + 4.2, number, Anchor.Middle));
        }

        var height = Legend(marks, plan, numbered, bottom + Foot, width);
        return new Chart(width, height, Alt(title, plan), marks);
    }

    /// <summary>Flowers in their colour, grasses and what has none as plain dots.</summary>
    private static string Ink(PlannedTaxon taxon) => taxon.Traits.IsGrass || taxon.Taxon.FlowerColour.Length == 0 ? "dr-grass"
        : "fl-" + taxon.Taxon.FlowerColour;

    private static void Sown(List<Mark> marks, DriftPlan plan, Func<PlanPoint, (double X, double Y)> at, double scale)
    {
        var back = plan.Drifts.SelectMany(d => d.Plugs).Max(p => p.North);
        var corners = plan.Bed;
        var step = Math.Max(0.12, 9 / scale);
        var odd = false;
        for (var north = back + (plan.SpacingMetres * 0.8); north < corners.Max(c => c.North); north += step * 0.8, odd = !odd)
        {
            for (var east = corners.Min(c => c.East) + (odd ? step : step / 2); east < corners.Max(c => c.East); east += step)
            {
                if (Flat.Inside(corners, east, north))
                    marks.Add(new CircleMark("sk-dot", at(new(east, north)).X, at(new(east, north)).Y, 0.8));
            }
        }
    }

    /// <summary>Lines that a string between two pegs can follow, with their distance from the left corner and from the kerb.</summary>
    private static void Grid(List<Mark> marks, DriftPlan plan, bool feet, double wide, double deep, double scale, double bottom)
    {
        var unit = feet ? 0.3048 : 1;
        var step = Math.Max(feet ? 1 : 0.5, Scale.Step(wide / unit, 10));
        for (var i = 0; i * step * unit <= wide + 1e-9; i++)
        {
            var x = Left + (i * step * unit * scale);
            marks.Add(new LineMark("dr-grid", x, Top, x, bottom + 4));
            marks.Add(new TextMark("axis", x, bottom + 16, Words(i * step), Anchor.Middle));
        }

        for (var i = 0; i * step * unit <= deep + 1e-9; i++)
        {
            var y = bottom - (i * step * unit * scale);
            marks.Add(new LineMark("dr-grid", Left - 4, y, Left + (wide * scale), y));
            marks.Add(new TextMark("axis", Left - 8, y + 4, Words(i * step), Anchor.End));
        }

        marks.Add(new TextMark("axis", Left,
            bottom + 31, $"{(feet ? "feet" : "metres")}; walk or street on this side, plugs {Apart(plan.SpacingMetres, feet)} apart in "
                + $"staggered rows"));
    }

    private static string Apart(double metres, bool feet) => feet ? $"{Math.Round(metres / 0.0254)} in" : $"{Math.Round(metres * 100)} cm";

    private static void Texture(List<Mark> marks, IReadOnlyList<(double X, double Y)> outline, PlannedTaxon taxon)
    {
        if (taxon.Traits.IsGrass) Flat.Hatch(marks, outline, 90, 6);
        else if (taxon.Traits.Role == MixRole.Structural)
        {
            Flat.Hatch(marks, outline, 45, 8);
            Flat.Hatch(marks, outline, -45, 8);
        }
        else if (taxon.Taxon.Bloom is not { } bloom) Flat.Hatch(marks, outline, 0, 6);
        else if (bloom.Start <= 9) Flat.Dots(marks, outline, 6);
        else Flat.Hatch(marks, outline, bloom.Start <= 13 ? -45 : 45, 6);
    }

    private static double Legend(List<Mark> marks, DriftPlan plan, IReadOnlyList<PlannedTaxon> numbered, double top, double width)
    {
        var shown = numbered.Index().Where(n => plan.Drifts.Any(d => d.Taxon.Taxon.ScientificName == n.Item.Taxon.ScientificName)).ToList();
        var columns = Math.Max(1, (int)(width / 262));
        var rows = (shown.Count + columns - 1) / columns;
        foreach (var ((index, taxon), i) in shown.Select((s, i) => (s, i)))
        {
            var (x, y) = (i / rows * (width / columns), top + (i % rows * Line));
            (double X, double Y)[] box = [(x + 20, y), (x + 20 + Swatch, y), (x + 20 + Swatch, y + 11), (x + 20, y + 11)];
            marks.Add(new TextMark("axis strong", x + 15, y + 10, (index + 1).ToString(CultureInfo.InvariantCulture), Anchor.End));
            marks.Add(new PathMark("dr-edge", box, Closed: true));
            Texture(marks, box, taxon);
            marks.Add(new CircleMark(Ink(taxon), x + 30 + Swatch, y + 5.5, 4));
            var plugs = plan.Drifts.Where(d => d.Taxon.Taxon.ScientificName == taxon.Taxon.ScientificName).Sum(d => d.Plugs.Count);
            var room = (int)(((width / columns) - Swatch - 84) / 6.2);
            var name = taxon.Taxon.DisplayName;
            marks.Add(new TextMark("axis", x + 40 + Swatch,
                y + 10, $"{(name.Length <= room ? name : name[..Math.Max(1, room - 1)] + "…")}, {plugs}"));
        }

        return top + (rows * Line) + 2;
    }

    private static string Words(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Alt(string title, DriftPlan plan)
    {
        var front = plan.Drifts[0].Taxon.Taxon.DisplayName;
        return string.Create(
            CultureInfo.InvariantCulture, $"{title} from above: {plan.Drifts.Sum(d => d.Plugs.Count)} plugs in {plan.Drifts.Count} "
                + $"drifts, low ones at the walk's side, beginning with {front} at the left.")
            + (plan.BandMetres is null ? "" : " The ground behind them is sown.");
    }
}
