using CommonGround.Ecology.Invasives;

namespace CommonGround.Ecology.Tests.Invasives;

public class OutlookBandTests
{
    private static readonly SpreadFacts s_facts = new(new(1, 10, 100), "", new(0.2, 0.5, 0.9), null, "");

    [Fact]
    public void Untreated_without_a_seed_bank_it_is_the_closed_logistic()
    {
        // Verhulst (1838): A(t) = K / (1 + (K/A₀ − 1)·e^(−rt)).
        var band = InfestationOutlooks.Of(10, 200, s_facts, [.. Enumerable.Repeat(false, 10)], new(0.5, 0.8, 0.9), 0.3, 0.5);
        foreach (var year in band.Mid)
        {
            year.AreaSquareMetres.ShouldBe(200 / (1 + (19 * Math.Exp(-0.5 * year.Year))), 1e-9);
        }

        band.Low.Zip(band.Mid, band.High).ShouldAllBe(y => y.First.AreaSquareMetres <= y.Second.AreaSquareMetres
            && y.Second.AreaSquareMetres <= y.Third.AreaSquareMetres);
        band.Hours.ShouldAllBe(h => h == 0);
        // 10 m² doubles when 19·e^(−0.5t) ≤ 9: t = 1.49, so in year 2.
        InfestationOutlooks.YearsToTwice(band.Mid).ShouldBe(2);
    }

    [Fact]
    public void Treated_and_not_growing_it_decays_by_what_is_left_each_year()
    {
        var still = s_facts with { GrowthPerYear = new(0, 0, 0) };
        var band = InfestationOutlooks.Of(10, 200, still, [true, true, true], new(0.5, 0.8, 0.9), 0.3, 0.5);
        band.Mid.Select(y => Math.Round(y.AreaSquareMetres, 9)).ShouldBe([10, 2, 0.4, 0.08]);
        // 10 m² at half cover: 5 m² dense, 0.3 hours for ten: 0.15 hours.
        band.Hours[0].ShouldBe(0.15, 1e-12);
        InfestationOutlooks.YearsToTwice(band.Mid).ShouldBeNull();
    }
}
