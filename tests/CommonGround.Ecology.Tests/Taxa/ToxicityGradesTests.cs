using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Taxa;

public class ToxicityGradesTests
{
    private static CatalogueTaxon Of(params ToxicityClass[] classes) => new()
    {
        ScientificName = "Planta nociva",
        ToxicityClasses = classes
    };

    [Fact]
    public void The_gravest_comes_first_whatever_the_order_of_the_row()
    {
        var taxon = Of(ToxicityClass.HarmsPetsOrStock, ToxicityClass.DeadlyToPeople, ToxicityClass.HarmsPetsOrStock);
        ToxicityGrades.Of(taxon).ShouldBe([ToxicityClass.DeadlyToPeople, ToxicityClass.HarmsPetsOrStock]);
        ToxicityGrades.Gravest(taxon).ShouldBe(ToxicityClass.DeadlyToPeople);
    }

    [Fact]
    public void A_note_without_a_class_counts_as_poisonous_and_nothing_known_as_no_class()
    {
        ToxicityGrades.Gravest(new CatalogueTaxon { ScientificName = "Planta nociva", Toxicity = "sap" })
            .ShouldBe(ToxicityClass.PoisonousIfEaten);
        ToxicityGrades.Gravest(Of()).ShouldBeNull();
    }

    [Theory]
    [InlineData(ToxicityClass.DeadlyToPeople, true)]
    [InlineData(ToxicityClass.PoisonousIfEaten, true)]
    [InlineData(ToxicityClass.HarmsSkinOrEyes, true)]
    [InlineData(ToxicityClass.HarmsPetsOrStock, false)]
    public void A_yard_with_small_children_keeps_out_what_harms_people(ToxicityClass harm, bool keptOut)
    {
        ToxicityGrades.IsKeptOut(Of(harm), ToxicityGrades.Children).ShouldBe(keptOut);
        ToxicityGrades.IsKeptOut(Of(harm), ToxicityGrades.ChildrenAndAnimals).ShouldBeTrue();
        ToxicityGrades.IsKeptOut(Of(harm), []).ShouldBeFalse();
    }
}
