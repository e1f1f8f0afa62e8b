using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Tests.Published;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Invasives;

public class SeedBankTests
{
    [Fact(DisplayName = "Half of buried tree-of-heaven seed alive after 24 months is a half-life of two years (Redwood et al. 2019, check "
        + "IN-004)")]
    public void Half_the_seed_alive_after_two_years_is_a_half_life_of_two_years()
    {
        var percent = CheckFile.Check("08_invasive.json", "IN-004").Expected.Number("survivalPctAfter24Months");
        (100 * Math.Pow(SeedBank.AnnualSurvival(2), 2)).ShouldBe(percent, 1e-9);
        SeedBank.FollowUpYearsForHalfLife(2).ShouldBe(9); // ln 0.05 / ln √½ = 8.64
    }

    [Fact]
    public void The_worked_example_of_a_treated_patch_comes_out()
    {
        var (i, expected) = CheckFile.WorkedExample("infestation-forecast");
        var outlook = new InfestationOutlook(
            i.Number("areaSquareMetres"), i.Number("capacitySquareMetres"), i.Number("growthPerYear"), i.Number("seedBankHalfLifeYears"),
                i.Number("recruitmentPerYear"));
        var years = InfestationForecast.Of(outlook, i.Numbers("efficacies"));
        var answers = expected.GetProperty("years").EnumerateArray().ToList();
        years.Count.ShouldBe(answers.Count);
        foreach (var (year, answer) in years.Zip(answers))
        {
            year.AreaSquareMetres.ShouldBeNear(answer[0].GetDouble(), 1e-12, $"area in year {year.Year}");
            year.SeedBankSquareMetres.ShouldBeNear(answer[1].GetDouble(), 1e-12, $"bank in year {year.Year}");
        }

        SeedBank.AnnualSurvival(4).ShouldBeNear(expected.Number("annualSurvival"), 1e-12, "survival");
        SeedBank.FollowUpYearsForHalfLife(4).ShouldBe((int)expected.Number("followUpYears"));
    }

    [Theory]
    [InlineData(0.5, 5)] // ln 0.05 / ln 0.5 = 4.32
    [InlineData(0.05, 1)]
    [InlineData(0.9, 29)] // 28.43
    [InlineData(0, 0)]
    public void Follow_up_years_are_rounded_up(double annualSurvival, int years) => SeedBank.FollowUpYears(annualSurvival).ShouldBe(years);

    [Fact]
    public void An_unknown_half_life_gives_no_follow_up_time_and_an_impossible_one_is_refused()
    {
        SeedBank.FollowUpYearsForHalfLife(null).ShouldBeNull();
        Should.Throw<ArgumentOutOfRangeException>(() => SeedBank.FollowUpYears(1));
        Should.Throw<ArgumentOutOfRangeException>(() => SeedBank.AnnualSurvival(0));
    }

    [Fact(DisplayName = "Without a seed bank and treatment an infestation follows the logistic curve (Verhulst 1838)")]
    public void Untreated_growth_follows_the_logistic_curve()
    {
        var years = InfestationForecast.Of(new(5, 200, 0.4, null, 0.1), new double[10]);
        foreach (var year in years)
        {
            year.AreaSquareMetres.ShouldBeNear(200 / (1 + ((200 - 5) / 5.0 * Math.Exp(-0.4 * year.Year))), 1e-12, $"year {year.Year}");
            year.SeedBankSquareMetres.ShouldBe(0);
        }
    }

    [Fact]
    public void Treatment_takes_plants_but_not_the_seed_bank()
    {
        var outlook = new InfestationOutlook(10, 100, 0.5, 3, 0.1);
        var cleared = InfestationForecast.Of(outlook, [1]);
        cleared[1].AreaSquareMetres.ShouldBeNear(1, 1e-12, "seedlings from the bank");
        cleared[1].SeedBankSquareMetres.ShouldBeNear(10 * Math.Pow(2, -1 / 3.0), 1e-12, "bank");
        InfestationForecast.Of(outlook with { SeedBankHalfLifeYears = null }, [1])[1].AreaSquareMetres.ShouldBe(0);
    }

    [Property]
    public void More_treatment_puts_less_seed_in_the_ground_and_the_ground_is_never_overfilled(int seed)
    {
        var random = new Random(seed);
        var outlook = new InfestationOutlook(50 * random.NextDouble(), 60, 2 * random.NextDouble(), 0.5 + (5 * random.NextDouble()),
            random.NextDouble());
        double[] some = [.. Enumerable.Range(0, 8).Select(_ => 0.5 * random.NextDouble())];
        var less = InfestationForecast.Of(outlook, some);
        var more = InfestationForecast.Of(outlook, [.. some.Select(e => e + 0.4)]);
        less.ShouldAllBe(y => y.AreaSquareMetres >= 0 && y.AreaSquareMetres <= 60);
        more.ShouldAllBe(y => y.AreaSquareMetres >= 0 && y.AreaSquareMetres <= 60);
        more[1].SeedBankSquareMetres.ShouldBeLessThanOrEqualTo(less[1].SeedBankSquareMetres + 1e-12);
    }

    [Fact]
    public void An_area_above_the_capacity_is_refused() =>
        Should.Throw<ArgumentException>(() => InfestationForecast.Of(new(10, 5, 0.5, null, 0), [0]));
}
