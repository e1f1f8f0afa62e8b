using System.Globalization;
using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>A taxon as it stands in a planting seen from the side.</summary>
/// <param name="Number">Its line in the table.</param>
/// <param name="HeightMetres">Upper end of its usual height; null when not known.</param>
/// <param name="LowMetres">Lower end; null when not known.</param>
/// <param name="Colour">Of its flowers; empty when not known.</param>
/// <param name="Blades">A grass, sedge or fern: no flower is drawn.</param>
/// <param name="Share">Of the area's ground, 0–1.</param>
public sealed record PlanPlant(int Number, string Name, double? HeightMetres, double? LowMetres, string Colour, bool Blades, double Share);

/// <summary>A planting from the side, once grown: heights to scale, width by share of the ground, flowers in their colours.</summary>
public static class PlantingPlanChart
{
    private const double Left = 44, Top = 12, Tall = 128;

    /// <param name="title">"Front bed, 82 m²".</param>
    /// <param name="plants">Any order.</param>
    /// <param name="look">How they are arranged from left to right.</param>
    /// <param name="tallestMetres">The limit that was asked for; null for none.</param>
    /// <param name="feet">Ruler in feet, else in metres.</param>
    /// <param name="width">px, 400 or more.</param>
    public static Chart Draw(string title, IReadOnlyList<PlanPlant> plants, Look look, double? tallestMetres, bool feet, double width)
    {
        var marks = new List<Mark>();
        var unit = feet ? 0.3048 : 1;
        var known = plants.Select(p => p.HeightMetres ?? 0).Append(tallestMetres ?? 0).Append(0.3).Max();
        var ticks = Scale.Ticks(known / unit, 4);
        const double Base = Top + Tall;
        double Y(double metres) => Base - (metres / unit / ticks[^1] * Tall);
        foreach (var tick in ticks)
        {
            marks.Add(new LineMark("g-rule", Left, Y(tick * unit), width, Y(tick * unit)));
            marks.Add(new TextMark("axis", Left - 6, Y(tick * unit) + 4, tick == ticks[^1] ? $"{Words(tick)} {(feet ? "ft" : "m")}" : Words(tick), Anchor.End));
        }

        if (tallestMetres is { } limit)
        {
            marks.Add(new LineMark("g-norm", Left, Y(limit), width, Y(limit)));
            marks.Add(new TextMark("axis strong", width, Y(limit) - 4, $"limit {Scale.Words(limit / unit)} {(feet ? "ft" : "m")}", Anchor.End));
        }

        var x = Left + 4;
        var room = width - Left - 8;
        var least = Math.Min(18, room / Math.Max(1, plants.Count));
        var free = room - (least * plants.Count);
        var shares = Math.Max(1e-9, plants.Sum(p => p.Share));
        var close = least < 17;
        var ordered = Arranged(plants, look);
        for (var i = 0; i < ordered.Count; i++)
        {
            var wide = least + (free * ordered[i].Share / shares);
            Clump(marks, ordered[i], x, wide, Y, Base);
            // Figures of two digits side by side need 15 px: where there is less they take turns on two lines.
            marks.Add(new TextMark("axis strong", x + (wide / 2), Base + 15 + (close && i % 2 == 1 ? 13 : 0), ordered[i].Number.ToString(CultureInfo.InvariantCulture), Anchor.Middle));
            x += wide;
        }

        marks.Add(new LineMark("ground", Left, Base, width, Base));
        return new Chart(width, Base + (close ? 34 : 21), Alt(title, ordered, unit, feet), marks);
    }

    /// <summary>From left to right: low to high where order is wanted, tall in the middle by edges, mingled elsewhere.</summary>
    private static List<PlanPlant> Arranged(IReadOnlyList<PlanPlant> plants, Look look)
    {
        var rising = plants.OrderBy(p => p.HeightMetres ?? 0).ThenBy(p => p.Number).ToList();
        return look switch
        {
            Look.Ordered => rising,
            Look.EdgeFriendly => [.. rising.Where((_, i) => i % 2 == 0), .. rising.Where((_, i) => i % 2 == 1).Reverse()],
            // Every third, then the ones between: high and low stand beside each other, always the same way.
            _ => [.. Enumerable.Range(0, 3).SelectMany(k => rising.Where((_, i) => i % 3 == k))],
        };
    }

    private static void Clump(List<Mark> marks, PlanPlant plant, double x, double wide, Func<double, double> y, double ground)
    {
        if (plant.HeightMetres is not { } high)
        {
            marks.Add(new RectMark("g-ghost", x + 2, y(0.3), wide - 4, ground - y(0.3)));
            return;
        }

        var low = Math.Clamp(plant.LowMetres ?? high * 0.8, high * 0.6, high);
        var stems = Math.Clamp((int)(wide / 13), 1, 9);
        for (var i = 0; i < stems; i++)
        {
            var at = x + ((i + 0.5) * wide / stems);
            // The tallest stands in the middle; the others fall off towards the lower end of the usual height.
            var part = stems == 1 ? 0 : Math.Abs(i - ((stems - 1) / 2.0)) / ((stems - 1) / 2.0);
            var top = y(high - ((high - low) * part));
            if (plant.Blades)
            {
                Grass(marks, at, top, ground);
            }
            else
            {
                Forb(marks, at, top, ground, plant.Colour);
            }
        }
    }

    private static void Grass(List<Mark> marks, double x, double top, double ground)
    {
        var tall = ground - top;
        foreach (var (lean, share) in new[] { (-5.0, 0.72), (-2.0, 0.95), (0.6, 1.0), (3.0, 0.9), (5.5, 0.66) })
        {
            marks.Add(new PathMark("blade", [(x + (lean * 0.15), ground), (x + (lean * 0.4), ground - (tall * share * 0.6)), (x + lean, ground - (tall * share))], Closed: false));
        }
    }

    private static void Forb(List<Mark> marks, double x, double top, double ground, string colour)
    {
        var tall = ground - top;
        var head = Math.Clamp(tall * 0.07, 2.6, 4.6);
        marks.Add(new LineMark("stem", x, ground, x, top + head));
        foreach (var (share, side) in new[] { (0.22, 1), (0.4, -1), (0.58, 1) })
        {
            marks.Add(new LineMark("stem", x, ground - (tall * share), x + (side * 4.5), ground - (tall * share) - 4));
        }

        marks.Add(new CircleMark(colour.Length > 0 ? "fl-" + colour : "fl-none", x, top + head, head));
    }

    private static string Words(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Alt(string title, List<PlanPlant> plants, double unit, bool feet)
    {
        var tallest = plants.Where(p => p.HeightMetres is not null).MaxBy(p => p.HeightMetres);
        var lowest = plants.Where(p => p.HeightMetres is not null).MinBy(p => p.HeightMetres);
        string Height(PlanPlant p) => $"{p.Name} {(p.HeightMetres!.Value / unit).ToString("0.#", CultureInfo.InvariantCulture)} {(feet ? "ft" : "m")}";
        return tallest is null || lowest is null
            ? $"{title} from the side: {plants.Count} taxa, heights not known."
            : $"{title} from the side, heights to scale: {plants.Count} taxa, lowest {Height(lowest)}, tallest {Height(tallest)}.";
    }
}
