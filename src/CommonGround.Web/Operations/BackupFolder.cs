using System.Globalization;

namespace CommonGround.Web.Operations;

/// <summary>The archives that the site has written by itself, told by their names: commonground-20260819T020000Z.zip.</summary>
public static class BackupFolder
{
    private const string Start = "commonground-", End = ".zip", Form = "yyyyMMdd'T'HHmmss'Z'";

    public static string NameOf(DateTimeOffset moment) => Start + moment.UtcDateTime.ToString(Form, CultureInfo.InvariantCulture) + End;

    /// <summary>When each archive in the folder was made; other files there are left alone.</summary>
    public static IReadOnlyList<DateTimeOffset> Moments(string folder) => Directory.Exists(folder)
        ? [.. Directory.EnumerateFiles(folder, Start + "*" + End).Select(f => MomentOf(Path.GetFileName(f))).OfType<DateTimeOffset>()
        .Order()]
        : [];

    public static DateTimeOffset? Newest(string folder) => Moments(folder) is [.., var last] ? last : null;

    private static DateTimeOffset? MomentOf(string name) =>
        DateTimeOffset.TryParseExact(name[Start.Length..^End.Length], Form, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal,
            out var moment) ? moment : null;
}
