using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Pollinators;

public class ForageIndexTests
{
    // Three bees, the honey bee and two kinds of one fly genus. Early and late flower in half-months 8–9 and 15–16.
    private static readonly VisitorRecords Records = new(
        [new("Andrena prima", "", "bees", "Andrenidae"), new("Bombus alter", "Bremus alter", "bees", "Apidae"),
            new("Colletes tertius", "", "bees", "Colletidae"), new("Apis mellifera", "", "bees", "Apidae"),
            new("Eristalis una", "", "hover flies", ""), new("Eristalis altera", "", "hover flies", "")],
        [new("Flos verus", "Flos verus", "", [0, 1, 3, 4]), new("Flos serus", "Flos serus", "", [1, 2, 5]),
            new("Herba", "Herba alia", "", [0]), new("Old name", "", "nobody could say", [2])]);

    private static readonly ForageIndex Index = new(Records,
        [Plant("Flos verus", 8, 9, "Rosaceae"), Plant("Flos serus", 15, 16, "Rosaceae"), Plant("Herba alia", 8, 9, "Apiaceae"),
            Plant("Flos novus", 8, 9, "Rosaceae"), Plant("Planta nulla", 8, 9, "Liliaceae")]);

    [Fact]
    public void Who_has_one_plant_and_who_has_two_by_half_month_worked_by_hand()
    {
        var support = Index.Of(["Flos verus", "Flos serus", "Herba alia", "Nobody", "Flos verus"]);
        // Bees: prima on two, alter on two, tertius on one; the honey bee never counts. Flies: two kinds.
        (support.Bees, support.BeesTwice, support.Visitors).ShouldBe((3, 2, 5));
        // Early: prima twice, alter once and one fly; in 10 nothing flowers; late: alter, tertius and the other fly.
        support.HalfMonths[8].ShouldBe(new HalfMonthVisitors(3, 1, 2, 1));
        support.HalfMonths[10].ShouldBe(default);
        support.HalfMonths[15].ShouldBe(new HalfMonthVisitors(3, 0, 2, 0));
        support.ByGroup.ShouldBe(new Dictionary<string, int> { ["bees"] = 3, ["hover flies"] = 2 }, ignoreOrder: true);
        support.Recorded.ShouldBe(3);
    }

    [Fact]
    public void What_would_feed_most_more_is_counted_one_after_the_other()
    {
        var fed = Index.Fed(["Herba alia", "Nobody"], ["Flos verus", "Flos serus", "Planta nulla"], 5);
        fed.Support.Bees.ShouldBe(1);
        fed.Plants.Select(p => p.Taxon.ScientificName).ShouldBe(["Herba alia"]);
        fed.Plants[0].Kinds.ShouldBe(new Dictionary<string, int> { ["bees"] = 1 });
        // Serus brings two bees and a fly; after it verus has only one fly more. Nulla brings nothing and is not named.
        fed.Additions.Select(a => (a.Taxon.ScientificName, a.Bees, a.Visitors)).ShouldBe([("Flos serus", 2, 3), ("Flos verus", 0, 1)]);
        Index.Fed([], [], 0).Flowering.ShouldBe(0);
    }

    [Fact]
    public void A_bee_of_two_plants_of_one_family_is_a_specialist()
    {
        Index.Of(["Flos verus"]).Specialists.ShouldBe(["Bombus alter"]);
        Index.Units.Single(u => u.Key == "Andrena prima").IsSpecialist.ShouldBeFalse();
        Index.Units.ShouldNotContain(u => u.Key == "Apis mellifera");
        Index.Units.Count(u => u.Key == "Eristalis").ShouldBe(1);
    }

    [Fact]
    public void A_blank_plant_is_worth_what_its_genus_says_and_never_as_much_as_a_record()
    {
        Index.BasisOf("Flos novus").ShouldBe(VisitorBasis.FromGenus);
        // Two plants of the genus: alter comes to both (5 × 1), prima, tertius and the flies to one of two (5 × ½, rounded to even).
        var weights = Index.Weights[Index.PositionOf("Flos novus")].ToDictionary(w => Index.Units[w.Key].Key, w => w.Value);
        weights.ShouldBe(new Dictionary<string, int>
        {
            ["Bombus alter"] = 5,
            ["Andrena prima"] = 2,
            ["Colletes tertius"] = 2,
            ["Eristalis"] = 5
        }, ignoreOrder: true);
        Index.BasisOf("Planta nulla").ShouldBe(VisitorBasis.Unknown);
        Index.Weights[Index.PositionOf("Planta nulla")].ShouldBeEmpty();
        // Estimates never enter the counts.
        Index.Of(["Flos novus"]).Visitors.ShouldBe(0);
        (Index.Of(["Flos novus"]).Estimated, Index.Of(["Planta nulla"]).Blank).ShouldBe((1, 1));
    }

    [Fact]
    public void What_would_feed_most_more_comes_first()
    {
        var more = Index.Additions(["Flos verus"], ["Flos serus", "Herba alia", "Planta nulla", "Flos verus"]);
        more.Select(a => (a.Taxon.ScientificName, a.Visitors, a.Bees, a.BeesTwice))
            .ShouldBe([("Flos serus", 2, 1, 2), ("Herba alia", 0, 0, 1)]);
        Index.Of([]).Visitors.ShouldBe(0);
    }

    private static CatalogueTaxon Plant(string name, int from, int to, string family) => new()
    {
        ScientificName = name,
        Family = family,
        Bloom = new BloomWindow(from, to),
        Nativity = Nativity.Native
    };
}
