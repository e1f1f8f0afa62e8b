using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;
using CommonGround.Interchange.Tests.Catalogue;

namespace CommonGround.Interchange.Tests.Csv;

/// <summary>Cells as people type them.</summary>
public class UntidyCellTests
{
    /// <summary>NIST Special Publication 811 (2008), appendix B.8: square foot 9.290 304 E-02 m², square yard 8.361 274 E-01 m², acre (of
    /// the international foot) 4.046 856 E+03 m², hectare 1.0 E+04 m², inch 2.54 E-02 m, ounce (avoirdupois) 2.834 952 E+01 g, pound
    /// 4.535 924 E+02 g; degree Fahrenheit (t − 32)/1.8.</summary>
    [Theory]
    [InlineData("ft2", 1, 9.290304e-2)]
    [InlineData("yd2", 1, 8.361274e-1)]
    [InlineData("ac", 1, 4.046856e3)]
    [InlineData("ha", 1, 1e4)]
    [InlineData("in", 1, 25.4)]
    [InlineData("per-oz", 28.34952, 1)]
    [InlineData("per-lb", 453.5924, 1)]
    [InlineData("F", 212, 100)]
    [InlineData("F", -40, -40)]
    public void Units_are_converted_as_the_national_institute_says(string unit, double figure, double ours) =>
        MeasureUnit.Keyed(unit)!.ToOurs(figure).ShouldBe(ours, Math.Abs(ours) * 1e-6);

    [Theory]
    [InlineData("Lot sq ft", "lot", "ft2")]
    [InlineData("Cover (m²)", "cover", "m2")]
    [InlineData("Size (sq. ft.)", "size", "ft2")]
    [InlineData("Sq ft of lawn", "lawn", "ft2")]
    [InlineData("High (°F)", "high", "F")]
    [InlineData("Plant", "plant", null)]
    [InlineData("C value", "cvalue", null)]
    public void A_heading_says_its_unit(string heading, string name, string? unit)
    {
        var said = MeasureUnit.InHeading(heading);
        (said.Name, said.Unit?.Key).ShouldBe((name, unit));
    }

    [Theory]
    [InlineData("7,200", "yard_m2", 7200)]
    [InlineData("7 200", "yard_m2", 7200)]
    [InlineData("1,5", "cover_m2", 1.5)]
    [InlineData(".75", "cover_m2", 0.75)]
    [InlineData("1 1/2", "cover_m2", 1.5)]
    [InlineData("10 sq ft", "cover_m2", 0.9290304)]
    [InlineData("0.25 acre", "yard_m2", 1011.7141056)]
    [InlineData("3 x 4 ft", "cover_m2", 1.11483648)]
    [InlineData("3' x 4'", "cover_m2", 1.11483648)]
    [InlineData("about 20", "count", 20)]
    [InlineData("10-12", "count", 11)]
    [InlineData("6 clumps", "count", 6)]
    [InlineData("three", "count", 3)]
    [InlineData("60%", "cover_percent", 60)]
    [InlineData("$4.50", "plug_each", 4.5)]
    [InlineData("-3", "tmin_c", -3)]
    public void A_figure_is_read_as_its_writer_meant_it(string cell, string column, double value) =>
        UntidyNumber.Read(cell, column, null)!.Value.Value.ShouldBe(value, 1e-9);

    [Theory]
    [InlineData("much", "cover_m2")]
    [InlineData("12 furlongs", "cover_m2")]
    [InlineData("40%", "cover_m2")]
    [InlineData("12-10", "count")]
    [InlineData("3 x 4", "cover_m2")]
    [InlineData("7,2000", "cover_m2")]
    [InlineData("", "cover_m2")]
    public void What_is_no_figure_stays_as_written(string cell, string column) =>
        UntidyNumber.Read(cell, column, null).ShouldBeNull();

    [Theory]
    [InlineData("Sept 3", 2024, "2024-09-03")]
    [InlineData("Sept. 10th", 2024, "2024-09-10")]
    [InlineData("3 Sep 2023", null, "2023-09-03")]
    [InlineData("September 3rd, 2023", null, "2023-09-03")]
    [InlineData("9/3/24", null, "2024-09-03")]
    [InlineData("9/3", 2024, "2024-09-03")]
    [InlineData("Tue 8/18/2026", null, "2026-08-18")]
    [InlineData("2026-08-18T10:30:00", null, "2026-08-18")]
    [InlineData("2026/8/18", null, "2026-08-18")]
    [InlineData("May 2022", null, "2022-05-15")]
    [InlineData("45538", null, "2024-09-03")]
    public void A_day_is_read_as_its_writer_meant_it(string cell, int? year, string day) =>
        UntidyDay.Read(cell, DateOrder.MonthFirst, year, roughly: false)!.Value.Day.ToString("yyyy-MM-dd").ShouldBe(day);

    [Theory]
    [InlineData("Sept 3")]
    [InlineData("9/3")]
    [InlineData("Febtober 3 2024")]
    [InlineData("2024")]
    [InlineData("last week")]
    [InlineData("13/13/2024")]
    public void What_is_no_day_or_lacks_its_year_is_none(string cell) =>
        UntidyDay.Read(cell, DateOrder.MonthFirst, null, roughly: false).ShouldBeNull();

    [Theory]
    [InlineData("light", "Full", "full_sun")]
    [InlineData("light", "full sun", "full_sun")]
    [InlineData("light", "pt. shade", "part_shade")]
    [InlineData("moisture", "med", "medium")]
    [InlineData("soil_group", "group b", "B")]
    [InlineData("shared", "Y", "yes")]
    [InlineData("light", "by the fence", null)]
    public void A_word_is_read_as_one_of_ours(string column, string cell, string? word) => UntidyWords.Read(column, cell).ShouldBe(word);

    private static readonly NameIndex Index = new(ShippedCatalogue.Taxa);

    [Theory]
    [InlineData("purple aster")]
    [InlineData("asster")]
    [InlineData("blue wood astor")]
    [InlineData("Aster nova")]
    public void An_aster_is_never_taken_for_a_maple(string written)
    {
        var proposed = Index.Propose(written, 6);
        proposed.ShouldNotBeEmpty();
        proposed.Select(p => p.Taxon.ScientificName).ShouldNotContain("Acer negundo");
        proposed[0].Taxon.Family.ShouldBe("Asteraceae");
    }

    [Theory]
    [InlineData("Blackeyed Suzan", "Rudbeckia hirta")]
    [InlineData("Prarie dropseed", "Sporobolus heterolepis")]
    [InlineData("Echinacea purpurae", "Echinacea purpurea")]
    [InlineData("rattel snake master", "Eryngium yuccifolium")]
    public void The_likeliest_plant_stands_first(string written, string meant) =>
        Index.Propose(written, 6)[0].Taxon.ScientificName.ShouldBe(meant);

    [Theory]
    [InlineData("xyzzy")]
    [InlineData("12")]
    [InlineData("")]
    public void Where_no_name_shares_anything_nothing_is_proposed(string written) => Index.Propose(written, 6).ShouldBeEmpty();

    [Theory]
    [InlineData("wild bergamot (Monarda fistulosa)", "Monarda fistulosa")]
    [InlineData("New England Aster", "Symphyotrichum novae-angliae")]
    [InlineData("Rudbeckia hirta - black-eyed Susan", "Rudbeckia hirta")]
    [InlineData("wild bergamot / purple coneflower", null)]
    public void A_name_in_a_file_means_what_it_would_where_plants_are_recorded(string written, string? meant) =>
        Index.Meant(written)?.ScientificName.ShouldBe(meant);
}
