using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Taxa;

public class PollinatorEstimateTests
{
    private static CatalogueTaxon Taxon(string name, string family, double? value = null) =>
        new() { ScientificName = name, Family = family, PollinatorValue = value };

    private static readonly CatalogueTaxon[] Studied =
    [
        Taxon("Aster a", "Asteraceae", 0.8), Taxon("Aster b", "Asteraceae", 0.6), Taxon("Liatris a", "Asteraceae", 0.4),
        Taxon("Allium a", "Amaryllidaceae", 0.2), Taxon("Lilium a", "Liliaceae", 0.5), Taxon("Lilium b", "Liliaceae", 0.5),
    ];

    /// <summary>By hand: mean 0.7; s² within genera = (0.02 + 0) / 2, s = 0.1; half = 1.28155 × 0.1 × √1.5 = 0.15696.</summary>
    [Fact]
    public void Two_of_the_genus_speak_for_it()
    {
        var estimate = PollinatorEstimate.Of(Taxon("Aster c", "Asteraceae"), Studied).ShouldNotBeNull();
        (estimate.From, estimate.Count).ShouldBe((Relatives.Genus, 2));
        estimate.Value.ShouldBe(0.7, 1e-12);
        estimate.Low.ShouldBe(0.7 - 0.156957, 1e-6);
        estimate.High.ShouldBe(0.7 + 0.156957, 1e-6);
    }

    /// <summary>By hand: mean 0.6; s² within families = (0.08 + 0) / 3, s = 0.163299; half = 1.28155 × 0.163299 × √(4/3) =
    /// 0.2416517.</summary>
    [Fact]
    public void Without_them_three_of_the_family_do()
    {
        var estimate = PollinatorEstimate.Of(Taxon("Liatris b", "Asteraceae"), Studied).ShouldNotBeNull();
        (estimate.From, estimate.Count).ShouldBe((Relatives.Family, 3));
        estimate.Value.ShouldBe(0.6, 1e-12);
        estimate.Low.ShouldBe(0.6 - 0.2416517, 1e-6);
    }

    /// <summary>By hand: families' means 0.6, 0.2, 0.5, mean 0.43333; variance 0.043333; with 0.026667 within, s = 0.264575; half = 1.28155
    /// × 0.264575 × √(4/3) = 0.3915205.</summary>
    [Fact]
    public void Without_any_the_families_do_each_counted_once()
    {
        var estimate = PollinatorEstimate.Of(Taxon("Rosa a", "Rosaceae"), Studied).ShouldNotBeNull();
        (estimate.From, estimate.Count).ShouldBe((Relatives.AllFamilies, 3));
        estimate.Value.ShouldBe(1.3 / 3, 1e-12);
        estimate.Low.ShouldBe((1.3 / 3) - 0.3915205, 1e-6);
        estimate.High.ShouldBe((1.3 / 3) + 0.3915205, 1e-6);
    }

    [Fact]
    public void The_taxon_itself_and_other_estimates_take_no_part()
    {
        var others = Studied.Append(Taxon("Aster d", "Asteraceae", 0) with { PollinatorLow = 0, PollinatorHigh = 1 })
            .Append(Taxon("Aster c", "Asteraceae", 0));
        PollinatorEstimate.Of(Taxon("Aster c", "Asteraceae", 0), others)!.Value.ShouldBe(0.7, 1e-12);
    }

    [Fact]
    public void With_nothing_to_go_by_there_is_no_estimate()
    {
        PollinatorEstimate.Of(Taxon("Aster c", "Asteraceae"), []).ShouldBeNull();
        PollinatorEstimate.Of(Taxon("Rosa a", "Rosaceae"), Studied[..2]).ShouldBeNull();
    }
}
