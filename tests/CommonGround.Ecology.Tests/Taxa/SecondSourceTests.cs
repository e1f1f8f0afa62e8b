using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Taxa;

public class SecondSourceTests
{
    private static CatalogueTaxon Tall(double? first, double? second) => new()
    {
        ScientificName = "Planta alta",
        HeightMaxMetres = first,
        HeightSecondMetres = second
    };

    private static CatalogueTaxon Flowering(int start, int end, int from, int to) => new()
    {
        ScientificName = "Planta florens",
        Bloom = new BloomWindow(start, end),
        BloomSecond = new BloomWindow(from, to)
    };

    [Theory]
    [InlineData(1.0, 1.4, false)]
    [InlineData(1.0, 1.41, true)]
    [InlineData(1.4, 1.0, false)]
    [InlineData(2.0, 1.0, true)]
    [InlineData(3.0, 3.0, false)]
    public void Two_sizes_disagree_beyond_a_factor_of_1_4_either_way(double first, double second, bool disagree) =>
    SecondSource.Disagree(first, second).ShouldBe(disagree);

    [Theory]
    [InlineData(1.5, 3.05, 3.05)]
    [InlineData(3.6, 1.5, 3.6)]
    [InlineData(1.2, 1.5, 1.2)]
    [InlineData(1.2, null, 1.2)]
    [InlineData(null, 2.0, null)]
    public void A_limit_reckons_with_the_taller_of_two_that_disagree(double? first, double? second, double? expected) =>
    Tall(first, second).HeightForLimits.ShouldBe(expected);

    [Fact]
    public void A_height_without_a_second_source_is_not_called_doubtful()
    {
        SecondSource.HeightIsDoubtful(Tall(1.2, null)).ShouldBeFalse();
        SecondSource.HeightIsDoubtful(Tall(null, 1.2)).ShouldBeFalse();
        SecondSource.HeightIsDoubtful(Tall(1.2, 0.6)).ShouldBeTrue();
    }

    [Theory]
    [InlineData(10, 15, 14, 15, true)] // two months before a flora that prints August
    [InlineData(12, 15, 14, 15, false)] // one month before
    [InlineData(14, 19, 14, 15, true)] // two months after
    [InlineData(14, 17, 14, 15, false)]
    [InlineData(10, 11, 4, 17, false)] // inside a wide flora's months
    [InlineData(12, 13, 14, 15, true)] // next to them and never within
    [InlineData(22, 1, 23, 2, false)] // over the turn of the year
    [InlineData(18, 1, 22, 1, true)]
    public void A_window_is_doubtful_beyond_a_month_or_with_nothing_in_common(int start, int end, int from, int to, bool doubtful) =>
        SecondSource.BloomIsDoubtful(Flowering(start, end, from, to)).ShouldBe(doubtful);

    [Fact]
    public void A_window_that_no_flora_prints_is_not_called_doubtful() =>
        SecondSource.BloomIsDoubtful(new CatalogueTaxon { ScientificName = "Planta florens", Bloom = new BloomWindow(3, 4) })
            .ShouldBeFalse();
}
