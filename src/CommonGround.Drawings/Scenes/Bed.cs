using CommonGround.Drawings.Plants;

namespace CommonGround.Drawings.Scenes;

/// <summary>A place in a yard, metres: X along the walk to the right, Y away from the walk.</summary>
public readonly record struct GroundPoint(double X, double Y);

/// <summary>How a taxon is spread: evenly, in long clouds, or singly.</summary>
public enum Spread { Matrix, Drift, Dot }

/// <summary>What is planted of one taxon.</summary>
/// <param name="Plant">What it looks like.</param>
/// <param name="Count">Plants, 0 or more.</param>
/// <param name="Spread">How they stand, where <paramref name="Places"/> does not say.</param>
/// <param name="Places">Where each stands; null to have them placed.</param>
public sealed record DriftOf(Likeness Plant, int Count, Spread Spread, IReadOnlyList<GroundPoint>? Places = null);

/// <summary>A bed of any outline with what is planted in it.</summary>
/// <param name="Outline">Its corners in order, three or more; metres.</param>
/// <param name="Drifts">What is planted.</param>
/// <param name="Seed">Words that stay the same for the bed, such as its number.</param>
public sealed record Bed(IReadOnlyList<GroundPoint> Outline, IReadOnlyList<DriftOf> Drifts, string Seed)
{
    /// <summary>Area within the outline, m² (shoelace formula); 0 for fewer than three corners.</summary>
    public double AreaSquareMetres
    {
        get
        {
            var twice = 0.0;
            for (var i = 0; i < Outline.Count; i++)
            {
                var (a, b) = (Outline[i], Outline[(i + 1) % Outline.Count]);
                twice += (a.X * b.Y) - (b.X * a.Y);
            }

            return Outline.Count < 3 ? 0 : Math.Abs(twice) / 2;
        }
    }

    /// <summary>Whether a place lies within the outline (even-odd rule).</summary>
    public bool Holds(GroundPoint p)
    {
        var inside = false;
        for (var (i, j) = (0, Outline.Count - 1); i < Outline.Count; j = i++)
        {
            var (a, b) = (Outline[i], Outline[j]);
            if (a.Y > p.Y != b.Y > p.Y && p.X < ((b.X - a.X) * (p.Y - a.Y) / (b.Y - a.Y)) + a.X)
            {
                inside = !inside;
            }
        }

        return inside;
    }
}

/// <summary>One plant in its place.</summary>
/// <param name="Plant">What it looks like.</param>
/// <param name="At">Where it stands.</param>
/// <param name="Individual">Words that are its own, the same in every season.</param>
public sealed record Spot(Likeness Plant, GroundPoint At, string Individual);
