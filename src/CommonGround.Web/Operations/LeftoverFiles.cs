namespace CommonGround.Web.Operations;

/// <summary>Files and folders that a write, a backup or a restore left behind when it was cut short.</summary>
internal static class LeftoverFiles
{
    private static readonly string[] Ends = [".part", ".work"];

    public static bool Is(string path) => Ends.Any(e => path.EndsWith(e, StringComparison.Ordinal));

    public static IEnumerable<string> Find(string dataFolder) => Directory.Exists(dataFolder)
        ? Directory.EnumerateFileSystemEntries(dataFolder, "*", SearchOption.AllDirectories).Where(Is)
            .Select(f => Path.GetRelativePath(dataFolder, f)).Order(StringComparer.Ordinal)
            .Select(f => $"Left-over {f}: something that was cut short wrote it. What to do: if no backup or restore is running, delete "
            + $"it.")
        : [];
}
