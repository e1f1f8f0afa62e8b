using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Phenology;

public class DegreeDaysTests
{
    [Theory(DisplayName = "Averaging and clipping agree with McMaster & Wilhelm 1997, table 1")]
    [InlineData("PH-001")]
    [InlineData("PH-002")]
    [InlineData("PH-004")]
    [InlineData("PH-005")]
    [InlineData("PH-007")]
    [InlineData("PH-008")]
    [InlineData("PH-010")]
    public void Averaging_and_clipping_agree_with_the_published_table(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        DegreeDays.AverageThenZero(i.Number("tmin"), i.Number("tmax"), i.Number("base")).ShouldBe(expected.Number("method1"), 1e-9);
        DegreeDays.ClipThenAverage(i.Number("tmin"), i.Number("tmax"), i.Number("base")).ShouldBe(expected.Number("method2"), 1e-9);
    }

    [Fact]
    public void Averaging_and_clipping_differ_when_the_night_is_below_the_base()
    {
        DegreeDays.AverageThenZero(-5, 10, 0).ShouldBe(2.5);
        DegreeDays.ClipThenAverage(-5, 10, 0).ShouldBe(5);
    }

    [Theory(DisplayName = "Triangle and sine methods agree with Zalom et al. 1983, table 7")]
    [InlineData("PH-Z01")]
    [InlineData("PH-Z03")]
    [InlineData("PH-Z04")]
    [InlineData("PH-Z06")]
    [InlineData("PH-Z07")]
    [InlineData("PH-Z09")]
    [InlineData("PH-Z10")]
    [InlineData("PH-Z12")]
    public void Triangle_and_sine_methods_agree_with_the_published_table(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        double min = i.Number("tmin"), max = i.Number("tmax"), next = i.Number("tminNextDay"), lower = i.Number("lower"),
            upper = i.Number("upper");
        DegreeDays.SingleTriangle(min, max, lower, upper).ShouldBe(expected.Number("singleTriangle"), 0.02);
        DegreeDays.SingleSine(min, max, lower, upper).ShouldBe(expected.Number("singleSine"), 0.02);
        DegreeDays.DoubleSine(min, max, next, lower, upper).ShouldBe(expected.Number("doubleSine"), 0.02);
        if (expected.Optional("doubleTriangle") is { } doubleTriangle)
        {
            DegreeDays.DoubleTriangle(min, max, next, lower, upper).ShouldBe(doubleTriangle, 0.02);
        }
    }

    [Theory(DisplayName = "The single sine without a cap follows Baskerville & Emin 1969 (checks PH-012 and PH-013)")]
    [InlineData("PH-012")]
    [InlineData("PH-013")]
    public void The_single_sine_without_a_cap_follows_the_published_formula(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        DegreeDays.SingleSine(i.Number("tmin"), i.Number("tmax"), i.Number("base")).ShouldBe(expected.Number("dd"), 1e-5);
    }

    [Theory(DisplayName = "The 86/50 method clips before it averages (checks PH-014 and PH-015)")]
    [InlineData("PH-014")]
    [InlineData("PH-015")]
    public void The_86_50_method_clips_before_it_averages(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        DegreeDays.ClipThenAverage(i.Number("tminF"), i.Number("tmaxF"), i.Number("lower"), i.Number("upper"))
            .ShouldBe(expected.Number("gdd"), 1e-9);
    }

    [Theory(DisplayName = "The four-case rule is that of Met Éireann (checks PH-016 and PH-017)")]
    [InlineData("PH-016")]
    [InlineData("PH-017")]
    public void The_four_case_rule_is_the_published_one(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        DegreeDays.FourCases(i.Number("tmin"), i.Number("tmax"), i.Number("base")).ShouldBe(expected.Number("ddAbove"), 1e-9);
    }

    [Fact(DisplayName = "A mean of 64 °F above 53 °F is 11 degree-days (University of California IPM, check PH-011)")]
    public void The_simple_published_example_comes_out()
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", "PH-011");
        DegreeDays.AverageThenZero(i.Number("meanF") - 5, i.Number("meanF") + 5, i.Number("baseF")).ShouldBe(expected.Number("dd"), 1e-9);
    }

    [Fact]
    public void A_day_whose_highest_is_below_its_lowest_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => DegreeDays.AverageThenZero(10, 9, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => DegreeDays.SingleSine(0, 10, 8, 7));
    }
}
