using CommonGround.Ecology.FloristicQuality;

namespace CommonGround.Walk;

/// <summary>Cover as a class of the bed's area, for whoever would rather not estimate square metres.</summary>
public static class CoverClasses
{
    /// <summary>Daubenmire (1959), <see cref="CoverScale.Daubenmire"/>: six classes with their midpoints.</summary>
    public static (string Value, string Words)[] Options { get; } = [("1", "under 5 %"), ("2", "5 to 25 %"), ("3", "25 to 50 %"),
        ("4", "50 to 75 %"), ("5", "75 to 95 %"), ("6", "over 95 %")];

    /// <summary>The midpoint of a class as a share, 0–1.</summary>
    public static double Share(string code) => CoverScale.Daubenmire.First(c => c.Code == code).MidpointPercent / 100;
}
