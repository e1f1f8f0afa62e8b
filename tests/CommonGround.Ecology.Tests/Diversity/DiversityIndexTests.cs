using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.Tests.Published;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Diversity;

public class DiversityIndexTests
{
    // Published data: dune meadow (Jongman, ter Braak & van Tongeren 1987), Barro Colorado Island trees (Condit et al. 2002), oribatid
    // mites (Borcard et al. 1992). The file holds the first 34 of the 50 BCI plots. Values: vegan 2.6-4 (Oksanen et al. 2022), functions
    // diversity, specnumber, renyi.
    [Theory(DisplayName = "Indices of every site agree with vegan 2.6-4 (Oksanen et al. 2022)")]
    [InlineData("dune", 20)]
    [InlineData("BCI", 34)]
    [InlineData("mite35", 35)]
    public void Indices_of_every_site_agree_with_vegan(string dataset, int sites)
    {
        var expected = CheckFile.Table("01_per_site.csv").Where(r => r["dataset"] == dataset).ToDictionary(r => r["site"]);
        expected.Count.ShouldBe(sites);
        foreach (var (site, abundances) in CheckFile.Community(dataset).Where(r => expected.ContainsKey(r.Site)))
        {
            var row = expected[site];
            DiversityIndex.Richness(abundances).ShouldBe(int.Parse(row["S"]), site);
            DiversityIndex.Shannon(abundances).ShouldBeNear(CheckFile.Number(row["shannon_ln"]), 1e-12, site);
            DiversityIndex.Simpson(abundances).ShouldBeNear(CheckFile.Number(row["simpson_1mD"]), 1e-12, site);
            DiversityIndex.InverseSimpson(abundances).ShouldBeNear(CheckFile.Number(row["simpson_inv"]), 1e-12, site);
            DiversityIndex.Evenness(abundances).ShouldBeNear(CheckFile.Number(row["pielou"]), 1e-12, site);
            DiversityIndex.HillNumber(abundances, 0).ShouldBeNear(CheckFile.Number(row["hill0"]), 1e-12, site);
            DiversityIndex.HillNumber(abundances, 0.5).ShouldBeNear(CheckFile.Number(row["hill_renyi05"]), 1e-12, site);
            DiversityIndex.HillNumber(abundances, 1).ShouldBeNear(CheckFile.Number(row["hill1"]), 1e-12, site);
            DiversityIndex.HillNumber(abundances, 2).ShouldBeNear(CheckFile.Number(row["hill2"]), 1e-12, site);
        }
    }

    [Fact(DisplayName = "Rényi entropies of six BCI plots as printed in the vegan diversity vignette, section 1 (ln of the Hill number)")]
    public void Hill_numbers_of_every_order_agree_with_the_printed_vignette()
    {
        var plots = CheckFile.Community("BCI").ToDictionary(r => r.Site, r => r.Abundances);
        var rows = CheckFile.Table("01_printed_bci.csv");
        rows.Count.ShouldBe(48);
        foreach (var row in rows)
        {
            var hill = DiversityIndex.HillNumber(plots[row["site"]], CheckFile.Number(row["order"]))!.Value;
            Math.Log(hill).ShouldBe(CheckFile.Number(row["renyi_entropy"]), 0.00051, $"plot {row["site"]}, order {row["order"]}");
        }
    }

    [Theory(DisplayName = "Small count vectors agree with vegan 2.6-4 (checks DV-003 to DV-007)")]
    [InlineData("DV-003")]
    [InlineData("DV-004")]
    [InlineData("DV-005")]
    [InlineData("DV-006")]
    [InlineData("DV-007")]
    public void Small_count_vectors_agree_with_vegan(string id)
    {
        var (inputs, expected) = CheckFile.Check("01_diversity.json", id);
        var counts = inputs.Numbers("counts");
        DiversityIndex.Richness(counts).ShouldBe((int)expected.Number("S"));
        DiversityIndex.Shannon(counts).ShouldBeNear(expected.Number("H"), 3e-6, id);
        DiversityIndex.Simpson(counts).ShouldBeNear(expected.Number("D"), 3e-6, id);
        DiversityIndex.InverseSimpson(counts).ShouldBeNear(expected.Number("inv"), 3e-6, id);
        DiversityIndex.Evenness(counts).ShouldBeNear(expected.Optional("J"), 3e-6, id);
    }

    [Fact(DisplayName = "Shannon and Simpson of BCI plot 1 agree with scikit-bio 0.5.8 (check DV-008)")]
    public void Shannon_and_Simpson_of_one_plot_agree_with_a_second_library()
    {
        var (_, expected) = CheckFile.Check("01_diversity.json", "DV-008");
        var plot = CheckFile.Community("BCI").Single(r => r.Site == "1").Abundances;
        DiversityIndex.Shannon(plot).ShouldBeNear(expected.Number("shannon"), 1e-9, "shannon");
        DiversityIndex.Simpson(plot).ShouldBeNear(expected.Number("simpson"), 1e-9, "simpson");
    }

    [Fact]
    public void The_worked_example_of_four_plants_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("diversity");
        var covers = input.Numbers("coverSquareMetres");
        DiversityIndex.Richness(covers).ShouldBe((int)expected.Number("richness"));
        DiversityIndex.Shannon(covers).ShouldBeNear(expected.Number("shannon"), 1e-12, "shannon");
        DiversityIndex.Simpson(covers).ShouldBeNear(expected.Number("simpson"), 1e-12, "simpson");
        DiversityIndex.InverseSimpson(covers).ShouldBeNear(expected.Number("inverseSimpson"), 1e-12, "inverse");
        DiversityIndex.Evenness(covers).ShouldBeNear(expected.Number("evenness"), 1e-12, "evenness");
        DiversityIndex.HillNumber(covers, 0).ShouldBeNear(expected.Number("hill0"), 1e-12, "hill0");
        DiversityIndex.HillNumber(covers, 1).ShouldBeNear(expected.Number("hill1"), 1e-12, "hill1");
        DiversityIndex.HillNumber(covers, 2).ShouldBeNear(expected.Number("hill2"), 1e-12, "hill2");
    }

    [Fact]
    public void An_empty_site_has_richness_zero_and_no_other_index()
    {
        foreach (double[] empty in (double[][])[[], [0, 0]])
        {
            DiversityIndex.Richness(empty).ShouldBe(0);
            DiversityIndex.Shannon(empty).ShouldBeNull();
            DiversityIndex.Simpson(empty).ShouldBeNull();
            DiversityIndex.InverseSimpson(empty).ShouldBeNull();
            DiversityIndex.Evenness(empty).ShouldBeNull();
            DiversityIndex.HillNumber(empty, 0).ShouldBeNull();
            DiversityIndex.HillNumber(empty, 1).ShouldBeNull();
            DiversityIndex.HillNumber(empty, 2).ShouldBeNull();
            DiversityIndex.HillNumber(empty, 0.5).ShouldBeNull();
        }
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void An_impossible_abundance_is_refused(double abundance) =>
        Should.Throw<ArgumentOutOfRangeException>(() => DiversityIndex.Shannon([1, abundance]));

    [Fact]
    public void A_negative_order_of_a_Hill_number_is_refused() =>
        Should.Throw<ArgumentOutOfRangeException>(() => DiversityIndex.HillNumber([1, 2], -0.1));

    [Property]
    public void Scaling_all_covers_and_shuffling_them_leaves_the_indices_alone(int seed)
    {
        var random = new Random(seed);
        double[] covers = [.. Enumerable.Range(0, random.Next(2, 40)).Select(_ => random.NextDouble() + 0.001)];
        double[] other = [.. covers.Select(c => c * 37.5)];
        random.Shuffle(other);
        DiversityIndex.Shannon(other).ShouldBeNear(DiversityIndex.Shannon(covers), 1e-12, "shannon");
        DiversityIndex.Simpson(other).ShouldBeNear(DiversityIndex.Simpson(covers), 1e-12, "simpson");
        DiversityIndex.HillNumber(other, 1.7).ShouldBeNear(DiversityIndex.HillNumber(covers, 1.7), 1e-11, "hill");
    }

    [Property]
    public void Evenness_is_at_most_one_and_Hill_numbers_fall_with_their_order(int seed)
    {
        var random = new Random(seed);
        double[] covers = [.. Enumerable.Range(0, random.Next(2, 40)).Select(_ => random.Next(3) == 0 ? 1 : random.NextDouble() + 0.001)];
        DiversityIndex.Evenness(covers)!.Value.ShouldBeInRange(0, 1);
        double[] hill = [.. new[] { 0, 0.5, 1, 1.5, 2, 5 }.Select(q => DiversityIndex.HillNumber(covers, q)!.Value)];
        for (var i = 1; i < hill.Length; i++)
        {
            hill[i].ShouldBeLessThanOrEqualTo(hill[i - 1] + 1e-9);
        }

        hill[^1].ShouldBeGreaterThanOrEqualTo(1 - 1e-9);
    }
}
