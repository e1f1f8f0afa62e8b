using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Water;

/// <summary>How much of a rain runs off: the curve-number method, where a number from 30 to 98 stands for soil and cover.</summary>
/// <remarks>Source: USDA Natural Resources Conservation Service (1986), Urban Hydrology for Small Watersheds, Technical Release 55 (TR-55),
/// 2nd edition, chapter 2. Depths are mm here, inches there.</remarks>
public static class CurveNumber
{
    /// <summary>Pavement and roofs.</summary>
    public const double Impervious = 98;

    private const double MillimetresPerInch = 25.4;

    /// <summary>Most water that soil and cover can hold back once runoff has begun, S = 25400/CN − 254 (eq. 2-4: 1000/CN − 10
    /// inches).</summary>
    /// <param name="curveNumber">CN, above 0 to 100.</param>
    /// <returns>mm.</returns>
    public static double BackupRetention(double curveNumber) => curveNumber is > 0 and <= 100
        ? MillimetresPerInch * ((1000 / curveNumber) - 10)
        : throw new ArgumentOutOfRangeException(nameof(curveNumber), curveNumber, "A curve number is above 0 and at most 100.");

    /// <summary>Rain that wets leaves and fills hollows before any runs off, Ia = 0.2 S (eq. 2-2).</summary>
    /// <param name="curveNumber">CN, above 0 to 100.</param>
    /// <returns>mm.</returns>
    public static double InitialAbstraction(double curveNumber) => 0.2 * BackupRetention(curveNumber);

    /// <summary>Runoff of one rain, Q = (P − 0.2 S)²/(P + 0.8 S), and 0 while P ≤ 0.2 S (eq. 2-3).</summary>
    /// <param name="rainMillimetres">P, rain of one storm or one day, mm, 0 or more.</param>
    /// <param name="curveNumber">CN, above 0 to 100.</param>
    /// <returns>mm over the same ground, 0 to P.</returns>
    public static double Runoff(double rainMillimetres, double curveNumber)
    {
        if (!(rainMillimetres >= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(rainMillimetres), rainMillimetres, "Rain is 0 mm or more.");
        }

        var retention = BackupRetention(curveNumber);
        var over = rainMillimetres - (0.2 * retention);
        return over <= 0 ? 0 : over * over / (rainMillimetres + (0.8 * retention));
    }

    /// <summary>One number for ground of several covers: the mean by area. TR-55 rounds it to a whole number before the runoff
    /// step.</summary>
    /// <param name="parts">Area, any one unit, and curve number of each part; order irrelevant.</param>
    /// <returns><c>null</c> without any area.</returns>
    public static double? Weighted(IReadOnlyCollection<(double Area, double CurveNumber)> parts)
    {
        var area = parts.Sum(p => p.Area);
        return area > 0 ? parts.Sum(p => p.Area * p.CurveNumber) / area : null;
    }

    /// <summary>One number for a lot with pavement, CN = p + i (98 − p)(1 − 0.5 R) (fig. 2-3; fig. 2-4 where some of it drains over ground,
    /// total below 30 %).</summary>
    /// <param name="pervious">p, curve number of the open ground.</param>
    /// <param name="imperviousShare">i, 0–1.</param>
    /// <param name="unconnectedShare">R, share of the pavement that drains over open ground, 0–1; 0 where all goes to the sewer.</param>
    public static double Composite(double pervious, double imperviousShare, double unconnectedShare = 0) =>
        pervious + (imperviousShare * (Impervious - pervious) * (1 - (0.5 * unconnectedShare)));

    /// <summary>The published curve number of a cover on a soil, ordinary wetness.</summary>
    public static int Of(GroundCover cover, SoilGroup soil) => s_table[cover][(int)soil];

    // Tables 2-2a, 2-2b and 2-2c; soil groups A, B, C, D.
    private static readonly Dictionary<GroundCover, int[]> s_table = new()
    {
        [GroundCover.OpenSpacePoor] = [68, 79, 86, 89],
        [GroundCover.OpenSpaceFair] = [49, 69, 79, 84],
        [GroundCover.OpenSpaceGood] = [39, 61, 74, 80],
        [GroundCover.Paved] = [98, 98, 98, 98],
        [GroundCover.DirtRoad] = [72, 82, 87, 89],
        [GroundCover.BareSoil] = [77, 86, 91, 94],
        [GroundCover.Meadow] = [30, 58, 71, 78],
        [GroundCover.BrushPoor] = [48, 67, 77, 83],
        [GroundCover.BrushFair] = [35, 56, 70, 77],
        [GroundCover.BrushGood] = [30, 48, 65, 73],
        [GroundCover.WoodsGrassPoor] = [57, 73, 82, 86],
        [GroundCover.WoodsGrassGood] = [32, 58, 72, 79],
        [GroundCover.WoodsPoor] = [45, 66, 77, 83],
        [GroundCover.WoodsGood] = [30, 55, 70, 77],
        [GroundCover.GrasslandPoor] = [68, 79, 86, 89],
        [GroundCover.GrasslandGood] = [39, 61, 74, 80],
    };
}

/// <summary>Covers of TR-55's table of curve numbers that a yard may have.</summary>
public enum GroundCover
{
    /// <summary>Lawn that covers less than half the ground.</summary>
    OpenSpacePoor,

    /// <summary>Lawn on 50–75 % of the ground.</summary>
    OpenSpaceFair,

    /// <summary>Lawn on more than 75 % of the ground.</summary>
    OpenSpaceGood,

    /// <summary>Paved parking, roofs, driveways.</summary>
    Paved,
    DirtRoad,

    /// <summary>Fallow or newly graded, no plants; its numbers are from memory.</summary>
    BareSoil,

    /// <summary>Continuous grass, not grazed, generally mown for hay: a prairie planting once it has closed.</summary>
    Meadow,

    /// <summary>Brush, weeds and grass, brush the main part.</summary>
    BrushPoor,

    /// <summary>The same, ground half to three quarters covered; its numbers are from memory.</summary>
    BrushFair,
    BrushGood,
    WoodsGrassPoor,
    WoodsGrassGood,
    WoodsPoor,
    WoodsGood,

    /// <summary>Pasture, grassland or range.</summary>
    GrasslandPoor,
    GrasslandGood,
}
