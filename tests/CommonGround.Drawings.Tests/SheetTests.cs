using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;

namespace CommonGround.Drawings.Tests;

/// <summary>The sheets of docs/likenesses are the code's own drawings.</summary>
public class SheetTests
{
    private const int OnSheet = 64;

    /// <summary>Set to 1 to write the sheets anew after a change of the hand or the table.</summary>
    private static readonly bool Write = Environment.GetEnvironmentVariable("WRITE_SHEETS") == "1";

    [Fact]
    public void The_sheets_of_the_docs_are_drawn_by_this_code()
    {
        var folder = Path.Combine(SeedTable.Repository, "docs", "likenesses");
        Directory.CreateDirectory(folder);
        var stale = new List<string>();
        foreach (var (name, svg) in Sheets())
        {
            var path = Path.Combine(folder, name);
            if (Write) File.WriteAllText(path, svg);
            else if (!File.Exists(path) || File.ReadAllText(path) != svg) stale.Add(name);
        }

        stale.ShouldBeEmpty("run this test with WRITE_SHEETS=1 and look at the sheets");
        new DirectoryInfo(folder).GetFiles().Sum(f => f.Length).ShouldBeLessThan(3 * 1024 * 1024);
    }

    private static IEnumerable<(string Name, string Svg)> Sheets()
    {
        var order = SeedTable.Likenesses.OrderBy(l => Group(l)).ThenBy(l => l.ScientificName, StringComparer.Ordinal).ToList();
        foreach (var (page, plants) in order.Chunk(OnSheet).Index())
        {
            var first = plants[0].ScientificName;
            yield return ($"flower-{page + 1:00}.svg", SvgPen.File(LikenessSheet.Of($"In flower or full growth, sheet {page + 1}: from {first}", plants, Bloom)));
        }
    }

    private static int Group(Likeness l) => l.Characters!.Form switch { "tuft" or "sod" => 1, "fern" => 2, "vine" => 3, "shrub" => 4, "tree" or "conifer" => 5, _ => 0 };

    private static int Bloom(Likeness l) => l.Characters!.Inflorescence == "none" ? 13 : (l.Characters.BloomFrom + l.Characters.BloomTo) / 2;
}
