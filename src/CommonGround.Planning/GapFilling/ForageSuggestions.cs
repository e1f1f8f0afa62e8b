using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.GapFilling;

/// <summary>Who feeds on what grows on a site, and which plants that suit it would feed most more.</summary>
public static class ForageSuggestions
{
    /// <summary>Visitors of the native plants of a site, and additions that suit its ground, are sold, and that nothing speaks
    /// against.</summary>
    /// <param name="forage">Who comes to which plant; its catalogue is the choice.</param>
    /// <param name="present">Scientific names of what grows there.</param>
    /// <param name="site">The ground; what is not known rules nothing out.</param>
    /// <param name="count">Additions at most, 0 or more.</param>
    /// <returns>Additions chosen one after the other, not an optimum; see docs/measures.md#visitors.</returns>
    public static FedVisitors Of(ForageIndex forage, IEnumerable<string> present, GrowingSite site, int count = 5)
    {
        ArgumentNullException.ThrowIfNull(forage);
        return forage.Fed(present, forage.Catalogue.Where(t => GapSuggestions.MayBeSuggested(t) && Sold(t)
            && GapSuggestions.Suits(t, site) && SoundPlants.Allows(t, site))
            .Select(t => t.ScientificName), count);
    }

    /// <summary>A herb or shrub that growers sell and good practice does not bar from yards.</summary>
    private static bool Sold(CatalogueTaxon taxon) => taxon.LifeForm is not (LifeForm.Tree or LifeForm.Vine)
        && taxon.Mix is { Trade: Trade.Usual, AdvisedAgainst: AdvisedAgainst.None or AdvisedAgainst.LookalikeNote } mix
        && mix.Role is not (MixRole.Weed or MixRole.WetForb or MixRole.Tree or MixRole.Vine);
}
