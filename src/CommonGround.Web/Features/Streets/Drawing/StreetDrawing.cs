using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Features.Streets;

/// <summary>Draws streets crossing by crossing; each step can be undone. Nothing is stored here: see <see cref="KeepDrawing"/>.</summary>
/// <remarks>A step answers in a sentence what stands against it, or "" when it was done.</remarks>
public sealed partial class StreetDrawing
{
    /// <summary>A yard stands on the nearest block within this many metres.</summary>
    public const double FarthestYardMetres = 120;
    private const double YardOffMetres = 18, YardStepMetres = 22, LeastBlockMetres = 5;
    private readonly Stack<(DrawnGround Ground, long? Pen, long? Street)> before = new();

    public StreetDrawing(DrawnGround ground) => Now = Began = ground;

    /// <summary>As stored when the drawing was opened.</summary>
    public DrawnGround Began { get; }
    public DrawnGround Now { get; private set; }

    /// <summary>The crossing the next block begins at; null where a new street begins with the next press.</summary>
    public long? Pen { get; private set; }

    /// <summary>The street being drawn.</summary>
    public long? Street { get; private set; }

    public bool CanUndo => before.Count > 0;

    public bool IsChanged => Now != Began;

    /// <summary>Puts back what somebody had drawn before; it can be undone.</summary>
    public void Resume(DrawnGround ground)
    {
        Remember();
        (Now, Pen, Street) = (ground, null, null);
    }

    public void Undo()
    {
        if (before.TryPop(out var step))
        {
            (Now, Pen, Street) = step;
        }
    }

    /// <summary>The street is done: the next press begins another.</summary>
    public void EndStreet()
    {
        Remember();
        (Pen, Street) = (null, null);
        Now = Now.Tidied(null, null);
    }

    /// <summary>Goes on with a street that is there, from a crossing of it or from any other.</summary>
    public void GoOn(long street, long? crossing)
    {
        Remember();
        (Street, Pen) = (street, crossing);
    }

    /// <summary>A press on the ground: a crossing, and a block from the one before. Near a crossing that one is meant, near a block's line
    /// a new crossing on it.</summary>
    public string Press(GeoPoint at, double snapMetres, string street, string crosses = "")
    {
        if (at.Latitude < 0)
        {
            return $"{GeoPoints.South} {GeoPoints.MendSouth}";
        }

        Remember();
        var id = Street ?? StreetNamed(street);
        var crossing = CrossingAt(at, snapMetres, crosses);
        if (Pen is { } pen && pen != crossing)
        {
            Draw(id, pen, crossing);
        }

        (Street, Pen) = (id, crossing);
        return "";
    }

    /// <summary>Moves a crossing, and every block that meets there; yards stay.</summary>
    public void MoveCrossing(long crossing, GeoPoint at)
    {
        Remember();
        Now = Now with { Crossings = [.. Now.Crossings.Select(c => c.Id == crossing ? c with { At = at } : c)] };
    }

    public string PlaceYard(GeoPoint at)
    {
        if (Nearest(at, Now.Blocks) is not { } near)
        {
            return Now.Blocks.Any(b => b.IsLine) ? "No block is near enough. Press beside the block the yard stands on."
                : "Draw the street first; yards stand on its blocks.";
        }

        Remember();
        Add(near, at);
        return "";
    }

    /// <summary>One more yard on a block, at the next free place beside it, now on one side and now on the other.</summary>
    public string AddYard(long block)
    {
        var on = Now.Block(block)!;
        var line = Now.LineOf(on);
        var places = line.Count < 2 ? [] : Enumerable.Range(0, 2 * Math.Max(1, (int)(DrawnLines.Metres(line) / YardStepMetres)))
            .Select(n => DrawnLines.Beside(line, ((n / 2) + 0.5) * YardStepMetres, YardOffMetres, n % 2 == 0)).ToList();
        var at = places.Count == 0 ? on.Middle : places.Find(p => Now.Yards.All(y => DrawnLines.Metres(y.At, p) > YardStepMetres / 2))
            is { Latitude: not 0 } free ? free : places[Now.YardsOn(block) % places.Count];
        if (at is not { } place)
        {
            return "This block has no place on the map yet, so a yard cannot be put on it. Draw the block first.";
        }

        Remember();
        Add(block, place);
        return "";
    }

    /// <summary>Takes back the yard placed last on a block; one that is stored is taken out on its own page.</summary>
    public string TakeYard(long block)
    {
        if (Now.Yards.LastOrDefault(y => y.BlockId == block && y.Began is null) is not { } last)
        {
            return "The yards of this block are stored already. Each is taken out on its own page, with what is recorded in it.";
        }

        Remember();
        Now = Now with { Yards = [.. Now.Yards.Where(y => y.Id != last.Id)] };
        return "";
    }

    /// <summary>Moves a yard; it belongs to the block it is nearest to then, if one is near.</summary>
    public string MoveYard(long yard, GeoPoint at)
    {
        var its = Now.Yards.First(y => y.Id == yard);
        var line = Now.Block(its.BlockId) is { IsLine: true } own ? Now.LineOf(own) : [];
        var ownIsNear = line.Count > 1 && DrawnLines.Nearest(line, at).Metres <= YardOffMetres * 1.5;
        var block = ownIsNear ? its.BlockId : Nearest(at, Now.Blocks);
        if (block is null)
        {
            return "No block is near enough there. Move the yard to a place beside a block.";
        }

        Remember();
        Now = Now with { Yards = [.. Now.Yards.Select(y => y.Id == yard ? y with { At = at, BlockId = block.Value } : y)] };
        return "";
    }

    private void Add(long block, GeoPoint at)
    {
        var code = RegisterYard.NextCode(Now.Street(Now.Block(block)!.StreetId).Name, [.. Now.Yards.Select(y => y.Code)]);
        Now = Now with { Yards = [.. Now.Yards, new DrawnYard(RowIds.Next(), block, code, at, null)] };
    }

    private long? Nearest(GeoPoint at, IEnumerable<DrawnBlock> blocks) => blocks.Where(b => b.IsLine)
        .Select(b => (b.Id, DrawnLines.Nearest(Now.LineOf(b), at).Metres)).Where(b => b.Metres <= FarthestYardMetres)
        .OrderBy(b => b.Metres).Select(b => (long?)b.Id).FirstOrDefault();

    private void Remember() => before.Push((Now, Pen, Street));

    private long StreetNamed(string name)
    {
        if (name.Trim().Length > 0
            && Now.Streets.FirstOrDefault(s => s.Name.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase)) is { } known)
        {
            return known.Id;
        }

        var street = new DrawnStreet(RowIds.Next(), name.Trim(), null);
        Now = Now with { Streets = [.. Now.Streets, street] };
        return street.Id;
    }

    private long CrossingAt(GeoPoint at, double snapMetres, string crosses)
    {
        if (Now.Crossings.Select(c => (c.Id, Metres: DrawnLines.Metres(c.At, at))).OrderBy(c => c.Metres).FirstOrDefault() is var near
            && near.Id != 0 && near.Metres <= snapMetres)
        {
            return near.Id;
        }

        var on = Now.Blocks.Where(b => b.IsLine).Select(b => (Block: b, Place: DrawnLines.Nearest(Now.LineOf(b), at)))
            .OrderBy(b => b.Place.Metres).FirstOrDefault();
        if (on.Block is not null && on.Place.Metres <= snapMetres)
        {
            return Cut(on.Block, on.Place.At, on.Place.Part);
        }

        return NewCrossing(at, crosses.Trim());
    }

    private long NewCrossing(GeoPoint at, string name)
    {
        var crossing = new DrawnCrossing(RowIds.Next(), at, name);
        Now = Now with { Crossings = [.. Now.Crossings, crossing] };
        return crossing.Id;
    }

    /// <summary>Blocks of a street from one crossing to another: a new crossing arises wherever the way crosses a block.</summary>
    private void Draw(long street, long from, long to)
    {
        var (a, b) = (Now.Crossing(from).At, Now.Crossing(to).At);
        var cuts = new List<(long Crossing, double Share)>();
        foreach (var block in Now.Blocks.Where(x => x.IsLine && !x.Meets(from) && !x.Meets(to)).ToList())
        {
            var line = Now.LineOf(block);
            var cut = Enumerable.Range(0, line.Count - 1).Select(i => (Part: i, Place: DrawnLines.Crossing(a, b, line[i], line[i + 1])))
                .FirstOrDefault(c => c.Place is not null);
            if (cut.Place is { } place)
            {
                cuts.Add((Cut(block, place.At, cut.Part), place.Share));
            }
        }

        foreach (var next in cuts.OrderBy(c => c.Share).Select(c => c.Crossing).Append(to).Distinct())
        {
            if (next != from && !Now.Blocks.Any(x => x.StreetId == street && x.Meets(from) && x.Meets(next)))
            {
                Now = Now with { Blocks = [.. Now.Blocks, new DrawnBlock(RowIds.Next(), street, "", from, next, [], null, null, null)] };
            }

            from = next;
        }
    }
}
