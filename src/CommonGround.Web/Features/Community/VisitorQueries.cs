using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Features.Community;

/// <summary>Recorded visitors of one plant.</summary>
/// <param name="Named">Kinds by group, the largest group first; names in the order of the alphabet. Empty where nothing is written
/// down.</param>
/// <param name="Basis">Whether the plant itself is in the record, or only relatives.</param>
public sealed record PlantVisitorNames(FedVisitors Fed, IReadOnlyList<(string Group, IReadOnlyList<string> Names)> Named,
    VisitorBasis Basis);

/// <summary>Who feeds on what grows: on a plant, in a yard, on a block, on a street. One engine answers for all.</summary>
public sealed class VisitorQueries(PlantKnowledge plants, LiveCommunity live)
{
    /// <summary>Who comes to which plant of a catalogue.</summary>
    public ForageIndex Of(IReadOnlyList<CatalogueTaxon> catalogue) => plants.Of(catalogue).Forage;

    public async Task<FedVisitors> OfYardAsync(YardView view, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(view);
        var forage = Of((await live.LoadedAsync(cancel)).Matrix.Taxa);
        return ForageSuggestions.Of(forage, view.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon.ScientificName),
            new(view.Facts.Light, view.Facts.Moisture, TallestMetres: 1.5));
    }

    /// <summary>Visitors of a block. Everybody's figures name only plants that three yards of it grow.</summary>
    public FedVisitors OfBlock(Figures figures, int block, GrowingSite site)
    {
        ArgumentNullException.ThrowIfNull(figures);
        return OfYards(figures, figures.Matrix.YardsOfBlock(block), site);
    }

    /// <summary>Visitors of a street; as <see cref="OfBlock"/>.</summary>
    public FedVisitors OfStreet(Figures figures, int street, GrowingSite site)
    {
        ArgumentNullException.ThrowIfNull(figures);
        return OfYards(figures, figures.Matrix.YardsOfStreet(street), site);
    }

    public PlantVisitorNames OfPlant(CatalogueTaxon taxon, IReadOnlyList<CatalogueTaxon> catalogue)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var forage = Of(catalogue);
        var named = forage.RecordedOn(taxon.ScientificName).GroupBy(v => v.Group, StringComparer.Ordinal).OrderByDescending(g => g.Count())
            .ThenBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => (g.Key, (IReadOnlyList<string>)[.. g.Select(v => v.Name).Order(StringComparer.Ordinal)])).ToList();
        return new(forage.Fed([taxon.ScientificName], [], 0), named, forage.BasisOf(taxon.ScientificName));
    }

    private FedVisitors OfYards(Figures figures, IEnumerable<int> yards, GrowingSite site)
    {
        var matrix = figures.Matrix;
        var grown = yards.SelectMany(y => matrix.Yards[y].Presences.Select(p => p.Taxon).Distinct()).GroupBy(t => t)
            .ToDictionary(g => matrix.Taxa[g.Key].ScientificName, g => g.Count(), StringComparer.Ordinal);
        var forage = Of(matrix.Taxa);
        var fed = ForageSuggestions.Of(forage, grown.Keys, site);
        if (!figures.IsPublic) return fed;
        // A plant that grows in one yard or two is counted, but not named: its neighbours would know whose it is.
        var told = fed.Plants.Where(p => grown[p.Taxon.ScientificName] >= Figures.YardsToShow).ToList();
        return fed with
        {
            Plants = told,
            Flowering = fed.Flowering,
            Support = fed.Support with { Specialists = forage.Of(told.Select(p => p.Taxon.ScientificName)).Specialists },
        };
    }
}
