using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Pens;

/// <summary>The box round strokes, px; y grows downwards.</summary>
public readonly record struct Bounds(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Halos are no part of the drawing. Curves are taken to their end points and half-way to their control.</summary>
    /// <returns><c>null</c> when nothing is drawn.</returns>
    public static Bounds? Of(IEnumerable<Stroke> strokes)
    {
        ArgumentNullException.ThrowIfNull(strokes);
        var (left, top, right, bottom) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        void Take(P2 p, double r = 0)
        {
            (left, right) = (Math.Min(left, p.X - r), Math.Max(right, p.X + r));
            (top, bottom) = (Math.Min(top, p.Y - r), Math.Max(bottom, p.Y + r));
        }

        foreach (var stroke in strokes.Where(s => s.Ink is not ("o" or "o2" or "w")))
        {
            if (stroke.Path is null)
            {
                Take(stroke.Centre, stroke.Radius);
                continue;
            }

            var at = default(P2);
            foreach (var step in stroke.Path.Steps.Where(s => s.Kind != StepKind.Close))
            {
                Take(step.To);
                if (step.Kind == StepKind.Curve)
                {
                    Take((((at + step.To) * .5) + step.Control) * .5);
                }

                at = step.To;
            }
        }

        return left > right ? null : new Bounds(left, top, right, bottom);
    }
}
