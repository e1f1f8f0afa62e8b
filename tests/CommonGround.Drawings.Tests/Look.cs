using CommonGround.Drawings.Pens;

namespace CommonGround.Drawings.Tests;

/// <summary>Writes pictures where LOOK_AT names a folder, for people to look at.</summary>
internal static class Look
{
    private static readonly string? Folder = Environment.GetEnvironmentVariable("LOOK_AT");

    public static void Keep(string name, Picture picture)
    {
        if (Folder is null) return;
        foreach (var theme in Enum.GetValues<Theme>())
            File.WriteAllText(Path.Combine(Folder, $"{name}-{theme}.svg"), SvgPen.File(picture, theme));
    }
}
