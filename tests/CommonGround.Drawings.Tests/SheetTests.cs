using System.Security.Cryptography;
using System.Text;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;

namespace CommonGround.Drawings.Tests;

/// <summary>The sheets of docs/likenesses are the code's own drawings: the pictures are kept small as PNG, and a list of fingerprints
/// tells when they are out of date.</summary>
public class SheetTests
{
    private const int OnSheet = 64;

    /// <summary>A folder to write the sheets to, as SVG, after a change of the hand or the table; docs/likenesses.md tells how they
    /// become PNG.</summary>
    private static readonly string? To = Environment.GetEnvironmentVariable("WRITE_SHEETS");

    [Fact]
    public void The_sheets_of_the_docs_are_drawn_by_this_code()
    {
        var folder = Path.Combine(SeedTable.Repository, "docs", "likenesses");
        var list = new StringBuilder();
        foreach (var (name, svg) in Sheets())
        {
            if (To is not null) File.WriteAllText(Path.Combine(To, name + ".svg"), svg);
            list.Append(name).Append(' ').Append(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(svg)))).Append('\n');
            if (To is null) File.Exists(Path.Combine(folder, name + ".png")).ShouldBeTrue(name);
        }

        if (To is not null) File.WriteAllText(Path.Combine(folder, "sheets.txt"), list.ToString());
        File.ReadAllText(Path.Combine(folder, "sheets.txt"))
            .ShouldBe(list.ToString(), "draw the sheets anew as docs/likenesses.md tells, and look at them");
        new DirectoryInfo(folder).GetFiles().Sum(f => f.Length).ShouldBeLessThan(3 * 1024 * 1024);
    }

    private static IEnumerable<(string Name, string Svg)> Sheets()
    {
        var order = SeedTable.Likenesses.OrderBy(Group).ThenBy(l => l.ScientificName, StringComparer.Ordinal).ToList();
        foreach (var (page, plants) in order.Chunk(OnSheet).Index())
        {
            yield return ($"flower-{page + 1:00}",
                SvgPen.File(LikenessSheet.Of($"In flower or full growth, sheet {page + 1}: from {plants[0].ScientificName}", plants,
                Bloom)));
        }

        var unwanted = SeedTable.Taxa.Where(t => t.ImpactRank != Ecology.Taxa.ImpactRank.Unranked
            || t.ToxicityClasses.Contains(Ecology.Taxa.ToxicityClass.DeadlyToPeople)).Select(t => t.ScientificName).ToHashSet();
        foreach (var (page, plants) in order.Where(l => unwanted.Contains(l.ScientificName)).Chunk(OnSheet).Index())
        {
            yield return ($"unwanted-young-{page + 1:00}",
                SvgPen.File(LikenessSheet.Of($"Unwanted and deadly plants in their first summer, sheet {page + 1}", plants, _ => 11, 1)));
            yield return ($"unwanted-seed-{page + 1:00}",
                SvgPen.File(LikenessSheet.Of($"Unwanted and deadly plants in seed, sheet {page + 1}", plants, l =>
                Math.Min(19, l.Characters!.BloomTo + 3))));
        }
    }

    private static int Group(Likeness l) =>
        l.Characters!.Form switch { "tuft" or "sod" => 1, "fern" => 2, "vine" => 3, "shrub" => 4, "tree" or "conifer" => 5, _ => 0 };

    private static int Bloom(Likeness l) => l.Characters!.Inflorescence == "none" ? 13
        : (l.Characters.BloomFrom + l.Characters.BloomTo) / 2;
}
