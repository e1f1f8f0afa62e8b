using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.GapFilling;

/// <summary>A place whose gaps are to be closed.</summary>
/// <param name="Key">Names it; unique.</param>
/// <param name="Present">Scientific names of what grows there.</param>
/// <param name="InFlower">Native taxa in flower there, 24 half-months.</param>
/// <param name="Ground">Its light and moisture.</param>
public sealed record GapSite(string Key, IReadOnlySet<string> Present, IReadOnlyList<int> InFlower, GrowingSite Ground)
{
    /// <summary>Places of one group get no plant twice; empty for a place of no group.</summary>
    public string Group { get; init; } = "";
}

/// <summary>Plants for many places at once, so that a neighbourhood does not plant the same three everywhere.</summary>
public static class SpreadSuggestions
{
    /// <summary>A set of plants for each place, in the order given; no plant stands in more than a few sets.</summary>
    /// <param name="catalogue">All taxa, order irrelevant.</param>
    /// <param name="sites">The places; the first choose first.</param>
    /// <param name="season">Which half-months count and what covers one.</param>
    /// <param name="placesNearby">Yards that grow a taxon, by scientific name.</param>
    /// <param name="count">Plants of a place at most, 1 or more.</param>
    /// <param name="most">Places that a plant is proposed for at most, 1 or more.</param>
    /// <param name="forage">Who comes to which plant; null where there is no record.</param>
    /// <returns>By key; an empty set where nothing that is left suits or there is no gap. Same input, same answer.</returns>
    /// <remarks>Each set is chosen as <see cref="GapSuggestions.For"/> chooses; our own convention, see
    /// docs/measures.md#suggestions.</remarks>
    public static IReadOnlyDictionary<string, IReadOnlyList<GapSuggestion>> Of(IEnumerable<CatalogueTaxon> catalogue,
        IEnumerable<GapSite> sites, Season season, IReadOnlyDictionary<string, int> placesNearby, int count, int most,
        ForageIndex? forage = null)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(sites);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        List<CatalogueTaxon> all = [.. catalogue];
        var used = new Dictionary<string, int>(StringComparer.Ordinal);
        var ofGroup = new HashSet<(string Group, string Name)>();
        var sets = new Dictionary<string, IReadOnlyList<GapSuggestion>>(StringComparer.Ordinal);
        foreach (var site in sites)
        {
            var barred = site.Present.Concat(used.Where(u => u.Value >= most).Select(u => u.Key))
                .Concat(ofGroup.Where(g => g.Group == site.Group).Select(g => g.Name))
                .ToHashSet(StringComparer.Ordinal);
            var set = GapSuggestions.For(all, barred, site.InFlower, season, site.Ground, placesNearby, count, forage);
            foreach (var name in set.Select(s => s.Taxon.ScientificName))
            {
                used[name] = used.GetValueOrDefault(name) + 1;
                if (site.Group.Length > 0) ofGroup.Add((site.Group, name));
            }

            sets.Add(site.Key, set);
        }

        return sets;
    }
}
