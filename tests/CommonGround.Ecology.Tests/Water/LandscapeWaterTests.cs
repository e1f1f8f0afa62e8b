using CommonGround.Ecology.Water;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Water;

public class LandscapeWaterTests
{
    // Exact by definition: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 US gallon = 231 cubic inches = 3.785411784 litres.
    private const double MillimetresPerInch = 25.4, SquareMetresPerSquareFoot = 0.3048 * 0.3048, LitresPerGallon = 3.785411784;
    private const double GallonsPerInchAndSquareFoot = 144.0 / 231;

    [Fact(DisplayName = "An inch of water on a square foot is 144/231 gallons (check ET-015)")]
    public void An_inch_on_a_square_foot_in_gallons()
    {
        var check = Check("ET-015");
        check.Near("gallons", Gallons(check.In("inches"), check.In("area_sqft")));
    }

    [Fact(DisplayName = "A garden of 10 by 20 feet and a lawn of 100 by 100 (Purdue Landscape Report, example 1; check ET-017), with the "
        + "handbooks' rounded factors")]
    public void Gardens_in_gallons_by_rounded_factors()
    {
        var garden = Check("ET-016");
        garden.Near("area_sqft", garden.In("width_ft") * garden.In("length_ft"));
        garden.Near("gallons", Rounded(Gallons(garden.In("inches"), garden.In("width_ft") * garden.In("length_ft")), garden.In("factor")));
        var lawn = Check("ET-017");
        lawn.Near("gallons", Rounded(Gallons(lawn.In("inches"), lawn.In("area_sqft")), lawn.In("factor")));
    }

    [Theory(DisplayName = "Maximum applied water allowance (California Code of Regulations, title 23, 492.4; City of San Diego)")]
    [InlineData("ET-018")]
    [InlineData("ET-019")]
    public void Ordinances_allow_what_they_print(string id)
    {
        var check = Check(id);
        var litres = LandscapeWater.Allowance(
            check.In("ETo_in") * MillimetresPerInch, check.In("LA_sqft") * SquareMetresPerSquareFoot,
                check.In("SLA_sqft") * SquareMetresPerSquareFoot, check.In("ETAF"));
        // The ordinance rounds gallons per inch and square foot to 0.62.
        check.Near("MAWA_gal", Rounded(litres / LitresPerGallon, 0.62));
    }

    [Fact(DisplayName = "Landscape coefficient and a moderate planting's use (Costello and others 2000)")]
    public void The_landscape_coefficient_is_a_product()
    {
        var check = Check("ET-020");
        var coefficient = LandscapeWater.Coefficient(check.In("ks"), check.In("kd"), check.In("kmc"));
        check.Near("KL", coefficient);
        check.Near("ETL_in", LandscapeWater.Use(coefficient, check.In("ETo_in")));
        var range = Check("ET-021");
        var shares = range.Inputs.GetProperty("ksRange").EnumerateArray()
            .Select(e => LandscapeWater.Use(e.GetDouble(), range.In("ETo_in")));
        var printed = range.Expected.GetProperty("needRange_in").EnumerateArray().Select(e => e.GetDouble()).ToList();
        shares.Zip(printed).ShouldAllBe(p => Math.Abs(p.First - p.Second) < 1e-9);
    }

    [Fact(DisplayName = "Peak-month allowance (US EPA 2009, check ET-022)")]
    public void The_peak_month_is_allowed_seven_tenths()
    {
        var check = Check("ET-022");
        double depth = check.In("ETo_in") * MillimetresPerInch, area = check.In("area_sqft") * SquareMetresPerSquareFoot;
        check.Near("baseline_gal", Rounded(LandscapeWater.Allowance(depth, area, 0, 1) / LitresPerGallon, check.In("factor")));
        check.Near("allowance_gal", Rounded(LandscapeWater.Allowance(depth, area, 0, check.In("fraction")) / LitresPerGallon,
            check.In("factor")));
    }

    [Fact(DisplayName = "Effective rain by the Soil Conservation Service's formula (Smith 1992, CROPWAT; from memory): 100 mm gives 84, "
        + "250 gives 150, 300 gives 155")]
    public void Rain_soaks_in_only_in_part()
    {
        LandscapeWater.EffectiveRain(0).ShouldBe(0);
        LandscapeWater.EffectiveRain(100).ShouldBe(84, 1e-9);
        LandscapeWater.EffectiveRain(250).ShouldBe(150, 1e-9);
        LandscapeWater.EffectiveRain(250.0001).ShouldBe(150, 1e-3);
        LandscapeWater.EffectiveRain(300).ShouldBe(155, 1e-9);
        Should.Throw<ArgumentOutOfRangeException>(() => LandscapeWater.EffectiveRain(-1));
    }

    [Fact(DisplayName = "July by hand: 0.8 of 150 mm less the 84 mm that 100 mm of rain leaves is 36 mm, 3,600 litres on 100 m²")]
    public void The_hose_gives_what_rain_does_not()
    {
        var need = LandscapeWater.IrrigationNeed(0.8, 150, 100);
        need.ShouldBe(36, 1e-9);
        LandscapeWater.Litres(need, 100).ShouldBe(3600, 1e-6);
        LandscapeWater.IrrigationNeed(0.3, 150, 100).ShouldBe(0);
    }

    [Property]
    public bool Effective_rain_is_never_more_than_the_rain_and_never_falls(ushort tenths)
    {
        var rain = tenths / 10.0;
        var effective = LandscapeWater.EffectiveRain(rain);
        return effective >= 0 && effective <= rain && LandscapeWater.EffectiveRain(rain + 1) >= effective;
    }

    private static double Gallons(double inches, double squareFeet) =>
        LandscapeWater.Litres(inches * MillimetresPerInch, squareFeet * SquareMetresPerSquareFoot) / LitresPerGallon;

    private static double Rounded(double gallons, double factor) => gallons / GallonsPerInchAndSquareFoot * factor;

    private static WaterCheck Check(string id) => WaterCheck.Of("04_evapotranspiration_water.json", id);
}
