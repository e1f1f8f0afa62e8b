using System.Text.Json;
using CommonGround.Ecology.Tests.Published;
using CommonGround.Ecology.Water;

namespace CommonGround.Ecology.Tests.Water;

/// <summary>The worked examples printed in FAO Irrigation and Drainage Paper 56 (Allen and others 1998), within the printed digits; ET-012
/// to ET-014 apply its equations to chosen days.</summary>
public class EvapotranspirationTests
{
    [Fact(DisplayName = "Pressure and psychrometric constant at 1,800 m (FAO-56, example 2)")]
    public void Pressure_falls_with_altitude()
    {
        var check = Check("ET-001");
        check.Near("P_kPa", Air.Pressure(check.In("z_m")));
        var constant = Check("ET-001b");
        constant.Near("gamma", Air.PsychrometricConstant(constant.In("P_kPa")));
    }

    [Fact(DisplayName = "Vapour pressures (FAO-56, examples 3 and 5)")]
    public void Vapour_pressures_come_out_as_printed()
    {
        var check = Check("ET-002");
        check.Near("e_tmax", Air.SaturationVapour(check.In("tmax")));
        check.Near("e_tmin", Air.SaturationVapour(check.In("tmin")));
        check.Near("es", Air.MeanSaturationVapour(check.In("tmin"), check.In("tmax")));
        var actual = Check("ET-003");
        double tmin = actual.In("tmin"), tmax = actual.In("tmax"), low = actual.In("rhmin"), high = actual.In("rhmax");
        actual.Near("ea", Air.ActualVapour(tmin, tmax, low, high));
        actual.Near("eaFromRHmean", Air.ActualVapourFromMean(tmin, tmax, (low + high) / 2));
    }

    [Fact(DisplayName = "Sunlight and length of day (FAO-56, examples 8, 9, 10, 12 and 15)")]
    public void Sunlight_comes_out_as_printed()
    {
        var check = Check("ET-004");
        check.Near("Ra", Radiation.Extraterrestrial(check.In("lat"), (int)check.In("J")));
        var parts = Check("ET-004b");
        parts.Near("dr", Radiation.InverseRelativeDistance((int)parts.In("J")));
        parts.Near("declination", Radiation.Declination((int)parts.In("J")));
        parts.Near("sunsetHourAngle", Radiation.SunsetHourAngle(parts.In("lat"), (int)parts.In("J")));
        var day = Check("ET-005");
        day.Near("N", Radiation.DaylightHours(day.In("lat"), (int)day.In("J")));

        var rio = Check("ET-006");
        var extraterrestrial = Radiation.Extraterrestrial(rio.In("lat"), (int)rio.In("J"));
        var hours = Radiation.DaylightHours(rio.In("lat"), (int)rio.In("J"));
        rio.Near("Ra", extraterrestrial);
        rio.Near("N", hours);
        rio.Near("Rs", Radiation.FromSunshine(rio.In("n"), hours, extraterrestrial));
        var kept = Check("ET-007");
        kept.Near("Rns", Radiation.NetShortwave(kept.In("Rs")));
        var lyon = Check("ET-009");
        lyon.Near("Rs", Radiation.FromTemperature(lyon.In("tmin"), lyon.In("tmax"), lyon.In("Ra"), lyon.In("kRs")));
    }

    [Fact(DisplayName = "Wind at 10 m brought down to 2 m (FAO-56, example 14)")]
    public void Wind_is_brought_to_two_metres()
    {
        var check = Check("ET-008");
        check.Near("u2", Air.WindAtTwoMetres(check.In("u10"), check.In("height_m")));
    }

    [Fact(DisplayName = "Penman–Monteith from its terms, Bangkok in April (FAO-56, example 17)")]
    public void Penman_Monteith_comes_out_as_printed()
    {
        var check = Check("ET-010");
        check.Near("ETo", ReferenceEvapotranspiration.PenmanMonteith(
            check.In("Rn"), check.In("G"), check.In("tmean"), check.In("u2"), check.In("es"), check.In("ea"), check.In("delta"),
                check.In("gamma")));
    }

    [Fact(DisplayName = "Penman–Monteith from raw weather, Uccle on July 6 (FAO-56, example 18)")]
    public void Raw_weather_gives_the_printed_day()
    {
        var check = Check("ET-011");
        var day = new StationDay(check.In("tmin"), check.In("tmax"), check.In("rhmin"), check.In("rhmax"), check.In("u2"), check.In("n"));
        int number = (int)check.In("J");
        double latitude = check.In("lat"), altitude = check.In("z_m");
        var extraterrestrial = Radiation.Extraterrestrial(latitude, number);
        var hours = Radiation.DaylightHours(latitude, number);
        var solar = Radiation.FromSunshine(day.SunshineHours, hours, extraterrestrial);
        var clear = Radiation.ClearSky(extraterrestrial, altitude);
        var vapour = Air.ActualVapour(day.TminC, day.TmaxC, day.HumidityMinPercent, day.HumidityMaxPercent);
        var lost = Radiation.NetLongwave(day.TminC, day.TmaxC, vapour, solar, clear);
        check.Near("Ra", extraterrestrial);
        check.Near("N", hours);
        check.Near("Rs", solar);
        check.Near("Rso", clear);
        check.Near("Rnl", lost);
        check.Near("Rn", Radiation.NetShortwave(solar) - lost);
        check.Near("ETo", ReferenceEvapotranspiration.PenmanMonteith(day, latitude, altitude, number));

        var air = Check("ET-011b");
        air.Near("es", Air.MeanSaturationVapour(day.TminC, day.TmaxC));
        air.Near("ea", vapour);
        air.Near("delta", Air.SaturationSlope((day.TminC + day.TmaxC) / 2));
        air.Near("gamma", Air.PsychrometricConstant(Air.Pressure(altitude)));
    }

    [Theory(DisplayName = "Hargreaves for a place in the middle west (FAO-56, eqs 21 and 52)")]
    [InlineData("ET-012")]
    [InlineData("ET-013")]
    [InlineData("ET-014")]
    public void Temperatures_alone_give_a_day(string id)
    {
        var check = Check(id);
        var depth = ReferenceEvapotranspiration.Hargreaves(check.In("tmin"), check.In("tmax"), check.In("lat"), (int)check.In("J"));
        check.Near("Ra", Radiation.Extraterrestrial(check.In("lat"), (int)check.In("J")));
        check.Near("ETo_mm", depth);
        check.Near("ETo_in", depth / 25.4);
    }

    [Fact]
    public void Polar_night_gives_no_sun_and_the_midnight_sun_a_day_of_twenty_four_hours()
    {
        Radiation.DaylightHours(80, 355).ShouldBe(0);
        Radiation.DaylightHours(80, 172).ShouldBe(24);
        Radiation.Extraterrestrial(80, 355).ShouldBe(0, 1e-12);
        ReferenceEvapotranspiration.Hargreaves(-40, -30, 45, 10).ShouldBe(0);
    }

    [Fact]
    public void Days_and_places_that_do_not_exist_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => Radiation.Extraterrestrial(91, 100));
        Should.Throw<ArgumentOutOfRangeException>(() => Radiation.Extraterrestrial(40, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => ReferenceEvapotranspiration.Hargreaves(20, 10, 40, 100));
    }

    [Fact]
    public void Warmer_days_of_the_same_swing_dry_more()
    {
        double Day(double shift) => ReferenceEvapotranspiration.Hargreaves(10 + shift, 22 + shift, 40, 180);
        Enumerable.Range(0, 10).Select(i => Day(i)).ShouldBe(Enumerable.Range(0, 10).Select(i => Day(i)).Order());
        Day(1).ShouldBeGreaterThan(Day(0));
    }

    private static WaterCheck Check(string id) => WaterCheck.Of("04_evapotranspiration_water.json", id);
}

/// <summary>A published check with its own tolerance.</summary>
internal sealed record WaterCheck(string Id, JsonElement Inputs, JsonElement Expected, double Absolute)
{
    public static WaterCheck Of(string file, string id)
    {
        var (inputs, expected) = CheckFile.Check(file, id);
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(CheckFile.Root(), "shared", "checks", file)));
        var tolerance = document.RootElement.GetProperty("checks").EnumerateArray().Single(c => c.GetProperty("id").GetString() == id)
            .GetProperty("tolerance");
        return new WaterCheck(id, inputs, expected, tolerance.Optional("abs") ?? 0);
    }

    public double In(string name) => Inputs.GetProperty(name).GetDouble();

    public void Near(string name, double actual) => actual.ShouldBe(Expected.GetProperty(name).GetDouble(),
        Absolute + 1e-12, $"{Id}: {name}");
}
