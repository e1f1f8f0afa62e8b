namespace CommonGround.Drawings.Strokes;

/// <summary>Strokes set elsewhere on the paper.</summary>
public static class Moved
{
    public static IReadOnlyList<Stroke> By(IReadOnlyList<Stroke> strokes, double x, double y)
    {
        ArgumentNullException.ThrowIfNull(strokes);
        var way = new P2(x, y);
        return [.. strokes.Select(s => s.Path is null ? s with { Centre = s.Centre + way } : s with { Path = Shifted(s.Path, way) })];
    }

    private static Trace Shifted(Trace path, P2 way)
    {
        var moved = new Trace();
        foreach (var step in path.Steps)
        {
            _ = step.Kind switch
            {
                StepKind.Move => moved.M(step.To + way),
                StepKind.Line => moved.L(step.To + way),
                StepKind.Curve => moved.Q(step.Control + way, step.To + way),
                _ => moved.Z(),
            };
        }

        return moved;
    }
}
