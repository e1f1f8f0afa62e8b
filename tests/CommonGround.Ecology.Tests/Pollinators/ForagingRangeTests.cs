using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Pollinators;

public class ForagingRangeTests
{
    // Greenleaf, Williams, Winfree & Kremen (2007), Oecologia 153:589–596; base-10 logarithms, mm in, km out.
    [Theory(DisplayName = "Foraging ranges follow Greenleaf et al. 2007 (checks PO-002 to PO-004)")]
    [InlineData("PO-002")]
    [InlineData("PO-003")]
    [InlineData("PO-004")]
    public void Foraging_ranges_follow_the_published_regressions(string id)
    {
        var (inputs, expected) = CheckFile.Check("06_pollinator.json", id);
        var span = inputs.Number("IT_mm");
        ForagingRange.MaximumHomingKilometres(span).ShouldBe(expected.Number("maxHoming"), 1e-5);
        ForagingRange.TypicalHomingKilometres(span).ShouldBe(expected.Number("typicalHoming"), 1e-5);
        ForagingRange.MaximumFeederTrainingKilometres(span).ShouldBe(expected.Number("maxFeederTraining"), 1e-5);
        ForagingRange.MaximumCommunicationKilometres(span).ShouldBe(expected.Number("maxCommunication"), 1e-5);
    }

    [Fact(DisplayName = "At 1 mm the ranges are ten to the published intercepts (Greenleaf et al. 2007, check PO-001)")]
    public void At_one_millimetre_only_the_intercept_is_left()
    {
        var (_, expected) = CheckFile.Check("06_pollinator.json", "PO-001");
        var typical = expected.GetProperty("typicalHoming");
        Math.Log10(ForagingRange.TypicalHomingKilometres(1)).ShouldBe(typical.Number("a"), 1e-12);
        Math.Log10(ForagingRange.TypicalHomingKilometres(10)).ShouldBe(typical.Number("a") + typical.Number("b"), 1e-12);
    }

    [Fact(DisplayName = "A small bee's typical range is under 150 m: the units are right (check PO-005)")]
    public void A_small_bee_stays_close()
    {
        var (inputs, expected) = CheckFile.Check("06_pollinator.json", "PO-005");
        (1000 * ForagingRange.TypicalHomingKilometres(inputs.Number("IT_mm"))).ShouldBe(expected.Number("typicalHoming_m"), 0.01);
    }

    [Fact]
    public void A_span_of_nothing_is_refused() => Should.Throw<ArgumentOutOfRangeException>(() => ForagingRange.TypicalHomingKilometres(0));
}
