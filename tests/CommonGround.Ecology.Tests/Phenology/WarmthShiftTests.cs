using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Tests.Phenology;

public class WarmthShiftTests
{
    // Monthly means of a place like northern Illinois, °C; from memory of its published normals 1991–2020.
    private static readonly double[] s_usual = [-4, -2, 4, 10, 16, 21, 24, 23, 19, 12, 5, -1];
    private const int MiddleOfMay = 135;

    [Fact]
    public void A_year_like_the_usual_one_moves_nothing() =>
        WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual), WarmthShift.OfYear(s_usual, [.. s_usual.Cast<double?>()]), MiddleOfMay)
            .ShouldBe(0);

    [Fact]
    public void A_degree_more_moves_spring_flowers_by_two_to_eight_days()
    {
        // Spring flowering in the temperate north answers to a degree with about 2 to 6 days: Menzel and others 2006; Cook, Wolkovich and
        // Parmesan 2012; both from memory.
        var warm = WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual),
            WarmthShift.OfYear(s_usual, [.. s_usual.Select(c => (double?)(c + 1))]), MiddleOfMay)!.Value;
        var cold = WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual),
            WarmthShift.OfYear(s_usual, [.. s_usual.Select(c => (double?)(c - 1))]), MiddleOfMay)!.Value;
        warm.ShouldBeInRange(-8, -2);
        cold.ShouldBeInRange(2, 8);
    }

    [Fact]
    public void A_year_that_has_not_got_there_is_judged_by_how_far_it_is()
    {
        double?[] untilApril = [-1, 1, 7, 13, null, null, null, null, null, null, null, null];
        var year = WarmthShift.OfYear(s_usual, untilApril);
        year.Count.ShouldBe(120);
        WarmthShift.DaysLater(WarmthShift.OfMonths(s_usual), year, 200).ShouldBeNull();
        WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual), year, 200)!.Value.ShouldBeLessThan(-5);
    }

    [Fact]
    public void Nothing_gathered_says_nothing()
    {
        WarmthShift.DaysLater([5, 5, 5], [1, 1], 3).ShouldBeNull();
        WarmthShift.DaysLater([0, 0, 5], [0, 0, 5], 2).ShouldBeNull();
        WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual), WarmthShift.OfYear(s_usual, new double?[12]), MiddleOfMay).ShouldBeNull();
        WarmthShift.DaysLaterSoFar(WarmthShift.OfMonths(s_usual), WarmthShift.OfYear(s_usual, [-5, .. new double?[11]]), MiddleOfMay)
            .ShouldBeNull();
        Should.Throw<ArgumentException>(() => WarmthShift.OfMonths([1, 2]));
    }

    [Fact]
    public void A_month_left_out_counts_as_usual()
    {
        double?[] gap = [-4, null, 4, 10, 16, 21, 24, 23, 19, 12, 5, -1];
        WarmthShift.OfYear(s_usual, gap).ShouldBe(WarmthShift.OfMonths(s_usual));
    }
}
