using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using CommonGround.Planning.Tests.Conversion;

namespace CommonGround.Planning.Tests.GapFilling;

public class ForageSuggestionsTests
{
    [Fact]
    public void Additions_are_native_sold_suited_harmless_and_each_feeds_somebody_new()
    {
        string[] set = ["Monarda fistulosa", "Rudbeckia hirta", "Taraxacum officinale"];
        var fed = ForageSuggestions.Of(QuarryFlora.Forage, set, new(Light.FullSun, Moisture.Medium, 1.5));
        // The dandelion is no native: its visitors are not the planting's doing.
        fed.Flowering.ShouldBe(2);
        fed.Support.Bees.ShouldBe(QuarryFlora.Forage.Of(set[..2]).Bees);
        fed.Additions.Count.ShouldBe(5);
        fed.Additions.ShouldAllBe(a => a.Taxon.Nativity == Nativity.Native && a.Taxon.Toxicity.Length == 0
            && a.Taxon.Light.Contains(Light.FullSun) && a.Taxon.Moisture.Contains(Moisture.Medium)
            && a.Taxon.HeightForLimits <= 1.5 && a.Taxon.Mix!.Trade == Trade.Usual);
        // Recomputed: bees of the set and the additions so far, taken apart by name.
        var bees = set[..2].SelectMany(QuarryFlora.Forage.RecordedOn).Where(v => v.IsBee).Select(v => v.Name)
            .ToHashSet(StringComparer.Ordinal);
        foreach (var addition in fed.Additions)
        {
            var own = QuarryFlora.Forage.RecordedOn(addition.Taxon.ScientificName).Where(v => v.IsBee).Select(v => v.Name)
                .ToHashSet(StringComparer.Ordinal);
            own.Count(b => !bees.Contains(b)).ShouldBe(addition.Bees);
            bees.UnionWith(own);
        }
    }
}
