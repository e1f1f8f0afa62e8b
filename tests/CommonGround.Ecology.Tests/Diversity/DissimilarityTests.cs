using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Diversity;

public class DissimilarityTests
{
    // vegan 2.6-4, function vegdist: every pair of sites (of the first 34 plots of BCI).
    [Theory(DisplayName = "Dissimilarities of every pair of sites agree with vegan 2.6-4, vegdist")]
    [InlineData("dune", 190)]
    [InlineData("BCI", 561)]
    [InlineData("mite35", 595)]
    public void Dissimilarities_of_every_pair_agree_with_vegan(string dataset, int pairs)
    {
        var sites = CheckFile.Community(dataset).ToDictionary(r => r.Site, r => r.Abundances);
        var rows = CheckFile.Table("01_beta.csv").Where(r => r["dataset"] == dataset).ToList();
        rows.Count.ShouldBe(pairs);
        foreach (var row in rows)
        {
            var (a, b) = (sites[row["site_a"]], sites[row["site_b"]]);
            Dissimilarity.BrayCurtis(a, b)!.Value.ShouldBe(CheckFile.Number(row["bray_curtis"]), 1e-12);
            Dissimilarity.Jaccard(a, b)!.Value.ShouldBe(CheckFile.Number(row["jaccard_pa"]), 1e-12);
            Dissimilarity.Sorensen(a, b)!.Value.ShouldBe(CheckFile.Number(row["sorensen_pa"]), 1e-12);
        }
    }

    [Fact(DisplayName = "The mean Sørensen dissimilarity of all BCI plots is 0.3399075 (printed in the vegan diversity vignette, "
        + "section 5.2)")]
    public void The_mean_over_all_pairs_of_plots_agrees_with_the_printed_vignette()
    {
        var plots = CheckFile.Community("BCI");
        var pairs = plots.SelectMany((a, i) => plots.Skip(i + 1).Select(b => Dissimilarity.Sorensen(a.Abundances, b.Abundances)!.Value))
            .ToList();
        pairs.Count.ShouldBe(1225);
        pairs.Average().ShouldBe(0.3399075, 5e-8);
    }

    [Fact]
    public void The_worked_example_of_two_streets_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("dissimilarity");
        var (first, second) = (input.Numbers("first"), input.Numbers("second"));
        Dissimilarity.Sorensen(first, second).ShouldBeNear(expected.Number("sorensen"), 1e-12, "sorensen");
        Dissimilarity.Jaccard(first, second).ShouldBeNear(expected.Number("jaccard"), 1e-12, "jaccard");
        Dissimilarity.BrayCurtis(first, second).ShouldBeNear(expected.Number("brayCurtis"), 1e-12, "bray");
    }

    [Fact]
    public void Two_empty_sites_are_not_compared()
    {
        Dissimilarity.Sorensen([0], [0]).ShouldBeNull();
        Dissimilarity.Jaccard([], []).ShouldBeNull();
        Dissimilarity.BrayCurtis([0], [0]).ShouldBeNull();
        Dissimilarity.BrayCurtis([0], [2]).ShouldBe(1);
    }

    [Fact]
    public void Lists_of_different_taxa_are_refused() =>
        Should.Throw<ArgumentException>(() => Dissimilarity.BrayCurtis([1], [1, 2]));
}
