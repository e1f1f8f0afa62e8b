namespace CommonGround.Ecology.Water;

/// <summary>How much of the sun's energy reaches a day and a place: the first thing that decides how much water grass gives off.</summary>
/// <remarks>Source: Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3. Energy is MJ per m² and
/// day.</remarks>
public static class Radiation
{
    /// <summary>Share of sunlight that green reference grass throws back (FAO-56, eq. 38).</summary>
    public const double GrassAlbedo = 0.23;

    /// <summary>k of eq. 50 away from large water; 0.19 on a coast.</summary>
    public const double InlandCoefficient = 0.16;

    private const double SolarConstant = 0.0820; // MJ m⁻² min⁻¹
    private const double StefanBoltzmann = 4.903e-9; // MJ K⁻⁴ m⁻² day⁻¹

    /// <summary>How much stronger sunlight is than at the mean distance to the sun: 1 + 0.033 cos(2πJ/365) (eq. 23).</summary>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>0.967–1.033.</returns>
    public static double InverseRelativeDistance(int dayOfYear) => 1 + (0.033 * Math.Cos(Angle(dayOfYear)));

    /// <summary>Height of the midday sun over the equator: 0.409 sin(2πJ/365 − 1.39) (eq. 24).</summary>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>Radians, north positive.</returns>
    public static double Declination(int dayOfYear) => 0.409 * Math.Sin(Angle(dayOfYear) - 1.39);

    /// <summary>Half the day as an angle: arccos(−tan φ tan δ) (eq. 25); 0 in polar night, π under the midnight sun.</summary>
    /// <param name="latitudeDegrees">−90 to 90, south negative.</param>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>Radians, 0 to π.</returns>
    public static double SunsetHourAngle(double latitudeDegrees, int dayOfYear) =>
        Math.Acos(Math.Clamp(-Math.Tan(Radians(latitudeDegrees)) * Math.Tan(Declination(dayOfYear)), -1, 1));

    /// <summary>Hours from sunrise to sunset: 24 ω/π (eq. 34).</summary>
    /// <param name="latitudeDegrees">−90 to 90, south negative.</param>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>0–24 h.</returns>
    public static double DaylightHours(double latitudeDegrees, int dayOfYear) => 24 / Math.PI * SunsetHourAngle(latitudeDegrees, dayOfYear);

    /// <summary>Sunlight at the top of the air, Ra = 24·60/π · G dr (ω sin φ sin δ + cos φ cos δ sin ω) (eq. 21).</summary>
    /// <param name="latitudeDegrees">−90 to 90, south negative.</param>
    /// <param name="dayOfYear">1–366.</param>
    /// <returns>MJ per m² and day, 0 to about 45.</returns>
    public static double Extraterrestrial(double latitudeDegrees, int dayOfYear)
    {
        double latitude = Radians(latitudeDegrees), declination = Declination(dayOfYear),
            sunset = SunsetHourAngle(latitudeDegrees, dayOfYear);
        var sun = (sunset * Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(sunset));
        return Math.Max(0, 24 * 60 / Math.PI * SolarConstant * InverseRelativeDistance(dayOfYear) * sun);
    }

    /// <summary>Sunlight at the ground from hours of sunshine, Rs = (0.25 + 0.5 n/N) Ra (eq. 35, with the usual a and b).</summary>
    /// <param name="sunshineHours">Hours of bright sun, 0 to the length of the day.</param>
    /// <param name="daylightHours">Length of the day, above 0.</param>
    /// <param name="extraterrestrial">Ra.</param>
    /// <returns>MJ per m² and day.</returns>
    public static double FromSunshine(double sunshineHours, double daylightHours, double extraterrestrial) =>
        (0.25 + (0.5 * sunshineHours / daylightHours)) * extraterrestrial;

    /// <summary>Sunlight at the ground guessed from how far the day warmed up, Rs = k √(Tmax − Tmin) Ra (eq. 50).</summary>
    /// <param name="tminC">°C, at most <paramref name="tmaxC"/>.</param>
    /// <param name="tmaxC">°C.</param>
    /// <param name="extraterrestrial">Ra.</param>
    /// <param name="coefficient">k: 0.16 inland, 0.19 on a coast.</param>
    /// <returns>MJ per m² and day.</returns>
    public static double FromTemperature(double tminC, double tmaxC, double extraterrestrial, double coefficient = InlandCoefficient) =>
        coefficient * Math.Sqrt(tmaxC - tminC) * extraterrestrial;

    /// <summary>Sunlight at the ground on a cloudless day, Rso = (0.75 + 2·10⁻⁵ z) Ra (eq. 37).</summary>
    /// <param name="extraterrestrial">Ra.</param>
    /// <param name="altitudeMetres">Above the sea.</param>
    public static double ClearSky(double extraterrestrial, double altitudeMetres) => (0.75 + (2e-5 * altitudeMetres)) * extraterrestrial;

    /// <summary>What the grass keeps of the sunlight, Rns = (1 − 0.23) Rs (eq. 38).</summary>
    /// <param name="solar">Rs.</param>
    public static double NetShortwave(double solar) => (1 - GrassAlbedo) * solar;

    /// <summary>What the grass loses as heat, Rnl = σ (Tmax⁴ + Tmin⁴)/2 · (0.34 − 0.14 √ea) · (1.35 Rs/Rso − 0.35), T in kelvin, Rs/Rso at
    /// most 1 (eq. 39).</summary>
    /// <param name="tminC">°C.</param>
    /// <param name="tmaxC">°C.</param>
    /// <param name="actualVapourKilopascals">ea, 0 or more.</param>
    /// <param name="solar">Rs.</param>
    /// <param name="clearSky">Rso, above 0.</param>
    public static double NetLongwave(double tminC, double tmaxC, double actualVapourKilopascals, double solar, double clearSky) =>
        StefanBoltzmann * (Math.Pow(tmaxC + 273.16, 4) + Math.Pow(tminC + 273.16, 4)) / 2
        * (0.34 - (0.14 * Math.Sqrt(actualVapourKilopascals))) * ((1.35 * Math.Min(1, solar / clearSky)) - 0.35);

    private static double Angle(int dayOfYear) => dayOfYear is >= 1 and <= 366
        ? 2 * Math.PI * dayOfYear / 365
        : throw new ArgumentOutOfRangeException(nameof(dayOfYear), dayOfYear, "A day of the year is 1 to 366.");

    private static double Radians(double degrees) => degrees is >= -90 and <= 90
        ? degrees * Math.PI / 180
        : throw new ArgumentOutOfRangeException(nameof(degrees), degrees, "A latitude is −90 to 90 degrees.");
}
