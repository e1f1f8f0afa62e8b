using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>Fills a bed: every place goes to the plant that wants it most (nearness to its drift, its height, what is left of its
/// share).</summary>
public static class Planting
{
    /// <summary>More plants than this are thinned, each drift alike.</summary>
    public const int Most = 600;

    /// <summary>Where every plant stands, from back to front.</summary>
    /// <param name="bed">The bed; nothing stands in one without area.</param>
    /// <returns>The spots, and how many plants each drawn one stands for (1 when none were left out).</returns>
    public static (IReadOnlyList<Spot> Spots, double EachStandsFor) Of(Bed bed)
    {
        ArgumentNullException.ThrowIfNull(bed);
        var total = bed.Drifts.Sum(d => Math.Max(0, d.Count));
        if (bed.AreaSquareMetres <= 0 || total == 0)
        {
            return ([], 1);
        }

        var each = Math.Max(1.0, total / (double)Most);
        var spots = new List<Spot>();
        foreach (var drift in bed.Drifts.Where(d => d.Places is not null))
        {
            var keep = Kept(drift, each);
            spots.AddRange(Enumerable.Range(0, Math.Min(keep, drift.Places!.Count))
                .Select(i => drift.Places![(int)(i * (long)drift.Places.Count / keep)])
                .Select((at, i) => new Spot(drift.Plant, at, $"{bed.Seed}|{drift.Plant.ScientificName}|{i}")));
        }

        var free = bed.Drifts.Where(d => d.Places is null && d.Count > 0).ToList();
        if (free.Count > 0)
        {
            spots.AddRange(Placed(bed, free, each));
        }

        return ([.. spots.OrderByDescending(s => s.At.Y).ThenBy(s => s.Individual, StringComparer.Ordinal)], each);
    }

    /// <summary>A drift that is planted is never thinned away.</summary>
    private static int Kept(DriftOf drift, double each) => drift.Count <= 0 ? 0 : Math.Max(1, (int)Math.Round(drift.Count / each));

    private static IEnumerable<Spot> Placed(Bed bed, List<DriftOf> drifts, double each)
    {
        var left = drifts.Select(d => Kept(d, each)).ToArray();
        var places = Places(bed, left.Sum());
        var (low, high) = (bed.Outline.Min(p => p.Y), bed.Outline.Max(p => p.Y));
        var (west, east) = (bed.Outline.Min(p => p.X), bed.Outline.Max(p => p.X));
        var c = new Chance("drifts " + bed.Seed);
        double Depth(DriftOf d) => Math.Clamp((d.Plant.HeightCm - 25) / 115, .04, .96);
        var centres = drifts.Select(d =>
            Enumerable.Range(0, d.Spread switch { Spread.Matrix => 0, Spread.Dot => 9, _ => 2 + (d.Count / 18) })
            .Select(_ => new GroundPoint(c.R(west, east), low + ((high - low) * (Depth(d) + (c.N() * .13))))).ToArray()).ToArray();
        var number = new int[drifts.Count];
        foreach (var p in places.OrderBy(_ => c.U()).ToList())
        {
            var (best, score) = (-1, double.MinValue);
            for (var i = 0; i < drifts.Count; i++)
            {
                if (left[i] <= 0)
                {
                    continue;
                }

                var far = centres[i].Length == 0 ? .55
                    : centres[i].Min(q => Math.Sqrt(Math.Pow((q.X - p.X) / .95, 2) + Math.Pow((q.Y - p.Y) / .42, 2)));
                var deep = high > low ? (p.Y - low) / (high - low) : .5;
                var value = (-far * (drifts[i].Spread == Spread.Dot ? .7 : 1))
                    - (Math.Abs(Depth(drifts[i]) - deep) * (drifts[i].Spread == Spread.Matrix ? .35 : 1.7))
                    + c.R(0, .55) + (left[i] * .002);
                if (value > score)
                {
                    (best, score) = (i, value);
                }
            }

            if (best < 0)
            {
                yield break;
            }

            left[best]--;
            yield return new Spot(drifts[best].Plant, p, $"{bed.Seed}|{drifts[best].Plant.ScientificName}|{number[best]++}");
        }
    }

    /// <summary>A loose grid within the outline with at least so many places.</summary>
    private static List<GroundPoint> Places(Bed bed, int count)
    {
        var pitch = Math.Sqrt(bed.AreaSquareMetres / count);
        var (west, low) = (bed.Outline.Min(p => p.X), bed.Outline.Min(p => p.Y));
        var (east, high) = (bed.Outline.Max(p => p.X), bed.Outline.Max(p => p.Y));
        for (var attempt = 0; ; attempt++, pitch *= .94)
        {
            var c = new Chance("grid " + bed.Seed);
            var places = new List<GroundPoint>();
            var row = 0;
            for (var y = low + (pitch * .35); y < high; y += pitch * .86, row++)
            {
                for (var x = west + (pitch * (row % 2 == 0 ? .3 : .8)); x < east; x += pitch)
                {
                    var p = new GroundPoint(x + (c.N() * pitch * .16), y + (c.N() * pitch * .13));
                    if (bed.Holds(p))
                    {
                        places.Add(p);
                    }
                }
            }

            if (places.Count >= count || attempt > 60)
            {
                return places;
            }
        }
    }
}
