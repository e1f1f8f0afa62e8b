namespace CommonGround.Drawings.Strokes;

/// <summary>What a step of a path does.</summary>
public enum StepKind { Move, Line, Curve, Close }

/// <summary>One step of a path; <paramref name="Control"/> bends a curve, as in a quadratic Bézier.</summary>
public readonly record struct Step(StepKind Kind, P2 Control, P2 To);

/// <summary>A path of lines and soft curves.</summary>
public sealed class Trace
{
    private readonly List<Step> steps = [];

    public IReadOnlyList<Step> Steps => steps;

    internal Trace M(P2 p)
    {
        steps.Add(new(StepKind.Move, p, p));
        return this;
    }

    internal Trace L(P2 p)
    {
        steps.Add(new(StepKind.Line, p, p));
        return this;
    }

    internal Trace Q(P2 control, P2 p)
    {
        steps.Add(new(StepKind.Curve, control, p));
        return this;
    }

    internal Trace Z()
    {
        steps.Add(new(StepKind.Close, default, default));
        return this;
    }

    /// <summary>Through mid-points; the first point must be where the pen is, the last is reached.</summary>
    internal Trace Curve(IReadOnlyList<P2> p)
    {
        if (p.Count == 2)
        {
            return L(p[1]);
        }

        for (var i = 1; i < p.Count - 1; i++)
        {
            Q(p[i], i == p.Count - 2 ? p[i + 1] : (p[i] + p[i + 1]) * .5);
        }

        return this;
    }

    /// <summary>A closed soft outline round the points.</summary>
    internal Trace Ring(IReadOnlyList<P2> p)
    {
        var n = p.Count;
        M((p[n - 1] + p[0]) * .5);
        for (var i = 0; i < n; i++)
        {
            Q(p[i], (p[i] + p[(i + 1) % n]) * .5);
        }

        return Z();
    }

    internal void Append(Trace other) => steps.AddRange(other.steps);
}
