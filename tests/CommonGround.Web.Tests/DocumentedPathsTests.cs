using System.Text.RegularExpressions;

namespace CommonGround.Web.Tests;

/// <summary>"Where is…" in DEVELOPERS.md leads somewhere.</summary>
public partial class DocumentedPathsTests
{
    private static readonly string Repository = System.IO.Path.GetFullPath(System.IO.Path.Combine(AppContext.BaseDirectory,
        "../../../../.."));

    [Fact]
    public void Every_path_that_developers_are_sent_to_is_there()
    {
        var text = File.ReadAllText(System.IO.Path.Combine(Repository, "DEVELOPERS.md"));
        var paths = Path().Matches(text).Select(m => m.Groups["path"].Value).Distinct(StringComparer.Ordinal).ToList();
        paths.Count.ShouldBeGreaterThan(20);
        paths.Where(p => !Exists(p)).ShouldBeEmpty();
    }

    /// <summary>A word in angle brackets stands for any: then the folder before it counts.</summary>
    private static bool Exists(string path)
    {
        var known = System.IO.Path.Combine(Repository, path.Split('<')[0].TrimEnd('/'));
        return File.Exists(known) || Directory.Exists(known);
    }

    [GeneratedRegex("`(?<path>(src|tests|docs|deploy|shared|seed-data)/[^` ]*)`", RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000)]
    private static partial Regex Path();
}
