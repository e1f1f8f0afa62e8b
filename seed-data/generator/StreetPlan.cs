using CommonGround.Interchange.GeoJson;

namespace CommonGround.DemoData;

/// <summary>A place on the plan, metres east and north of the plan's corner.</summary>
internal readonly record struct Spot(double East, double North)
{
    private const double OriginLatitude = 41.868, OriginLongitude = -88.562, MetresPerDegree = 111_195;

    public double DistanceTo(Spot other) => Math.Sqrt(((East - other.East) * (East - other.East))
        + ((North - other.North) * (North - other.North)));

    /// <summary>Degrees, rounded to six decimals (about 10 cm), as a phone or a map would give them.</summary>
    public GeoPoint ToPoint() => new(
        Math.Round(OriginLatitude + (North / MetresPerDegree), 6),
        Math.Round(OriginLongitude + (East / (MetresPerDegree * 0.74468)), 6)); // cos 41.868°
}

/// <summary>A block of the plan.</summary>
/// <param name="Street">Name of its street.</param>
/// <param name="Name">"From to", the crossings at its ends.</param>
/// <param name="Yards">How many yards lie along it.</param>
/// <param name="LateHalfMonths">How many of the five half-months from August 16 its plants are meant to cover.</param>
/// <param name="Line">From crossing to crossing.</param>
internal sealed record Block(string Street, string Name, int Yards, int LateHalfMonths, Spot[] Line)
{
    public double Length => Line.Zip(Line.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
}

/// <summary>The streets of Quarry Bend: four rows, three columns and Millrace Road around the pond. Every crossing is one spot, shared
/// exactly.</summary>
internal static class StreetPlan
{
    public const string Kiln = "Kiln Street", Lathe = "Lathe Street", Foundry = "Foundry Lane", Coopers = "Coopers Row",
        Millrace = "Millrace Road",
        Wheelwright = "Wheelwright Avenue", Sawyer = "Sawyer Street", Tollgate = "Tollgate Lane";

    private static readonly Dictionary<string, Spot> Crossings = new(StringComparer.Ordinal)
    {
        ["north end/Wheelwright"] = new(152, 656),
        ["north end/Sawyer"] = new(299, 654),
        ["north end/Tollgate"] = new(441, 657),
        ["Kiln/Millrace"] = new(0, 522),
        ["Kiln/Wheelwright"] = new(150, 524),
        ["Kiln/Sawyer"] = new(296, 521),
        ["Kiln/Tollgate"] = new(438, 524),
        ["Kiln/east end"] = new(579, 526),
        ["Lathe/Millrace"] = new(-3, 391),
        ["Lathe/Wheelwright"] = new(149, 391),
        ["Lathe/Sawyer"] = new(295, 393),
        ["Lathe/Tollgate"] = new(440, 390),
        ["Lathe/east end"] = new(582, 392),
        ["Foundry/Millrace"] = new(-2, 262),
        ["Foundry/Wheelwright"] = new(151, 261),
        ["Foundry/Sawyer"] = new(294, 260),
        ["Foundry/Tollgate"] = new(441, 263),
        ["Foundry/east end"] = new(584, 261),
        ["Coopers/Millrace"] = new(30, 127),
        ["Coopers/Wheelwright"] = new(150, 136),
        ["Coopers/Sawyer"] = new(296, 129),
        ["Coopers/Tollgate"] = new(442, 132),
        ["Coopers/east end"] = new(585, 131),
        ["Millrace/Wheelwright"] = new(146, 15),
        ["Millrace/Sawyer"] = new(297, 0),
        ["Millrace/Tollgate"] = new(443, 2),
        ["Millrace/east end"] = new(586, 6),
    };

    /// <summary>Street; its crossings in order; yards and late half-months of each block between two of them.</summary>
    private static readonly (string Street, string[] Stops, (int Yards, int Late)[] Blocks)[] Streets =
    [
        (Kiln, ["Millrace", "Wheelwright", "Sawyer", "Tollgate", "east end"], [(6, 1), (5, 0), (4, 0), (2, 0)]),
        (Lathe, ["Millrace", "Wheelwright", "Sawyer", "Tollgate", "east end"], [(6, 5), (6, 5), (5, 4), (5, 3)]),
        (Foundry, ["Millrace", "Wheelwright", "Sawyer", "Tollgate", "east end"], [(6, 3), (5, 4), (5, 2), (1, 0)]),
        (Coopers, ["Millrace", "Wheelwright", "Sawyer", "Tollgate", "east end"], [(4, 2), (5, 3), (5, 2), (4, 1)]),
        (Millrace, ["Kiln", "Lathe", "Foundry", "Coopers", "Wheelwright", "Sawyer", "Tollgate", "east end"],
            [(4, 2), (4, 3), (4, 2), (4, 1), (5, 2), (5, 3), (4, 2)]),
        (Wheelwright, ["north end", "Kiln", "Lathe", "Foundry", "Coopers", "Millrace"], [(2, 0), (4, 3), (4, 5), (4, 4), (4, 2)]),
        (Sawyer, ["north end", "Kiln", "Lathe", "Foundry", "Coopers", "Millrace"], [(4, 2), (4, 2), (4, 4), (4, 4), (4, 2)]),
        (Tollgate, ["north end", "Kiln", "Lathe", "Foundry", "Coopers", "Millrace"], [(2, 0), (4, 1), (4, 3), (4, 3), (4, 2)]),
    ];

    /// <summary>Along Millrace Road the line bends between crossings, round the quarry pond.</summary>
    private static readonly Dictionary<string, Spot[]> Bends = new(StringComparer.Ordinal)
    {
        ["Millrace Road/Foundry to Coopers"] = [new(4, 190)],
        ["Millrace Road/Coopers to Wheelwright"] = [new(85, 67)],
        ["Lathe Street/Wheelwright to Sawyer"] = [new(222, 394)],
    };

    public static IReadOnlyList<Block> Blocks { get; } = [.. Build()];

    public static BlockShape[] Shapes() =>
        [.. Blocks.Select((b, i) => new BlockShape(i + 1, b.Street, b.Name, GeoShape.Line([.. b.Line.Select(s => s.ToPoint())])))];

    private static IEnumerable<Block> Build()
    {
        foreach (var (street, stops, blocks) in Streets)
        {
            var own = street.Split(' ')[0];
            for (var i = 0; i < blocks.Length; i++)
            {
                var name = $"{stops[i]} to {stops[i + 1]}";
                var bends = Bends.GetValueOrDefault($"{street}/{name}") ?? [];
                yield return new Block(street, name, blocks[i].Yards, blocks[i].Late,
                    [Crossing(own, stops[i]), .. bends, Crossing(own, stops[i + 1])]);
            }
        }
    }

    private static Spot Crossing(string street, string stop) => Crossings.TryGetValue($"{street}/{stop}", out var spot) ? spot
        : Crossings[$"{stop}/{street}"];
}
