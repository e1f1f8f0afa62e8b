using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using CommonGround.Planning.Tests.Conversion;

namespace CommonGround.Planning.Tests.GapFilling;

/// <summary>What is proposed for a gap is what a mix for a bed would be offered; on the real catalogue.</summary>
public sealed class SoundPlantsTests
{
    private static readonly Dictionary<string, CatalogueTaxon> s_taxa =
        QuarryFlora.Catalogue.ToDictionary(t => t.ScientificName, StringComparer.Ordinal);

    // Bidens cernua and B. aristosa are annuals of wet ground (USDA NRCS PLANTS: OBL and FACW), from memory.
    [Theory]
    [InlineData("Bidens cernua", false)]
    [InlineData("Bidens aristosa", false)]
    [InlineData("Symphyotrichum oblongifolium", true)]
    [InlineData("Solidago nemoralis", true)]
    public void Annuals_of_wet_ground_are_not_for_an_ordinary_bed(string name, bool allowed)
    {
        SoundPlants.Allows(s_taxa[name], new(Light.FullSun, Moisture.Medium, 1.5)).ShouldBe(allowed);
        SoundPlants.Allows(s_taxa[name], new(Light.FullSun, null, 1.5)).ShouldBe(allowed);
    }

    [Fact]
    public void Every_suggestion_keeps_to_them_where_traits_are_known()
    {
        var site = new GrowingSite(Light.FullSun, Moisture.Medium, 1.5);
        var found = GapSuggestions.For(QuarryFlora.Catalogue, new HashSet<string>(StringComparer.Ordinal), new int[HalfMonth.Count],
            Season.Default, site, new Dictionary<string, int>(StringComparer.Ordinal), 12, QuarryFlora.Forage);
        found.Count.ShouldBeGreaterThan(5);
        found.ShouldAllBe(s => SoundPlants.Allows(s.Taxon, site));
        // Without traits nothing can be judged: the plants are taken as they come.
        var bare = QuarryFlora.Catalogue.Select(t => t with { Mix = null }).ToList();
        GapSuggestions.For(bare, new HashSet<string>(StringComparer.Ordinal), new int[HalfMonth.Count], Season.Default, site,
            new Dictionary<string, int>(StringComparer.Ordinal), 3).Count.ShouldBe(3);
    }
}
