namespace CommonGround.Drawings.Strokes;

/// <summary>The one hand that draws everything: two widths of line, paper-filled shapes that hide what lies behind, flat washes.</summary>
/// <param name="to">Where the strokes go.</param>
/// <param name="ox">Where the plant's foot stands on the paper, px.</param>
/// <param name="oy">The ground, px.</param>
/// <param name="s">Pixels per centimetre.</param>
/// <param name="seed">Words that make the hand's unsteadiness.</param>
internal sealed partial class Pen(List<Stroke> to, double ox, double oy, double s, string seed)
{
    private readonly Chance shake = new("hand " + seed);

    public double Ox { get; set; } = ox;

    public double Oy { get; set; } = oy;

    public double S { get; } = s;

    /// <summary>Stretches all heights, so that the drawn plant is as tall as its row says; 1 before it is known.</summary>
    public double Fit { get; init; } = 1;

    /// <summary>Standing dead parts are drawn in dry ink.</summary>
    public bool Dead { get; set; }

    /// <summary>Ink of dry parts: d straw, dc copper, da amber.</summary>
    public string DryInk { get; set; } = "d";

    /// <summary>Many blades lie together, so each is paler than a stem.</summary>
    public bool Faint { get; set; }

    /// <summary>Unsteadiness, px.</summary>
    public double Wobble { get; init; } = .35;

    /// <summary>No flower smaller than this radius, px.</summary>
    public double Least { get; init; } = 1.6;

    /// <summary>Below 1: fewer leaves and lines.</summary>
    public double Detail { get; init; } = 1;

    /// <summary>Too small for fine work: fewer points, fewer stalks.</summary>
    public bool Coarse => S < 2.2;

    private string Ink => Dead ? DryInk : "i";

    public P2 At(V3 p) => new(Ox + (S * p.X), Oy - (S * ((p.Y * Fit) - (.11 * p.Z))));

    /// <summary>The point as an unsteady hand sets it.</summary>
    public P2 J(P2 p, double k = 1) => new(p.X + (shake.N() * Wobble * k), p.Y + (shake.N() * Wobble * k));

    public void Put(string ink, Trace path)
    {
        if (path.Steps.Count < 2)
        {
            return;
        }

        // Lines of one ink that follow each other become one path: half the size.
        if (to.Count > 0 && to[^1] is { IsLine: true } last && last.Ink == ink)
        {
            last.Path!.Append(path);
            return;
        }

        to.Add(new Stroke(ink, path));
    }

    public void Line(IReadOnlyList<P2> p, bool heavy = false)
    {
        if (p.Count > 1)
        {
            Put((heavy ? "h " : "t ") + (Faint && !Dead ? "b" : Ink), new Trace().M(J(p[0])).Curve(Shaken(p)));
        }
    }

    /// <summary>Many fine lines in one path: blades, hairs, hatching.</summary>
    public void Lines(IEnumerable<IReadOnlyList<P2>> lines, bool heavy = false, string? ink = null)
    {
        var path = new Trace();
        foreach (var line in lines.Where(l => l.Count > 1))
        {
            path.M(J(line[0])).Curve(Shaken(line));
        }

        Put(ink ?? (heavy ? "h " : "t ") + (Faint && !Dead ? "b" : Ink), path);
    }

    /// <summary>Clears the paper round lines to come, so that what stands in front reads in front.</summary>
    public void Halo(IEnumerable<IReadOnlyList<P2>> lines)
    {
        if (Coarse && Dead)
        {
            return;
        }

        var path = new Trace();
        foreach (var line in lines.Where(l => l.Count > 1))
        {
            path.M(line[0]).Curve(line);
        }

        Put(Coarse ? "o2" : "o", path);
    }

    /// <summary>A closed shape: "p" is paper that hides what is behind it, "f-…" a wash of a flower's colour.</summary>
    public void Shape(Trace path, string fill = "p", bool outline = true)
    {
        if (fill == "p")
        {
            Put(outline ? "p " + Ink : "q", path);
        }
        else
        {
            Put(outline ? fill : fill + " n", path);
        }
    }

    /// <summary>A dot or a soft round shape.</summary>
    public void Blob(P2 c, double r, string fill, bool outline = true, double squash = 1, double turn = 0)
    {
        if (r < 2.1 && squash > .6)
        {
            to.Add(new Stroke(fill == "p" ? "p s " + Ink : fill + (outline && r >= 1.15 ? " s" : " n"), null, c, Math.Max(.3, r)));
            return;
        }

        var n = r < 3 ? 5 : 8;
        var ring = new List<P2>(n);
        for (var i = 0; i < n; i++)
        {
            var a = i * Math.Tau / n;
            var k = r * (1 + (.1 * shake.N())) * (n == 5 ? 1.15 : 1.06);
            var (x, y) = (Math.Cos(a) * k, Math.Sin(a) * k * squash);
            ring.Add(c + new P2((x * Math.Cos(turn)) - (y * Math.Sin(turn)), (x * Math.Sin(turn)) + (y * Math.Cos(turn))));
        }

        Shape(new Trace().Ring(ring), fill, outline);
    }

    private List<P2> Shaken(IReadOnlyList<P2> p)
    {
        var shaken = new List<P2>(p.Count) { p[0] };
        for (var i = 1; i < p.Count; i++)
        {
            shaken.Add(J(p[i], i == p.Count - 1 ? .5 : 1));
        }

        return shaken;
    }
}
