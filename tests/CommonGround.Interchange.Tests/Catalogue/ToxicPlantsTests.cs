using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Tests.Catalogue;

/// <summary>Whom the shipped plants harm, and that nobody is left without a word about it.</summary>
public class ToxicPlantsTests
{
    private static readonly IReadOnlyList<CatalogueTaxon> Taxa = ShippedCatalogue.Taxa;

    [Fact]
    public void Every_taxon_of_a_class_has_words_a_caution_and_a_source()
    {
        foreach (var taxon in Taxa.Where(t => t.ToxicityClasses.Count > 0))
        {
            taxon.Toxicity.ShouldNotBeEmpty(taxon.ScientificName);
            taxon.Caution.Length.ShouldBeGreaterThan(25, taxon.ScientificName);
            taxon.Sources["toxicity"].ShouldNotBeEmpty(taxon.ScientificName);
        }
    }

    [Fact]
    public void Every_taxon_with_toxic_words_has_a_class() => Taxa.Where(t => t.Toxicity.Length > 0 && t.ToxicityClasses.Count == 0)
    .Select(t => t.ScientificName).ShouldBeEmpty();

    [Fact]
    public void Look_alikes_name_each_other_and_are_in_the_catalogue()
    {
        var byName = Taxa.ToDictionary(t => t.ScientificName, StringComparer.Ordinal);
        foreach (var taxon in Taxa)
            foreach (var other in taxon.LookAlikes)
                byName.ShouldContainKey(other, taxon.ScientificName);
        Taxa.SelectMany(t => t.LookAlikes.Where(o => !byName[o].LookAlikes.Contains(t.ScientificName))
            .Select(o => $"{o} does not name {t.ScientificName}")).ShouldBeEmpty();
    }

    [Fact]
    public void Every_deadly_plant_and_each_plant_taken_for_it_say_so_in_their_cautions()
    {
        var deadly = Taxa.Where(t => t.ToxicityClasses.Contains(ToxicityClass.DeadlyToPeople)).ToList();
        deadly.Count.ShouldBeGreaterThan(20);
        foreach (var taxon in deadly)
        {
            taxon.LookAlikes.ShouldNotBeEmpty(taxon.ScientificName);
            foreach (var other in taxon.LookAlikes.Select(ShippedCatalogue.Of))
            {
                Names(taxon, other).ShouldBeTrue($"{taxon.ScientificName} does not name {other.ScientificName}");
                Names(other, taxon).ShouldBeTrue($"{other.ScientificName} does not name {taxon.ScientificName}");
            }
        }
    }

    /// <summary>University of Illinois Extension 2022 and Gray 1890 call these deadly or poisonous; their classes are from
    /// memory.</summary>
    [Theory]
    [InlineData("Cicuta maculata")]
    [InlineData("Conium maculatum")]
    [InlineData("Datura stramonium")]
    [InlineData("Digitalis purpurea")]
    [InlineData("Taxus cuspidata")]
    [InlineData("Convallaria majalis")]
    public void The_deadly_plants_of_the_Midwest_are_of_the_gravest_class(string name) => ToxicityGrades.Gravest(ShippedCatalogue.Of(name))
    .ShouldBe(ToxicityClass.DeadlyToPeople);

    [Fact]
    public void The_gravest_word_is_not_spent_on_a_plant_that_irritates()
    {
        ToxicityGrades.Gravest(ShippedCatalogue.Of("Parthenium integrifolium")).ShouldBe(ToxicityClass.HarmsSkinOrEyes);
        Taxa.Where(t => !t.ToxicityClasses.Contains(ToxicityClass.DeadlyToPeople)
            && t.Toxicity.StartsWith("deadly", StringComparison.Ordinal)).ShouldAllBe(t => t.Toxicity == "deadly to cats");
    }

    [Fact]
    public void Keeping_children_safe_does_not_keep_out_what_only_livestock_suffer_from()
    {
        var grass = ShippedCatalogue.Of("Sorghastrum nutans");
        ToxicityGrades.IsKeptOut(grass, ToxicityGrades.Children).ShouldBeFalse();
        ToxicityGrades.IsKeptOut(grass, ToxicityGrades.ChildrenAndAnimals).ShouldBeTrue();
    }

    [Fact]
    public void No_caution_tells_anybody_to_eat_a_plant()
    {
        string[] never = ["edible", "can be eaten", "may be eaten", "safe to eat", "delicious", "harmless", "cooked"];
        Taxa.Where(t => never.Any(w => t.Caution.Contains(w, StringComparison.OrdinalIgnoreCase))).Select(t => t.ScientificName)
            .ShouldBeEmpty();
    }

    private static bool Names(CatalogueTaxon taxon, CatalogueTaxon other) => taxon.Caution.Contains(other.ScientificName,
        StringComparison.OrdinalIgnoreCase)
        || other.CommonNames.Any(n => taxon.Caution.Contains(n, StringComparison.OrdinalIgnoreCase));
}
