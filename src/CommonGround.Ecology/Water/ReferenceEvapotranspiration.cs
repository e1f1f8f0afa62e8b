namespace CommonGround.Ecology.Water;

/// <summary>One day's weather as a full station notes it.</summary>
/// <param name="TminC">°C, at most <paramref name="TmaxC"/>.</param>
/// <param name="TmaxC">°C.</param>
/// <param name="HumidityMinPercent">0–100.</param>
/// <param name="HumidityMaxPercent">0–100.</param>
/// <param name="WindMetresPerSecond">At 2 m above the ground, 0 or more.</param>
/// <param name="SunshineHours">Hours of bright sun.</param>
public readonly record struct StationDay(double TminC, double TmaxC, double HumidityMinPercent, double HumidityMaxPercent,
    double WindMetresPerSecond, double SunshineHours);

/// <summary>Reference evapotranspiration ET₀: the water, mm a day, that well-watered short grass would give off in this weather.</summary>
/// <remarks>Source: Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56.</remarks>
public static class ReferenceEvapotranspiration
{
    private const double MillimetresPerMegajoule = 0.408; // 1/λ, FAO-56 eq. 20

    /// <summary>From temperatures alone, for groups with no more than a thermometer: ET₀ = 0.0023 (T + 17.8) √(Tmax − Tmin) · 0.408 Ra (eq.
    /// 52, Hargreaves).</summary>
    /// <param name="tminC">°C.</param>
    /// <param name="tmaxC">°C, at least <paramref name="tminC"/>.</param>
    /// <param name="latitudeDegrees">−90 to 90.</param>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>mm a day, 0 or more: on days with a mean below −17.8 °C it is 0.</returns>
    public static double Hargreaves(double tminC, double tmaxC, double latitudeDegrees, int dayOfYear)
    {
        if (!(tminC <= tmaxC))
        {
            throw new ArgumentOutOfRangeException(nameof(tminC), tminC, "The lowest temperature of a day is at most the highest.");
        }

        var energy = MillimetresPerMegajoule * Radiation.Extraterrestrial(latitudeDegrees, dayOfYear);
        return Math.Max(0, 0.0023 * (((tminC + tmaxC) / 2) + 17.8) * Math.Sqrt(tmaxC - tminC) * energy);
    }

    /// <summary>From all that drives it: ET₀ = (0.408 Δ (Rn − G) + γ 900/(T + 273) u₂ (es − ea)) / (Δ + γ (1 + 0.34 u₂)) (eq. 6,
    /// Penman–Monteith).</summary>
    /// <param name="netRadiation">Rn, MJ per m² and day.</param>
    /// <param name="soilHeat">G, MJ per m² and day; 0 for a single day.</param>
    /// <param name="meanC">T, °C.</param>
    /// <param name="windMetresPerSecond">u₂ at 2 m.</param>
    /// <param name="saturationVapour">es, kPa.</param>
    /// <param name="actualVapour">ea, kPa.</param>
    /// <param name="slope">Δ, kPa per °C.</param>
    /// <param name="psychrometric">γ, kPa per °C.</param>
    /// <returns>mm a day.</returns>
    public static double PenmanMonteith(
        double netRadiation, double soilHeat, double meanC, double windMetresPerSecond, double saturationVapour, double actualVapour,
            double slope, double psychrometric) =>
        ((MillimetresPerMegajoule * slope * (netRadiation - soilHeat))
            + (psychrometric * 900 / (meanC + 273) * windMetresPerSecond * (saturationVapour - actualVapour)))
        / (slope + (psychrometric * (1 + (0.34 * windMetresPerSecond))));

    /// <summary>The same from a day's raw weather (chapter 4, calculation sheet; example 18).</summary>
    /// <param name="day">The weather.</param>
    /// <param name="latitudeDegrees">Between the polar circles: the day has a sunrise.</param>
    /// <param name="altitudeMetres">Above the sea.</param>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>mm a day, 0 or more.</returns>
    public static double PenmanMonteith(StationDay day, double latitudeDegrees, double altitudeMetres, int dayOfYear)
    {
        var extraterrestrial = Radiation.Extraterrestrial(latitudeDegrees, dayOfYear);
        var solar = Radiation.FromSunshine(day.SunshineHours, Radiation.DaylightHours(latitudeDegrees, dayOfYear), extraterrestrial);
        var vapour = Air.ActualVapour(day.TminC, day.TmaxC, day.HumidityMinPercent, day.HumidityMaxPercent);
        var net = Radiation.NetShortwave(solar) - Radiation.NetLongwave(day.TminC, day.TmaxC, vapour, solar,
            Radiation.ClearSky(extraterrestrial, altitudeMetres));
        var mean = (day.TminC + day.TmaxC) / 2;
        return Math.Max(0, PenmanMonteith(
            net, 0, mean, day.WindMetresPerSecond, Air.MeanSaturationVapour(day.TminC, day.TmaxC), vapour,
            Air.SaturationSlope(mean), Air.PsychrometricConstant(Air.Pressure(altitudeMetres))));
    }
}
