using System.Text.RegularExpressions;
using System.Xml.Linq;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Tests;

/// <summary>Habits of this repository that a reader relies on: reasons beside rules that are off, short lines, one version.</summary>
public sealed partial class HouseRuleTests
{
    private const int LongestLine = 140;
    private static readonly string Repository = TempFolder.Repository();

    [Fact]
    public void Each_rule_that_is_switched_off_says_why()
    {
        var lines = File.ReadAllLines(Path.Combine(Repository, ".editorconfig"));
        var off = lines.Index().Where(l => OffPattern().IsMatch(l.Item)).ToList();
        off.Count.ShouldBeGreaterThan(10);
        off.Where(l => !lines[l.Index - 1].StartsWith("# ", StringComparison.Ordinal)).Select(l => l.Item).ShouldBeEmpty();
    }

    [Fact]
    public void Each_warning_that_a_project_leaves_out_is_named_with_its_reason()
    {
        var found = 0;
        foreach (var file in Files("*.props", "*.targets", "*.csproj"))
        {
            foreach (var left in XDocument.Load(file).Descendants().Where(e => e.Name.LocalName is "NoWarn" or "WarningsNotAsErrors"))
            {
                var reason = (left.PreviousNode as XComment)?.Value ?? "";
                var rules = left.Value.Split(';').Where(r => !r.StartsWith('$')).ToList();
                // Advisories of the registry share one reason.
                rules.Where(r => !r.StartsWith("NU", StringComparison.Ordinal) && !reason.Contains(r + ":", StringComparison.Ordinal))
                    .ShouldBeEmpty(file);
                reason.Length.ShouldBeGreaterThan(20, file);
                found++;
            }
        }

        found.ShouldBeGreaterThan(2);
    }

    [Fact]
    public void Each_warning_switched_off_in_code_says_why()
    {
        var off = Files("*.cs").SelectMany(f => File.ReadLines(f)
            .Where(l => l.TrimStart().StartsWith("#pragma warning disable", StringComparison.Ordinal)).Select(l => $"{f}: {l}")).ToList();
        off.ShouldNotBeEmpty();
        off.Where(l => !l.Contains(" // ", StringComparison.Ordinal)).ShouldBeEmpty();
    }

    /// <summary>
    /// Left out: what a tool wrote, tables and code in prose, and a line that cannot be broken because it is one address or word.
    /// </summary>
    [Theory]
    [InlineData("*.md")]
    [InlineData("*.sh")]
    [InlineData("*.yml")]
    [InlineData("*.yaml")]
    [InlineData("*.props")]
    [InlineData("*.targets")]
    public void No_line_is_too_long_to_read(string pattern)
    {
        var tooLong = new List<string>();
        foreach (var file in Files(pattern))
        {
            if (Path.GetFileName(file) == "mixes.md")
            {
                continue; // written by a test, mix by mix
            }

            var code = false;
            foreach (var (number, line) in File.ReadLines(file).Index())
            {
                code ^= line.TrimStart().StartsWith("```", StringComparison.Ordinal);
                if (line.Length > LongestLine && !code && !CannotBeBroken(line))
                {
                    tooLong.Add($"{Path.GetRelativePath(Repository, file)}:{number + 1} has {line.Length} characters");
                }
            }
        }

        tooLong.ShouldBeEmpty();
    }

    /// <summary>Left out: text of several lines, and a line that is one piece of text.</summary>
    [Theory]
    [InlineData("*.cs")]
    [InlineData("*.razor")]
    public void No_line_of_code_is_too_long_to_read(string pattern)
    {
        var tooLong = new List<string>();
        foreach (var file in Files(pattern))
        {
            var text = false;
            foreach (var (number, line) in File.ReadLines(file).Index())
            {
                var was = text;
                text ^= RawQuotes().Count(line) % 2 == 1;
                if (line.Length > LongestLine && !was && !text && !IsText(line))
                {
                    tooLong.Add($"{Path.GetRelativePath(Repository, file)}:{number + 1} has {line.Length} characters");
                }
            }
        }

        tooLong.ShouldBeEmpty();
    }

    [Fact]
    public void The_version_is_the_newest_of_the_changelog()
    {
        var changes = Path.Combine(Repository, "docs", "changelog.md");
        var heading = File.ReadLines(changes).First(l => l.StartsWith("## ", StringComparison.Ordinal));
        heading.Split(' ')[1].ShouldBe(ProgramVersion.Text);
        ProgramVersion.Text.ShouldMatch(@"^\d+\.\d+\.\d+$");
    }

    private static bool CannotBeBroken(string line) =>
        line.StartsWith('|') || line.StartsWith('#') || !line.Trim().Contains(' ', StringComparison.Ordinal) || LongestWord().IsMatch(line);

    /// <summary>More than half of the line stands between its first and its last quotation mark, or it is a remark of a page.</summary>
    private static bool IsText(string line) =>
        line.LastIndexOf('"') - line.IndexOf('"', StringComparison.Ordinal) > line.Length / 2
            || line.StartsWith("@*", StringComparison.Ordinal);

    private static IEnumerable<string> Files(params string[] patterns) => new[] { "src", "tests", "docs", "deploy", "seed-data", "shared" }
        .SelectMany(folder => patterns.SelectMany(p =>
            Directory.EnumerateFiles(Path.Combine(Repository, folder), p, SearchOption.AllDirectories)))
        .Concat(patterns.SelectMany(p => Directory.EnumerateFiles(Repository, p)))
        .Where(f => !f.Split(Path.DirectorySeparatorChar)
            .Any(part => part is "bin" or "obj" or "Migrations" or "node_modules" or "TestResults"));

    [GeneratedRegex("\"\"\"+")]
    private static partial Regex RawQuotes();

    [GeneratedRegex(@"severity = none\s*$")]
    private static partial Regex OffPattern();

    /// <summary>A picture or a link whose address alone fills most of the line, or one command.</summary>
    [GeneratedRegex(@"^\s*([-*] )?(\S{100,}|`[^`]{100,}`)")]
    private static partial Regex LongestWord();
}
