using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.GapFilling;

/// <summary>A native taxon that would flower where too little does.</summary>
/// <param name="Taxon">The catalogue row.</param>
/// <param name="Closes">Half-months, 0–23, that reach the norm with this taxon and those suggested before it.</param>
/// <param name="Helps">Half-months, 0–23, still short of the norm in which it flowers, those it closes included.</param>
/// <param name="PlacesNearby">Yards round about that grow it already, as the caller counted them.</param>
public sealed record GapSuggestion(CatalogueTaxon Taxon, IReadOnlyList<int> Closes, IReadOnlyList<int> Helps, int PlacesNearby);

/// <summary>The ground a planting would stand on; null where it is not known, which rules nothing out.</summary>
/// <param name="TallestMetres">Tallest plant wanted, m.</param>
public sealed record GrowingSite(Light? Light, Moisture? Moisture, double? TallestMetres);

/// <summary>First suggestions for closing bloom gaps: chosen one after the other, not an optimum.</summary>
public static class GapSuggestions
{
    /// <summary>Native taxa with a lower C come in by themselves; nobody needs to plant them. Our own convention.</summary>
    public const double LowestC = 2;

    /// <summary>Native taxa that are not there yet, suit the ground and flower in a gap; each is chosen as if those before it were
    /// planted.</summary>
    /// <param name="catalogue">All taxa, order irrelevant.</param>
    /// <param name="present">Scientific names of what grows there already.</param>
    /// <param name="inFlower">Native taxa in flower there by half-month, 24 entries.</param>
    /// <param name="season">Which half-months count and what covers one.</param>
    /// <param name="site">The ground.</param>
    /// <param name="placesNearby">Yards round about that grow a taxon, by scientific name; a missing name is 0.</param>
    /// <param name="count">How many at most, 1 or more.</param>
    /// <param name="forage">Who comes to which plant; null where there is no record.</param>
    /// <returns>Empty when there is no gap or nothing suits; fewer than <paramref name="count"/> when the gaps are closed before.</returns>
    /// <remarks>
    /// Each step takes the first by: late-season half-months closed, all closed, late-season half-months helped, all helped, kinds of bees
    /// that have nothing there yet (without a record of visitors the pollinator value, unknown last), yards nearby (seed is at hand, and
    /// it is known to grow here), name. Left out: taxa with a toxicity note, with an impact rank, with C below <see cref="LowestC"/>, and
    /// what good practice keeps out of a mix on such ground (<see cref="SoundPlants"/>), where traits of mixes are known. Our own
    /// convention; see docs/measures.md#suggestions.
    /// </remarks>
    public static IReadOnlyList<GapSuggestion> For(
        IEnumerable<CatalogueTaxon> catalogue, IReadOnlySet<string> present, IReadOnlyList<int> inFlower, Season season, GrowingSite site,
        IReadOnlyDictionary<string, int> placesNearby, int count, ForageIndex? forage = null)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(season);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        if (inFlower.Count != HalfMonth.Count)
        {
            throw new ArgumentException("There are 24 half-months.", nameof(inFlower));
        }

        // Traits of mixes come with the record of visitors; a catalogue that has none cannot be judged by them.
        List<CatalogueTaxon> all = [.. forage?.Catalogue ?? catalogue];
        var judged = all.Exists(t => t.Mix is not null);
        var left = all.Where(t => MayBeSuggested(t) && t.Bloom is not null && !present.Contains(t.ScientificName) && Suits(t, site)
            && (!judged || SoundPlants.Allows(t, site))).ToList();
        var now = inFlower.ToArray();
        var chosen = new List<GapSuggestion>();
        var there = present.ToHashSet(StringComparer.Ordinal);
        while (chosen.Count < count && Best(left, now, season, placesNearby, t => Worth(t, there, forage)) is { } best)
        {
            chosen.Add(best);
            there.Add(best.Taxon.ScientificName);
            left.Remove(best.Taxon);
            for (var t = 0; t < now.Length; t++)
            {
                now[t] += best.Taxon.Bloom!.Value.Contains(t) ? 1 : 0;
            }
        }

        return chosen;
    }

    /// <summary>Whether a taxon's known range holds the ground. A range nobody has given does not count as suiting.</summary>
    public static bool Suits(CatalogueTaxon taxon, GrowingSite site)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(site);
        return (site.Light is not { } light || taxon.Light.Contains(light))
            && (site.Moisture is not { } moisture || taxon.Moisture.Contains(moisture))
            && (site.TallestMetres is not { } tallest || taxon.HeightForLimits <= tallest);
    }

    /// <summary>Native, no harm known, no spreader, and not one that comes by itself.</summary>
    public static bool MayBeSuggested(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        return taxon is { Nativity: Nativity.Native, ImpactRank: ImpactRank.Unranked, Toxicity: "" } && taxon.C is null or >= LowestC;
    }

    /// <summary>Kinds of bees that a plant would feed anew; without a record its pollinator value, −1 where that is unknown.</summary>
    private static double Worth(CatalogueTaxon taxon, HashSet<string> there, ForageIndex? forage) =>
        forage is null ? taxon.PollinatorValue ?? -1 : forage.Additions(there, [taxon.ScientificName], 1) is [var one] ? one.Bees : 0;

    private static GapSuggestion? Best(List<CatalogueTaxon> left, int[] now, Season season, IReadOnlyDictionary<string, int> placesNearby,
        Func<CatalogueTaxon, double> worth)
    {
        int[] gaps = [.. Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => now[t] < season.Norm)];
        return left.Select(t => Suggest(t, gaps, now, season, placesNearby.GetValueOrDefault(t.ScientificName)))
            .Where(s => s.Helps.Count > 0)
            .OrderByDescending(s => s.Closes.Count(t => t >= season.LateFrom)).ThenByDescending(s => s.Closes.Count)
            .ThenByDescending(s => s.Helps.Count(t => t >= season.LateFrom)).ThenByDescending(s => s.Helps.Count)
            .ThenByDescending(s => worth(s.Taxon)).ThenByDescending(s => s.PlacesNearby).ThenBy(s => s.Taxon.ScientificName,
            StringComparer.Ordinal)
            .FirstOrDefault();
    }

    private static GapSuggestion Suggest(CatalogueTaxon taxon, int[] gaps, int[] now, Season season, int nearby)
    {
        int[] helps = [.. gaps.Where(t => taxon.Bloom!.Value.Contains(t))];
        return new GapSuggestion(taxon, [.. helps.Where(t => now[t] == season.Norm - 1)], helps, nearby);
    }
}
