using CommonGround.Ecology.Invasives;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Tests.DemoData;

/// <summary>The shipped control calendar against published facts (values and sources: seed-data/unwanted/README.md).</summary>
public class UnwantedFilesTests
{
    private static readonly IReadOnlyDictionary<string, UnwantedTaxon> s_all = UnwantedFiles.Read(Open);

    private static byte[] Open(string name) => Regions.ShippedRegions.Bytes("unwanted/" + name);

    private static ControlAdvice Of(string taxon, ControlMethod method) => s_all[taxon].Methods.First(m => m.Method == method);

    [Fact]
    public void The_calendar_holds_83_plants_each_with_a_method_or_the_word_to_report_it()
    {
        s_all.Count.ShouldBe(83);
        s_all.Values.ShouldAllBe(t => t.Methods.Count > 0 && t.Spread != null && t.Marks != null);
        s_all.Values.Sum(t => t.Methods.Count).ShouldBe(240);
    }

    // State text of the Wisconsin control manual; Illinois Nature Preserves Commission guideline 2007: pulled before pods ripen.
    [Fact]
    public void Garlic_mustard_is_pulled_in_spring_before_its_pods_ripen_and_never_mowed()
    {
        var pull = Of("Alliaria petiolata", ControlMethod.Pull);
        new[] { 7, 8, 9 }.ShouldAllBe(half => pull.IsOpen(half));
        pull.IsOpen(11).ShouldBeFalse();
        Of("Alliaria petiolata", ControlMethod.Mow).Advised.ShouldBe(Advice.No);
        Enumerable.Range(8, 10).ShouldAllBe(half => !Of("Alliaria petiolata", ControlMethod.Mow).IsOpen(half));
    }

    // Global Invasive Species Database, Alliaria petiolata, management: 99 % of plants cut at ground level in flower died.
    [Fact]
    public void Garlic_mustard_cut_at_the_ground_in_flower_dies_as_published() =>
        Of("Alliaria petiolata", ControlMethod.Cut).Efficacy!.Value.Mid.ShouldBe(0.99);

    // Redwood, Matlack and Huebner (2018), Weed Science 66: 82–88 % of buried seed alive after 24 months; managers five to over ten years.
    [Fact]
    public void Its_seed_outlasts_what_managers_ask_and_both_are_held()
    {
        (s_all["Alliaria petiolata"].ManagersYears, s_all["Alliaria petiolata"].SeedYears).ShouldBe((10, 37));
        // 0.85 after two years lies within the published 0.82 to 0.88.
        Math.Pow(SeedBank.AnnualSurvival(8.5), 2).ShouldBeInRange(0.82, 0.88);
    }

    // Redwood, Matlack and Huebner (2019), J. Torrey Bot. Soc. 146:79–86: half of the seed of tree of heaven alive after 24 months.
    [Fact]
    public void Half_of_the_seed_of_tree_of_heaven_is_alive_after_two_years() =>
        Math.Pow(SeedBank.AnnualSurvival(s_all["Ailanthus altissima"].Spread!.SeedHalfLifeYears!.Value.Mid), 2).ShouldBe(0.5, 0.05);

    [Fact]
    public void Volunteers_do_not_touch_giant_hogweed_and_no_row_names_a_dose()
    {
        Of("Heracleum mantegazzianum", ControlMethod.ReportFirst).Advised.ShouldBe(Advice.Yes);
        var words = string.Join(' ', s_all.Values.SelectMany(t => t.Methods).Select(m => $"{m.StageRule} {m.MustNot} {m.Disposal}"))
            .ToLowerInvariant();
        new[] { "glyphosate", "triclopyr", "2,4-d", "oz per", "ml per", "per gallon", "per litre" }.ShouldAllBe(w => !words.Contains(w));
    }

    [Fact]
    public void Deadly_and_burning_look_alikes_come_first() => s_all.Values
        .ShouldAllBe(t => t.LookAlikes.Select(l => l.Order).SequenceEqual(t.LookAlikes.Select(l => l.Order).Order()));

    [Fact]
    public void A_broken_cell_is_named_by_file_line_and_column()
    {
        var wrong = Should.Throw<FormatException>(() => UnwantedFiles.Read(name => name != "control.csv" ? Open(name)
            : System.Text.Encoding.UTF8.GetBytes(System.Text.Encoding.UTF8.GetString(Open(name)).Replace(",pull,yes,4a,", ",pull,yes,4c,",
                StringComparison.Ordinal))));
        wrong.Message.ShouldContain("control.csv, line ");
        wrong.Message.ShouldContain("from_half_month");
        wrong.Message.ShouldContain("4c");
    }
}
