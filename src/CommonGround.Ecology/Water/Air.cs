namespace CommonGround.Ecology.Water;

/// <summary>How thirsty the air is: pressures of vapour, and the wind that carries it off.</summary>
/// <remarks>Source: Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. Pressures are kPa, temperatures
/// °C.</remarks>
public static class Air
{
    /// <summary>Pressure of the air, 101.3 ((293 − 0.0065 z)/293)^5.26 (eq. 7).</summary>
    /// <param name="altitudeMetres">z above the sea, below 45,000.</param>
    /// <returns>kPa.</returns>
    public static double Pressure(double altitudeMetres) => 101.3 * Math.Pow((293 - (0.0065 * altitudeMetres)) / 293, 5.26);

    /// <summary>Psychrometric constant γ = 0.665·10⁻³ P (eq. 8).</summary>
    /// <param name="pressureKilopascals">P, above 0.</param>
    /// <returns>kPa per °C.</returns>
    public static double PsychrometricConstant(double pressureKilopascals) => 0.665e-3 * pressureKilopascals;

    /// <summary>Vapour that air at T can hold, e° = 0.6108 exp(17.27 T/(T + 237.3)) (eq. 11).</summary>
    /// <param name="celsius">T, above −237.3.</param>
    /// <returns>kPa.</returns>
    public static double SaturationVapour(double celsius) => 0.6108 * Math.Exp(17.27 * celsius / (celsius + 237.3));

    /// <summary>Vapour that a day's air can hold: the mean of e° at both extremes, not e° at the mean (eq. 12).</summary>
    /// <param name="tminC">°C.</param>
    /// <param name="tmaxC">°C.</param>
    public static double MeanSaturationVapour(double tminC, double tmaxC) => (SaturationVapour(tminC) + SaturationVapour(tmaxC)) / 2;

    /// <summary>Vapour in the air from both extremes of relative humidity, ea = (e°(Tmin) RHmax + e°(Tmax) RHmin)/200 (eq. 17).</summary>
    /// <param name="tminC">°C.</param>
    /// <param name="tmaxC">°C.</param>
    /// <param name="humidityMinPercent">RHmin, 0–100.</param>
    /// <param name="humidityMaxPercent">RHmax, 0–100.</param>
    public static double ActualVapour(double tminC, double tmaxC, double humidityMinPercent, double humidityMaxPercent) =>
        ((SaturationVapour(tminC) * humidityMaxPercent) + (SaturationVapour(tmaxC) * humidityMinPercent)) / 200;

    /// <summary>Vapour in the air where only the mean humidity is known, ea = es RHmean/100 (eq. 19); less exact.</summary>
    /// <param name="tminC">°C.</param>
    /// <param name="tmaxC">°C.</param>
    /// <param name="humidityPercent">RHmean, 0–100.</param>
    public static double ActualVapourFromMean(double tminC, double tmaxC, double humidityPercent) => MeanSaturationVapour(tminC, tmaxC)
        * humidityPercent / 100;

    /// <summary>Slope of the saturation curve Δ = 4098 e°(T)/(T + 237.3)² (eq. 13).</summary>
    /// <param name="celsius">Mean temperature T, above −237.3.</param>
    /// <returns>kPa per °C.</returns>
    public static double SaturationSlope(double celsius) => 4098 * SaturationVapour(celsius) / Math.Pow(celsius + 237.3, 2);

    /// <summary>Wind at 2 m from wind measured at z, u₂ = u 4.87/ln(67.8 z − 5.42) (eq. 47).</summary>
    /// <param name="metresPerSecond">u, 0 or more.</param>
    /// <param name="heightMetres">z, above 0.1.</param>
    /// <returns>m/s.</returns>
    public static double WindAtTwoMetres(double metresPerSecond, double heightMetres) =>
        metresPerSecond * 4.87 / Math.Log((67.8 * heightMetres) - 5.42);
}
