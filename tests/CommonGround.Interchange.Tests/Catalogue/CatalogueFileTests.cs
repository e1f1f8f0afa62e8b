using System.Text;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Tests.Catalogue;

public class CatalogueFileTests
{
    private static readonly string[] Columns =
    [
        "scientific_name", "synonyms", "common_names", "nativity", "c_value", "c_region", "life_form", "height_min_m", "height_max_m",
            "light", "moisture",
        "bloom_start", "bloom_end", "pollinator_value", "seeds_per_gram", "toxicity", "caution", "impact_rank", "control_start",
            "control_end",
        "source_c", "source_bloom", "keeper_note",
    ];

    private static readonly string[] Good =
    [
        "Asclepias syriaca", "Asclepias cornuti", "common milkweed|silkweed", "native", "1", "illinois", "forb", "0.6", "1.5", "full_sun",
            "dry|medium", "11", "14", "0.9", "140",
        "toxic sap", "Wear gloves; the sap irritates skin and eyes.", "", "", "", "a table", "a flora", "anything",
    ];

    private static ImportFile Read(params string[][] rows) =>
        CatalogueFile.Read("plants.csv",
            Encoding.UTF8.GetBytes(string.Join('\n', rows.Prepend(Columns).Select(r => string.Join(',', r.Select(c => $"\"{c}\""))))));

    private static string[] With(params (string Column, string Cell)[] changes)
    {
        var row = (string[])Good.Clone();
        foreach (var (column, cell) in changes) row[Array.IndexOf(Columns, column)] = cell;
        return row;
    }

    [Fact]
    public void A_good_row_is_read_whole()
    {
        var taxon = Read(Good).Taxa.ShouldHaveSingleItem();
        (taxon.ScientificName, taxon.DisplayName, taxon.Nativity, taxon.C,
            taxon.LifeForm).ShouldBe(("Asclepias syriaca", "common milkweed", Nativity.Native, 1, LifeForm.Forb));
        taxon.Bloom.ShouldBe(new BloomWindow(11, 14));
        taxon.Moisture.ShouldBe([Moisture.Dry, Moisture.Medium]);
        taxon.Sources.ShouldBe(new Dictionary<string, string> { ["c"] = "a table", ["bloom"] = "a flora" }, ignoreOrder: true);
        (taxon.ImpactRank, taxon.ControlStart, taxon.SpacingMetres).ShouldBe((ImpactRank.Unranked, null, null));
    }

    [Theory]
    [InlineData("scientific_name", "")]
    [InlineData("nativity", "")]
    [InlineData("nativity", "exotic")]
    [InlineData("life_form", "herb")]
    [InlineData("c_value", "12")]
    [InlineData("c_value", "-1")]
    [InlineData("c_value", "*")]
    [InlineData("c_region", "")]
    [InlineData("height_min_m", "2")]
    [InlineData("light", "full_sun|sunny")]
    [InlineData("light", "full_sun|full_sun")]
    [InlineData("bloom_start", "24")]
    [InlineData("bloom_end", "-1")]
    [InlineData("bloom_end", "")]
    [InlineData("pollinator_value", "1.1")]
    [InlineData("seeds_per_gram", "0")]
    [InlineData("caution", "")]
    [InlineData("impact_rank", "severe")]
    [InlineData("control_start", "3.5")]
    [InlineData("source_c", "")]
    [InlineData("source_bloom", "")]
    public void One_bad_cell_is_named_with_its_line_and_column(string column, string cell)
    {
        var file = Read(With(("scientific_name", "Asclepias tuberosa"), ("synonyms", "")), With((column, cell)));
        file.Errors.ShouldContain(e => e.Line == 3 && e.Column == column && e.Value == cell);
        file.Errors.ShouldAllBe(e => e.Line == 3);
    }

    [Fact]
    public void A_source_without_a_value_is_refused() =>
        Read(With(("c_value", ""))).OnlyError().Column.ShouldBe("source_c");

    [Fact]
    public void A_grass_has_no_bloom_window() => Read(With(("life_form", "grass"))).OnlyError().Column.ShouldBe("bloom_start");

    [Fact]
    public void An_introduced_taxon_has_no_conservatism() => Read(With(("nativity", "introduced"))).OnlyError().Column.ShouldBe("c_value");

    [Fact]
    public void A_window_over_the_turn_of_the_year_is_fine() =>
    Read(With(("bloom_start", "22"), ("bloom_end", "1"))).Errors.ShouldBeEmpty();

    [Theory]
    [InlineData("Asclepias syriaca", "", "scientific_name")]
    [InlineData("ASCLEPIAS SYRIACA L.", "", "scientific_name")]
    [InlineData("Asclepias cornuti", "", "scientific_name")]
    [InlineData("Asclepias tuberosa", "Asclepias syriaca", "synonyms")]
    [InlineData("Asclepias tuberosa", "Asclepias decumbens|Asclepias cornuti", "synonyms")]
    public void A_name_that_already_leads_to_another_taxon_is_refused(string name, string synonyms, string column)
    {
        var error = Read(Good, With(("scientific_name", name), ("synonyms", synonyms))).OnlyError();
        (error.Line, error.Column).ShouldBe((3, column));
        error.What.ShouldContain("Asclepias syriaca");
    }

    [Fact]
    public void Another_kind_of_file_is_not_taken_for_the_catalogue() =>
        CatalogueFile.Read("plants.csv", "date,rain_mm\n"u8.ToArray())
            .OnlyError().What.ShouldBe("This is a rain file, not the plant catalogue.");
}
