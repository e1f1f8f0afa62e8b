using System.Text;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Drawings.Tests;

/// <summary>seed-data/characters.csv against the catalogue: nothing in it may say otherwise.</summary>
public class TableTests
{
    private static readonly Dictionary<string, CatalogueTaxon> Taxa = SeedTable.Taxa.ToDictionary(t => t.ScientificName);

    [Fact]
    public void At_least_400_taxa_are_described_and_every_fern_vine_unwanted_and_deadly_one_is_among_them()
    {
        SeedTable.Rows.Count.ShouldBeGreaterThanOrEqualTo(400);
        var described = SeedTable.Rows.Select(r => r.ScientificName).ToHashSet();
        described.Except(Taxa.Keys).ShouldBeEmpty();
        // The plants of the other states are not described yet; their pages say so.
        SeedTable.Taxa.Where(t => !t.IsAddedForOtherStates).Where(t => t.LifeForm is LifeForm.Fern or LifeForm.Vine
            || t.ImpactRank != ImpactRank.Unranked
            || t.ToxicityClasses.Any(c => c != ToxicityClass.HarmsPetsOrStock))
            .Select(t => t.ScientificName).Except(described).ShouldBeEmpty();
    }

    [Fact]
    public void Height_colour_bloom_life_form_and_name_agree_with_the_catalogue()
    {
        var wrong = new List<string>();
        foreach (var row in SeedTable.Rows)
        {
            var taxon = Taxa[row.ScientificName];
            if (row.HeightCm < taxon.HeightMinMetres * 100 * .999 || row.HeightCm > taxon.HeightMaxMetres * 100 * 1.001)
                wrong.Add($"{row.ScientificName}: height {row.HeightCm}");
            if (taxon.FlowerColour.Length > 0 && row.FlowerColour != taxon.FlowerColour)
                wrong.Add($"{row.ScientificName}: {row.FlowerColour}, catalogue {taxon.FlowerColour}");
            if (taxon.Bloom is { } bloom && (row.BloomFrom != bloom.Start || row.BloomTo != bloom.End))
                wrong.Add($"{row.ScientificName}: bloom {row.BloomFrom}-{row.BloomTo}");
            if (!Fits(row, taxon.LifeForm)) wrong.Add($"{row.ScientificName}: {row.Form} for a {taxon.LifeForm}");
            if (!taxon.CommonNames.Contains(row.CommonName)) wrong.Add($"{row.ScientificName}: {row.CommonName}");
        }

        wrong.ShouldBeEmpty();
    }

    private static bool Fits(Characters row, LifeForm form) => form switch
    {
        LifeForm.Grass or LifeForm.Sedge or LifeForm.Turf => row.HasBlades,
        LifeForm.Fern => row.Form == "fern" || row.ScientificName.StartsWith("Equisetum", StringComparison.Ordinal),
        LifeForm.Shrub => row.Form == "shrub" || row.ScientificName == "Juniperus horizontalis",
        LifeForm.Tree => row.Form is "tree" or "conifer",
        LifeForm.Vine => row.Form is "vine" || row.ScientificName == "Euonymus fortunei",
        // Cattails and lilyturf are forbs by the catalogue and grow like grasses.
        _ => row.Form is "clump" or "single" or "scape" or "mat" or "shrub"
            || row.ScientificName.StartsWith("Typha", StringComparison.Ordinal) || row.ScientificName == "Liriope spicata",
    };

    [Theory]
    [InlineData("form", "bush", "line 2, column form: 'bush' will not do; the words are clump")]
    [InlineData("height_cm", "tall", "line 2, column height_cm: 'tall' will not do; it must be a number from 1 to 4000")]
    [InlineData("bloom_to", "2", "line 2, column bloom_to: '2' will not do; it comes before bloom_from")]
    [InlineData("source", "", "line 2, column source: '' will not do; it is empty")]
    public void A_broken_row_is_named_with_line_column_value_and_what_would_do(string column, string value, string said)
    {
        var lines = File.ReadLines(Path.Combine(SeedTable.Repository, "seed-data", "characters.csv")).Take(2).Select(l => l.Split(','))
            .ToList();
        lines[1][Array.IndexOf(lines[0], column)] = value;
        Read(string.Join('\n', lines.Select(l => string.Join(',', l)))).ShouldContain(said);
    }

    [Fact]
    public void A_missing_column_and_a_name_given_twice_are_said()
    {
        var text = File.ReadAllLines(Path.Combine(SeedTable.Repository, "seed-data", "characters.csv"));
        Read(text[0].Replace("habit,", "", StringComparison.Ordinal) + "\n").ShouldContain("has no column habit");
        Read(string.Join('\n', text[0], text[1], text[1])).ShouldContain("names Abutilon theophrasti 2 times");
    }

    private static string Read(string text) =>
        Should.Throw<FormatException>(() => CharactersFile.Read("characters.csv", Encoding.UTF8.GetBytes(text))).Message;
}
