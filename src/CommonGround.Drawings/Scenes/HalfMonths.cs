namespace CommonGround.Drawings.Scenes;

/// <summary>Half-months in words.</summary>
public static class HalfMonths
{
    private static readonly string[] s_months = ["January", "February", "March", "April", "May", "June", "July", "August", "September",
        "October", "November", "December"];

    /// <summary>"late May".</summary>
    public static string Words(int half) => (half % 2 == 0 ? "early " : "late ") + s_months[half / 2];
}
