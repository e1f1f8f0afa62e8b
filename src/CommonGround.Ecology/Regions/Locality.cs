namespace CommonGround.Ecology.Regions;

/// <summary>Where a group grows its plants. Everything regional follows from it.</summary>
/// <param name="State">Two letters, such as MO; empty outside the states whose tables are held.</param>
/// <param name="Latitude">Degrees north, −90 to 90.</param>
/// <param name="Longitude">Degrees east, −180 to 180; negative in America.</param>
/// <param name="ElevationMetres">Height above the sea, m; null where nobody said, then the reference's 240 m.</param>
/// <param name="Table">A table the group chose itself, where its state offers a choice; empty for the one its place gives.</param>
public sealed record Locality(string State, double Latitude, double Longitude, double? ElevationMetres = null, string Table = "")
{
    /// <summary>How many days later spring comes than in northern Illinois; within ± <see cref="SpringShift.MostDays"/>.</summary>
    public double SpringDays =>
        Math.Clamp(SpringShift.Days(Latitude, -Longitude, ElevationMetres ?? SpringShift.ReferenceElevationMetres), -SpringShift.MostDays,
            SpringShift.MostDays);
}
