using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.GapFilling;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>A plant that stands first in the yard's list for its gaps is not left out of the plan without a word.</summary>
public sealed class GapPlantWordsTests
{
    private static readonly ConversionRequest Request = QuarryFlora.Request(132);
    private static readonly Lazy<ConversionMix> Mix = new(() => QuarryFlora.Solve(Request, Effort.Quick).Mix!);

    [Fact]
    public void Every_listed_plant_that_is_not_planned_has_its_reason()
    {
        var gaps = QuarryFlora.Catalogue.Where(t => t.Nativity == Nativity.Native && t.Bloom is not null)
            .Select(t => new GapSuggestion(t, [], [15, 16], 0)).ToList();
        var words = GapPlantWords.LeftOut(gaps, Request, Mix.Value);
        words.Count.ShouldBe(gaps.Count(g => Mix.Value.Taxa.All(t => t.Taxon != g.Taxon)));
        words.ShouldAllBe(w => w.EndsWith('.') && w.Contains("is not in this plan: "));
    }

    [Fact]
    public void A_plant_that_suits_and_one_that_does_not_have_different_reasons_and_planned_or_unwanted_ones_none()
    {
        var planned = Mix.Value.Taxa.First(t => t.Taxon.Bloom is not null).Taxon;
        var suits = ConversionCandidates.Of(Request, QuarryFlora.Catalogue).Suitable.Select(c => c.Taxon)
            .First(t => t.Bloom is { } b && b.Contains(16) && Mix.Value.Taxa.All(m => m.Taxon != t));
        var wet = QuarryFlora.Taxon("Lobelia cardinalis");
        GapSuggestion Gap(CatalogueTaxon taxon) => new(taxon, [16], [16], 0);
        var words = GapPlantWords.LeftOut([Gap(suits), Gap(planned), Gap(wet)], Request, Mix.Value);
        words.Count.ShouldBe(2);
        words[0].ShouldContain("first in this yard’s list");
        words[0].ShouldContain("it suits, but");
        words[0].ShouldEndWith("Name it under “Must be in” to have it.");
        words[1].ShouldContain("third in this yard’s list");
        words[1].ShouldContain("wants other soil moisture");
        GapPlantWords.LeftOut([Gap(suits)], Request with { Never = [suits.ScientificName] }, Mix.Value).ShouldBeEmpty();
    }
}
