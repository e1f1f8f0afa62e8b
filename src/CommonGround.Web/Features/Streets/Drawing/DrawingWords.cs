using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>What a drawing is called and says of itself.</summary>
public static class DrawingWords
{
    /// <summary>The name of each block: its own, or after its crossings.</summary>
    public static IReadOnlyDictionary<long, string> Blocks(DrawnGround ground)
    {
        ArgumentNullException.ThrowIfNull(ground);
        var names = new Dictionary<long, string>();
        foreach (var street in ground.Blocks.GroupBy(b => b.StreetId))
        {
            var taken = street.Where(b => b.Name.Length > 0).Select(b => b.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
            foreach (var block in street)
            {
                var name = block.Name;
                if (name.Length == 0)
                {
                    name = block.IsLine ? $"{End(ground, block, block.From!.Value)} to {End(ground, block, block.To!.Value)}" : "block";
                    name = Enumerable.Range(1, 999).Select(n => n == 1 ? name : $"{name} ({n})").First(taken.Add);
                }

                names[block.Id] = name;
            }
        }

        return names;
    }

    public static string Headline(DrawnGround ground)
    {
        ArgumentNullException.ThrowIfNull(ground);
        var streets = ground.Blocks.Select(b => b.StreetId).Distinct().Count();
        return ground.Blocks.Count == 0 ? "Draw the streets people live on"
            : $"{Words.Spelled(ground.Blocks.Count)} {(ground.Blocks.Count == 1 ? "block" : "blocks")} so far, on "
            + $"{Words.Spelled(streets).ToLowerInvariant()} {(streets == 1 ? "street" : "streets")}";
    }

    public static string StreetName(DrawnStreet street) => street is { Name.Length: > 0 } ? street.Name : "Street without a name";

    /// <summary>"3 yards", or how many more it takes before a block can show in public.</summary>
    public static string YardsToShow(int yards) => yards >= Figures.YardsToShow ? ""
        : $"{Words.Count(Figures.YardsToShow - yards, "more yard", "more yards")} before it can show in public";

    /// <summary>What stands at one end of a block: the street that crosses, else what was typed, else which end of its street it
    /// is.</summary>
    private static string End(DrawnGround ground, DrawnBlock block, long crossing)
    {
        var crosses = ground.Blocks.Where(b => b.StreetId != block.StreetId && b.Meets(crossing))
            .Select(b => ground.Street(b.StreetId).Name).FirstOrDefault(n => n.Length > 0);
        var here = ground.Crossing(crossing);
        if (crosses is not null || here.Name.Length > 0)
        {
            return Short(crosses ?? here.Name);
        }

        var own = ground.Blocks.Where(b => b.StreetId == block.StreetId && b.IsLine).ToList();
        if (own.Count(b => b.Meets(crossing)) > 1)
        {
            return $"crossing {ground.Crossings.ToList().FindIndex(c => c.Id == crossing) + 1}";
        }

        var points = own.SelectMany(ground.LineOf).ToList();
        var middle = new Interchange.GeoJson.GeoPoint(points.Average(p => p.Latitude), points.Average(p => p.Longitude));
        var (east, north) = DrawnLines.Way(middle, here.At);
        return Math.Abs(east) >= Math.Abs(north) ? east < 0 ? "west end" : "east end" : north < 0 ? "south end" : "north end";
    }

    /// <summary>"Wheelwright Avenue" as people say it at a crossing.</summary>
    private static string Short(string street) => street.LastIndexOf(' ') is > 0 and var at && char.IsLetter(street[0]) ? street[..at]
        : street;
}
