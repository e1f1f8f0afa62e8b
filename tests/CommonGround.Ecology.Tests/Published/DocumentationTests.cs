namespace CommonGround.Ecology.Tests.Published;

public class DocumentationTests
{
    [Fact]
    public void Every_anchor_the_code_points_to_is_a_heading_of_the_page_on_measures()
    {
        var root = CheckFile.Root();
        var headings = File.ReadLines(Path.Combine(root, "docs", "measures.md"))
            .Where(line => line.StartsWith('#'))
            .Select(line => line.TrimStart('#').Trim().ToLowerInvariant().Replace("'", "", StringComparison.Ordinal).Replace(' ', '-'))
            .ToHashSet(StringComparer.Ordinal);
        var sources = Directory.EnumerateFiles(Path.Combine(root, "src", "CommonGround.Ecology"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
        var anchors = sources
            .SelectMany(file => File.ReadAllText(file).Split("measures.md#").Skip(1))
            .Select(rest => new string([.. rest.TakeWhile(c => char.IsAsciiLetterLower(c) || c == '-' || char.IsAsciiDigit(c))]))
            .ToHashSet(StringComparer.Ordinal);
        anchors.Count.ShouldBeGreaterThan(20);
        anchors.Except(headings).ShouldBeEmpty();
    }

    [Fact]
    public void Every_worked_example_is_explained_on_the_page_on_measures()
    {
        var root = CheckFile.Root();
        var page = File.ReadAllText(Path.Combine(root, "docs", "measures.md"));
        var examples = Directory.GetFiles(Path.Combine(root, "shared", "worked-examples"), "*.json").Select(Path.GetFileName).ToList();
        examples.Count.ShouldBeGreaterThan(5);
        examples.ShouldAllBe(name => page.Contains(name!, StringComparison.Ordinal));
    }
}
