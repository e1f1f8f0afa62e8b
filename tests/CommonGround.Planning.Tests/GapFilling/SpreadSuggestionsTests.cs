using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using CommonGround.Planning.Tests.Conversion;

namespace CommonGround.Planning.Tests.GapFilling;

/// <summary>Many places at once, on the real catalogue: nowhere the same three.</summary>
public sealed class SpreadSuggestionsTests
{
    private static readonly IReadOnlyDictionary<string, int> s_nowhere = new Dictionary<string, int>(StringComparer.Ordinal);
    private static readonly Season s_late = Season.Default with { First = Season.Default.LateFrom };

    private static IReadOnlyList<GapSite> Sites(int count) => [.. Enumerable.Range(0, count).Select(i => new GapSite($"block {i}",
        new HashSet<string>(StringComparer.Ordinal), new int[HalfMonth.Count],
        new(i % 2 == 0 ? Light.FullSun : Light.PartShade, i % 3 == 0 ? Moisture.Dry : Moisture.Medium, 1.5)))];

    [Fact]
    public void No_plant_stands_in_more_sets_than_allowed_and_each_suits_its_ground_and_the_late_season()
    {
        var sites = Sites(9);
        var sets = SpreadSuggestions.Of(QuarryFlora.Catalogue, sites, s_late, s_nowhere, count: 2, most: 2, QuarryFlora.Forage);
        sets.Count.ShouldBe(9);
        sets.Values.SelectMany(s => s).GroupBy(s => s.Taxon.ScientificName).ShouldAllBe(g => g.Count() <= 2);
        foreach (var site in sites)
        {
            sets[site.Key].Count.ShouldBeLessThanOrEqualTo(2);
            sets[site.Key].ShouldAllBe(s => GapSuggestions.Suits(s.Taxon, site.Ground) && SoundPlants.Allows(s.Taxon, site.Ground)
                && s.Helps.Count > 0 && s.Helps.All(t => t >= s_late.LateFrom));
        }
    }

    [Fact]
    public void The_first_place_chooses_as_if_it_were_alone_and_the_answer_is_always_the_same()
    {
        var alone = GapSuggestions.For(QuarryFlora.Catalogue, new HashSet<string>(StringComparer.Ordinal), new int[HalfMonth.Count], s_late,
            Sites(1)[0].Ground, s_nowhere, 3, QuarryFlora.Forage);
        string[] Names(IEnumerable<GapSuggestion> set) => [.. set.Select(s => s.Taxon.ScientificName)];
        var once = SpreadSuggestions.Of(QuarryFlora.Catalogue, Sites(4), s_late, s_nowhere, 3, 1, QuarryFlora.Forage);
        var again = SpreadSuggestions.Of(QuarryFlora.Catalogue, Sites(4), s_late, s_nowhere, 3, 1, QuarryFlora.Forage);
        Names(once["block 0"]).ShouldBe(Names(alone));
        foreach (var key in once.Keys)
        {
            Names(again[key]).ShouldBe(Names(once[key]));
        }
    }

    [Fact]
    public void Places_of_one_group_get_no_plant_twice()
    {
        var group = Sites(1)[0];
        var sets = SpreadSuggestions.Of(QuarryFlora.Catalogue,
            Enumerable.Range(0, 3).Select(i => group with { Key = $"yard {i}", Group = "block" }), s_late, s_nowhere, 2, 9,
            QuarryFlora.Forage);
        sets.Values.Count(s => s.Count > 0).ShouldBe(3);
        sets.Values.SelectMany(s => s).Select(s => s.Taxon.ScientificName).ShouldBeUnique();
    }

    [Fact]
    public void No_place_no_sets() =>
        SpreadSuggestions.Of(QuarryFlora.Catalogue, [], s_late, s_nowhere, 2, 2).ShouldBeEmpty();
}
