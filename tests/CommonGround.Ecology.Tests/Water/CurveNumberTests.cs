using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;
using CommonGround.Ecology.Water;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Water;

/// <summary>Checks of USDA NRCS (1986), TR-55, 2nd edition. Rain there is in inches of 25.4 mm.</summary>
public class CurveNumberTests
{
    private const double Inch = 25.4;

    [Fact(DisplayName = "Every cell of TR-55, table 2-1, to half a unit of its last digit (check RO-001)")]
    public void The_printed_table_of_runoff_comes_out()
    {
        var rows = CheckFile.Table("03_tr55_table_2_1.csv");
        rows.Count.ShouldBe((int)Check("RO-001").In("rows"));
        foreach (var row in rows)
        {
            double rain = CheckFile.Number(row["rainfall_in"]), curve = CheckFile.Number(row["cn"]);
            // 7.0 in on CN 50 is printed 1.68 where the printed equation gives 1.667.
            var allowed = rain == 7 && curve == 50 ? 0.015 : 0.0051;
            (CurveNumber.Runoff(rain * Inch, curve) / Inch).ShouldBe(CheckFile.Number(row["runoff_in"]),
                allowed, $"{rain} in on CN {curve}");
        }
    }

    [Theory(DisplayName = "BackupRetention, first wetting and runoff (TR-55, eqs 2-2 to 2-4)")]
    [InlineData("RO-002")]
    [InlineData("RO-003")]
    [InlineData("RO-004")]
    [InlineData("RO-005")]
    [InlineData("RO-006")]
    public void The_runoff_equation(string id)
    {
        var check = Check(id);
        var curve = check.In("cn");
        check.Near("Q_in", CurveNumber.Runoff(check.In("rainfall_in") * Inch, curve) / Inch);
        if (check.Expected.TryGetProperty("S_in", out _))
        {
            check.Near("S_in", CurveNumber.BackupRetention(curve) / Inch);
            check.Near("Ia_in", CurveNumber.InitialAbstraction(curve) / Inch);
        }
    }

    [Theory(DisplayName = "Weighted curve numbers and their runoff (TR-55, examples 2-1, 2-2 and 2-4)")]
    [InlineData("RO-007", 0.05)]
    [InlineData("RO-008", 0.05)]
    [InlineData("RO-009", 0.05)]
    public void Mixed_ground_has_a_mean_curve_number(string id, double halfOfLastDigit)
    {
        var check = Check(id);
        var parts = check.Inputs.GetProperty("parts").EnumerateArray().Select(p => (p.Number("area"), p.Number("cn"))).ToList();
        var weighted = CurveNumber.Weighted(parts).ShouldNotBeNull();
        weighted.ShouldBe(check.Expected.Number("weightedCN"), halfOfLastDigit + 1e-9);
        Math.Round(weighted).ShouldBe(check.Expected.Number("usedCN"));
        check.Near("Q_in", CurveNumber.Runoff(check.In("rainfall_in") * Inch, Math.Round(weighted)) / Inch);
        CurveNumber.Weighted([]).ShouldBeNull();
    }

    [Fact(DisplayName = "Lots with pavement, all or half of it connected (TR-55, figs 2-3 and 2-4)")]
    public void Pavement_raises_the_curve_number()
    {
        var connected = Check("RO-010");
        connected.Near("compositeCN", CurveNumber.Composite(connected.In("perviousCN"), connected.In("imperviousPct") / 100));
        var half = Check("RO-011");
        half.Near("compositeCN", CurveNumber.Composite(half.In("perviousCN"), half.In("imperviousPct") / 100, half.In("unconnectedRatio")));
    }

    [Theory(DisplayName = "Residential lots of table 2-2a are good lawn and pavement")]
    [InlineData("RO-T1")]
    [InlineData("RO-T2")]
    [InlineData("RO-T4")]
    [InlineData("RO-T6")]
    public void Residential_lots(string id)
    {
        var check = Check(id);
        foreach (var soil in Enum.GetValues<SoilGroup>())
        {
            var lawn = CurveNumber.Of(GroundCover.OpenSpaceGood, soil);
            lawn.ShouldBe((int)check.Inputs.GetProperty("pervious").Number($"{soil}"));
            check.Near($"{soil}", CurveNumber.Composite(lawn, check.In("imperviousPct") / 100));
        }
    }

    [Theory(DisplayName = "Curve numbers of covers (TR-55, tables 2-2a and 2-2c)")]
    [InlineData("RO-A01", GroundCover.OpenSpacePoor)]
    [InlineData("RO-A02", GroundCover.OpenSpaceFair)]
    [InlineData("RO-A03", GroundCover.OpenSpaceGood)]
    [InlineData("RO-A04", GroundCover.Paved)]
    [InlineData("RO-A06", GroundCover.DirtRoad)]
    [InlineData("RO-C01", GroundCover.Meadow)]
    [InlineData("RO-C02", GroundCover.BrushPoor)]
    [InlineData("RO-C04", GroundCover.BrushGood)]
    [InlineData("RO-C05", GroundCover.WoodsGrassPoor)]
    [InlineData("RO-C07", GroundCover.WoodsGrassGood)]
    [InlineData("RO-C08", GroundCover.WoodsPoor)]
    [InlineData("RO-C10", GroundCover.WoodsGood)]
    [InlineData("RO-C11", GroundCover.GrasslandPoor)]
    [InlineData("RO-C13", GroundCover.GrasslandGood)]
    public void Covers_have_the_printed_numbers(string id, GroundCover cover)
    {
        foreach (var soil in Enum.GetValues<SoilGroup>())
        {
            CurveNumber.Of(cover, soil).ShouldBe((int)Check(id).Expected.Number($"{soil}"), $"{cover} on {soil}");
        }
    }

    [Fact]
    public void Every_cover_sheds_more_the_slower_its_soil_drains()
    {
        foreach (var cover in Enum.GetValues<GroundCover>())
        {
            var numbers = Enum.GetValues<SoilGroup>().Select(s => CurveNumber.Of(cover, s)).ToList();
            numbers.SequenceEqual(numbers.Order()).ShouldBeTrue($"{cover}");
            numbers.ShouldAllBe(n => n >= 30 && n <= 98);
        }
    }

    [Property]
    public bool Runoff_lies_between_nothing_and_the_rain_and_rises_with_both(ushort tenths, byte number)
    {
        double rain = tenths / 10.0, curve = 30 + (number % 69);
        var runoff = CurveNumber.Runoff(rain, curve);
        return runoff >= 0 && runoff <= rain && CurveNumber.Runoff(rain + 1, curve) >= runoff
            && CurveNumber.Runoff(rain, curve + 1) >= runoff;
    }

    [Fact]
    public void Impossible_numbers_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => CurveNumber.Runoff(-1, 60));
        Should.Throw<ArgumentOutOfRangeException>(() => CurveNumber.Runoff(10, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => CurveNumber.BackupRetention(101));
    }

    private static WaterCheck Check(string id) => WaterCheck.Of("03_runoff.json", id);
}
