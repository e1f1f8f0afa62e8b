using System.Globalization;
using System.Text.RegularExpressions;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>Which backups stay: the last one of each of so many days, weeks and months. Days without a backup do not count, so a site that
/// stood still loses none.</summary>
public sealed partial record BackupRetention(int Days, int Weeks, int Months)
{
    public static BackupRetention Default { get; } = new(7, 4, 12);

    /// <summary>Reads "7d 4w 12m"; a part left out keeps none of its kind, nothing at all is the default.</summary>
    public static BackupRetention Parse(string? written)
    {
        if (string.IsNullOrWhiteSpace(written))
        {
            return Default;
        }

        var match = Pattern().Match(written);
        int Part(string name) => match.Groups[name].Success ? int.Parse(match.Groups[name].Value, CultureInfo.InvariantCulture) : 0;
        var keep = match.Success ? new BackupRetention(Part("d"), Part("w"), Part("m")) : new BackupRetention(0, 0, 0);
        return keep is { Days: 0, Weeks: 0, Months: 0 }
            ? throw new DataFolderException($"Backup:Keep '{written}' is not known: write how many days, weeks and months, such as \"7d "
            + $"4w 12m\".")
            : keep;
    }

    /// <summary>The moments whose backups may go, out of all there are. The newest always stays.</summary>
    /// <remarks>Days, ISO weeks and months are those of UTC, which the archives' names give.</remarks>
    public IReadOnlyList<DateTimeOffset> Removable(IEnumerable<DateTimeOffset> moments)
    {
        var newestFirst = moments.Order().Reverse().ToList();
        var kept = new HashSet<DateTimeOffset>(newestFirst.Take(1));
        kept.UnionWith(LastOf(newestFirst, Days, m => m.UtcDateTime.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)));
        kept.UnionWith(LastOf(newestFirst, Weeks, m => $"{ISOWeek.GetYear(m.UtcDateTime)}-{ISOWeek.GetWeekOfYear(m.UtcDateTime)}"));
        kept.UnionWith(LastOf(newestFirst, Months, m => m.UtcDateTime.ToString("yyyy-MM", CultureInfo.InvariantCulture)));
        return [.. newestFirst.Where(m => !kept.Contains(m))];
    }

    private static IEnumerable<DateTimeOffset> LastOf(IEnumerable<DateTimeOffset> newestFirst, int count,
        Func<DateTimeOffset, string> period) =>
        newestFirst.DistinctBy(period).Take(count);

    [GeneratedRegex(@"^\s*(?:(?<d>\d{1,4})d)?[\s,]*(?:(?<w>\d{1,4})w)?[\s,]*(?:(?<m>\d{1,4})m)?\s*$", RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000)]
    private static partial Regex Pattern();
}
