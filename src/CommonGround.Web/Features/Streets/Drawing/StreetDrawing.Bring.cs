using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;

namespace CommonGround.Web.Features.Streets;

/// <summary>A block that a map file brings.</summary>
/// <param name="Block">Empty: it is named after its crossings.</param>
public sealed record BroughtBlock(string Street, string Block, bool Closed, IReadOnlyList<GeoPoint> Points);

/// <content>Takes over what a map file brings.</content>
public sealed partial class StreetDrawing
{
    private const double SameCrossingMetres = 3;

    /// <summary>Adds blocks, in one step. A block of the same street and name gets the file's shape; one that lies between the same
    /// crossings is there already.</summary>
    /// <returns>How many are new, how many got another shape.</returns>
    public (int Added, int Changed) Bring(IReadOnlyList<BroughtBlock> brought)
    {
        ArgumentNullException.ThrowIfNull(brought);
        Remember();
        EndsOf(brought, out var ends);
        var (blocks, added, changed) = (Now.Blocks.ToList(), 0, 0);
        foreach (var one in brought)
        {
            var street = StreetNamed(one.Street);
            var known = one.Block.Length == 0 ? -1 : blocks.FindIndex(b => b.StreetId == street
                && b.Name.Equals(one.Block, StringComparison.OrdinalIgnoreCase));
            var (from, to) = one.Closed ? (null, null) : (ends(one.Points[0]), ends(one.Points[^1]));
            var made = new DrawnBlock(known < 0 ? RowIds.Next() : blocks[known].Id, street, one.Block, from, to,
                one.Closed ? [] : [.. one.Points.Skip(1).SkipLast(1)], one.Closed ? Outline(one.Points) : null,
                one.Closed ? MiddlePoint.Of(GeoShape.Polygon([one.Points])) : null, known < 0 ? null : blocks[known].Began);
            if (known >= 0)
            {
                (blocks[known], changed) = (made, changed + 1);
            }
            else if (one.Closed ? !blocks.Exists(b => b.StreetId == street && b.Kept == made.Kept)
                : from != to && !blocks.Exists(b => b.StreetId == street && b.Meets(from!.Value) && b.Meets(to!.Value)))
            {
                blocks.Add(made);
                added++;
            }
        }

        Now = (Now with { Blocks = blocks }).Tidied(null, null);
        return (added, changed);
    }

    /// <summary>Finds or makes the crossing at an end of a line; ends within a few metres are one.</summary>
    private void EndsOf(IReadOnlyList<BroughtBlock> brought, out Func<GeoPoint, long?> ends)
    {
        // Squares of the ground as wide as two ends may lie apart: only neighbours need a look.
        var squares = new Dictionary<(long, long), List<DrawnCrossing>>();
        var from = brought.Count > 0 ? brought[0].Points[0] : default;
        (long, long) Square(GeoPoint at)
        {
            var (east, north) = DrawnLines.Way(from, at);
            return ((long)Math.Floor(east / SameCrossingMetres), (long)Math.Floor(north / SameCrossingMetres));
        }

        void Put(DrawnCrossing crossing)
        {
            var square = Square(crossing.At);
            (squares.TryGetValue(square, out var there) ? there : squares[square] = []).Add(crossing);
        }

        foreach (var crossing in Now.Crossings)
        {
            Put(crossing);
        }

        ends = at =>
        {
            var (x, y) = Square(at);
            for (var i = -1L; i <= 1; i++)
            {
                for (var j = -1L; j <= 1; j++)
                {
                    if (squares.TryGetValue((x + i, y + j), out var near)
                        && near.Find(c => DrawnLines.Metres(c.At, at) <= SameCrossingMetres) is { } known)
                    {
                        return known.Id;
                    }
                }
            }

            var id = NewCrossing(at, "");
            Put(Now.Crossing(id));
            return id;
        };
    }

    private static string Outline(IReadOnlyList<GeoPoint> ring) => GeoJsonText.Geometry(GeoShape.Polygon([ring]));
}
