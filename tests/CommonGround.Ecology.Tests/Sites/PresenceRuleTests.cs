using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Sites;

/// <summary>The rule is common practice; the days are reckoned by hand from its definition with the season April 1–October 31.</summary>
public class PresenceRuleTests
{
    private static readonly DateOnly s_inAugust = new(2026, 8, 19);

    [Theory]
    [InlineData("annual", 2024, 4, 1, true)] // 2025 alone was missed: 2026 is not over
    [InlineData("annual", 2024, 3, 31, false)] // 2024 and 2025 began after it and are over
    [InlineData("biennial", 2023, 10, 31, false)]
    [InlineData("annual|perennial", 2023, 10, 31, true)]
    [InlineData("perennial", 2022, 4, 1, true)] // 2023, 2024, 2025: three
    [InlineData("perennial", 2022, 3, 31, false)]
    [InlineData("", 2022, 4, 1, true)]
    public void A_plant_counts_until_it_has_missed_as_many_whole_seasons_as_the_rule_allows(string duration, int year, int month, int day,
    bool counts)
    {
        var taxon = Neighbourhood.Native() with { Duration = duration };
        (new DateOnly(year, month, day) >= PresenceRule.Default.CountsFrom(taxon, s_inAugust, Season.Default)).ShouldBe(counts);
    }

    [Fact]
    public void A_season_is_over_on_the_day_after_its_last()
    {
        PresenceRule.SeenSince(1, new(2026, 10, 31), Season.Default).ShouldBe(new(2025, 4, 1));
        PresenceRule.SeenSince(1, new(2026, 11, 1), Season.Default).ShouldBe(new(2026, 4, 1));
        PresenceRule.SeenSince(1, new(2027, 3, 31), Season.Default).ShouldBe(new(2026, 4, 1));
    }

    [Fact]
    public void A_longer_rule_and_an_earlier_day_never_count_fewer_plants()
    {
        for (var asOf = new DateOnly(2024, 1, 1); asOf < new DateOnly(2027, 1, 1); asOf = asOf.AddDays(1))
        {
            PresenceRule.SeenSince(2, asOf, Season.Default).ShouldBe(PresenceRule.SeenSince(1, asOf, Season.Default).AddYears(-1));
            PresenceRule.SeenSince(1, asOf, Season.Default).ShouldBeLessThan(asOf);
            PresenceRule.SeenSince(1, asOf.AddDays(1), Season.Default)
                .ShouldBeGreaterThanOrEqualTo(PresenceRule.SeenSince(1, asOf, Season.Default));
        }

        PresenceRule.SeenSince(5000, s_inAugust, Season.Default).ShouldBe(DateOnly.MinValue);
        Should.Throw<ArgumentOutOfRangeException>(() => PresenceRule.SeenSince(0, s_inAugust, Season.Default));
    }

    [Fact]
    public void Trees_and_shrubs_count_as_long_as_perennials_whatever_a_list_calls_them() =>
        new PresenceRule(2, 4).SeasonsOf(Neighbourhood.Native() with { Duration = "annual", LifeForm = LifeForm.Shrub }).ShouldBe(4);
}
