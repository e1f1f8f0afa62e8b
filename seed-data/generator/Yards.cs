using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.DemoData;

/// <summary>How a household gardens.</summary>
internal enum Character { OldPrairie, Keen, Usual, Sparse, Conversion }

/// <summary>A yard of the plan.</summary>
internal sealed record Yard(string Code, Block Block, Spot At, Character Character, double Area, double Lawn, Light Light,
    Moisture Moisture, SoilGroup SoilGroup, bool Shared, int FirstYear)
{
    public List<Bed> Beds { get; } = [];

    public PlaceRow ToRow()
    {
        var point = At.ToPoint();
        return new PlaceRow(0, Block.Street, Block.Name, Code, point.Latitude, point.Longitude, Area, Lawn, Light, Moisture,
            SoilGroup, $"Household {Code}", Shared);
    }
}

/// <summary>A bed and how much of it is still free.</summary>
internal sealed class Bed(string name, double area, DateOnly? established, Light? light, Moisture? moisture)
{
    public string Name => name;
    public double Area => area;
    public DateOnly? Established => established;
    public Light? Light => light;
    public Moisture? Moisture => moisture;
    public double Used { get; private set; }

    /// <summary>No bed is filled beyond this share, which leaves room for the scatter of estimates.</summary>
    public double Free => Math.Max(0, (0.92 * area) - Used);

    public void Take(double cover) => Used += cover;
}

/// <summary>Sets the yards along the blocks.</summary>
internal static class Yards
{
    public const string OldPrairieYard = "LA-07";
    private const double SetBack = 15, Pond = 60;

    public static List<Yard> Build()
    {
        var yards = new List<Yard>();
        foreach (var street in StreetPlan.Blocks.GroupBy(b => b.Street))
        {
            var number = 0;
            foreach (var block in street)
            {
                foreach (var at in PlotsOf(block).Take(block.Yards).OrderBy(p => p.Along).Select(p => p.At))
                    yards.Add(BuildYard($"{street.Key[..2].ToUpperInvariant()}-{++number:00}", block, at));
            }
        }
        return yards;
    }

    /// <summary>Places on both sides of a block, well clear of its crossings, in the order in which they are taken.</summary>
    private static List<(double Along, Spot At)> PlotsOf(Block block)
    {
        const double Clear = 40, Frontage = 28;
        var places = (int)((block.Length - (2 * Clear)) / Frontage) + 1;
        var start = (block.Length - ((places - 1) * Frontage)) / 2;
        var plots = new List<(double Along, Spot At)>();
        for (var i = 0; i < places; i++)
        {
            foreach (var side in new[] { 1, -1 })
            {
                var along = start + (i * Frontage) + (side * 2.5);
                plots.Add((along, Beside(block, along, side * SetBack)));
            }
        }
        return new Chance($"plots {block.Street} {block.Name}").Shuffled(plots);
    }

    private static Spot Beside(Block block, double along, double aside)
    {
        for (var i = 1; i < block.Line.Length; i++)
        {
            var (a, b) = (block.Line[i - 1], block.Line[i]);
            var step = a.DistanceTo(b);
            if (along <= step || i == block.Line.Length - 1)
            {
                var (east, north) = ((b.East - a.East) / step, (b.North - a.North) / step);
                return new Spot(a.East + (east * along) - (north * aside), a.North + (north * along) + (east * aside));
            }
            along -= step;
        }
        return block.Line[0];
    }

    private static Yard BuildYard(string code, Block block, Spot at)
    {
        var chance = new Chance($"yard {code}");
        var isOld = code == OldPrairieYard;
        var character = isOld ? Character.OldPrairie
            : chance.Pick<Character>([(Character.Keen, 13), (Character.Usual, 88), (Character.Sparse, 36), (Character.Conversion, 22)]);
        var area = isOld ? 1_150 : Math.Round(chance.Between(350, 1_000) + (chance.Happens(0.12) ? 190 : 0));
        var lawnShare = character switch
        {
            Character.OldPrairie => 0.12,
            Character.Keen => chance.Between(0.18, 0.34),
            Character.Sparse => chance.Between(0.45, 0.58),
            _ => chance.Between(0.32, 0.5)
        };
        var light = isOld ? Light.FullSun : chance.Pick<Light>([(Light.FullSun, 54), (Light.PartShade, 31), (Light.Shade, 15)]);
        var nearWater = at.East < Pond && at.North < 330;
        var moisture = isOld ? Moisture.Medium : chance.Pick<Moisture>([(Moisture.Dry, nearWater ? 8 : 26), (Moisture.Medium, 50),
            (Moisture.Moist, nearWater ? 40 : 22), (Moisture.Wet, nearWater ? 8 : 1)]);
        var soil = isOld ? SoilGroup.B : chance.Pick<SoilGroup>([(SoilGroup.A, 8), (SoilGroup.B, 42), (SoilGroup.C, 38),
            (SoilGroup.D, 12)]);
        var firstYear = character switch
        {
            Character.OldPrairie or Character.Keen => 2021,
            Character.Conversion => chance.Whole(2025, 2026),
            Character.Sparse => chance.Whole(2021, 2024),
            _ => chance.Pick<int>([(2021, 45), (2022, 30), (2023, 25)]),
        };
        return new Yard(code, block, at, character, area, Math.Round(area * lawnShare), light, moisture, soil, isOld
            || chance.Happens(0.85), firstYear);
    }
}
