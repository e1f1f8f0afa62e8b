using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Regions;

/// <summary>The catalogue as it holds at one place: nativity, C, wetland indicator and bloom of the place; names, traits and drawings are
/// the same everywhere.</summary>
/// <param name="place">Where the group is.</param>
/// <param name="values">Scientific name → what is published of the taxon by region.</param>
/// <param name="bloomPlaces">Name of a place where bloom was observed → how many days later spring comes there than in northern
/// Illinois.</param>
/// <param name="isListed">Whether the law of the place's state lists a taxon.</param>
public sealed class RegionalCatalogue(Locality place, IReadOnlyDictionary<string, TaxonRegions> values,
    IReadOnlyDictionary<string, double> bloomPlaces, Func<string, bool> isListed)
{
    /// <summary>The tables that speak for the place; null outside the states whose tables are held.</summary>
    public TablesOfPlace? Tables { get; } = StateRules.TablesOf(place);

    public Locality Place => place;

    /// <summary>The taxon as it stands at the place; unchanged where nothing regional is published of it.</summary>
    /// <remarks>
    /// The place's own table decides on nativity; a taxon it lacks takes nativity and C from the second table where the state has one, and
    /// then says so. Where a table calls an unwanted plant native because it does not tell a native kind from the introduced one, it
    /// decides nothing. A federal list alone is too weak to call a taxon native; a taxon that no source has there is not native there. C is
    /// never taken from a neighbour's table without saying so, and never where the varieties of a taxon have different ones. An introduced
    /// taxon has none.
    /// </remarks>
    public CatalogueTaxon Of(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        if (!values.TryGetValue(taxon.ScientificName, out var published))
        {
            return taxon;
        }

        var (basis, table, value) = Decide(published, taxon.ImpactRank != ImpactRank.Unranked);
        var nativity = basis switch
        {
            // Where a native and an introduced form go by one name, an unwanted plant is the introduced one until somebody says otherwise.
            NativityBasis.SecondTable when taxon.ImpactRank != ImpactRank.Unranked && IsOpen(published) => Nativity.Introduced,
            NativityBasis.OwnTable or NativityBasis.SecondTable => value!.Nativity,
            NativityBasis.AgencyListOnly => Nativity.Unknown,
            NativityBasis.DependsOnVariety => taxon.ImpactRank == ImpactRank.Unranked ? Nativity.Unknown : Nativity.Introduced,
            _ => Tables is null && published.Tables.Values.Any(v => v.Nativity != Nativity.Introduced) ? Nativity.Unknown
                : Nativity.Introduced,
        };
        var native = nativity == Nativity.Native ? value : null;
        var shown = Tables is { Shown.Length: > 0 } ? published.Tables.GetValueOrDefault(Tables.Shown) : null;
        var days = Math.Clamp(place.SpringDays - bloomPlaces.GetValueOrDefault(taxon.BloomPlace), -SpringShift.MostDays,
            SpringShift.MostDays);
        return taxon with
        {
            Nativity = nativity,
            C = native?.C,
            CRegion = native?.C is null ? "" : table,
            NativitySecond = shown?.Nativity ?? Nativity.Unknown,
            CSecond = shown is { Nativity: Nativity.Native } ? shown.C : null,
            RegionSecond = shown is null ? "" : Tables!.Shown,
            WetlandIndicator = Wetland(published) ?? taxon.WetlandIndicator,
            Bloom = taxon.Bloom is { } bloom ? SpringShift.Shifted(bloom, days) : null,
            BloomSecond = taxon.BloomSecond is { } second ? SpringShift.Shifted(second, place.SpringDays) : null,
            Regional = new RegionalStatus(basis, table, value?.As ?? "", basis == NativityBasis.SecondTable && native?.C is not null,
                native is { C: null } ? native.LowestC : null, native is { C: null } ? native.HighestC : null, IsPresent(published),
                    isListed(taxon.ScientificName), days, taxon.Bloom),
        };
    }

    private (NativityBasis Basis, string Table, RegionalValue? Value) Decide(TaxonRegions published, bool unwanted)
    {
        if (Tables is null)
        {
            return (NativityBasis.NotRecorded, "", null);
        }

        var own = published.Tables.GetValueOrDefault(Tables.First);
        if (own is not null && unwanted && published.IsUndivided(own))
        {
            return (NativityBasis.DependsOnVariety, Tables.First, own);
        }

        if (own is { DependsOnVariety: false })
        {
            return (NativityBasis.OwnTable, Tables.First, own);
        }

        // A table that is only shown elsewhere may settle what the first leaves to the variety.
        string[] others = own is null ? [.. Tables.Second] : [.. Tables.Second, .. Tables.Shown.Length > 0 ? new[] { Tables.Shown } : []];
        foreach (var table in others)
        {
            if (published.Tables.GetValueOrDefault(table) is { DependsOnVariety: false } found)
            {
                return (NativityBasis.SecondTable, table, found);
            }
        }

        if (own is not null)
        {
            return (NativityBasis.DependsOnVariety, Tables.First, own);
        }

        return published.NativeStates.Contains(place.State, StringComparer.OrdinalIgnoreCase) ? (NativityBasis.AgencyListOnly, "", null)
            : (NativityBasis.NotRecorded, "", null);
    }

    private bool IsOpen(TaxonRegions published) => published.Tables.GetValueOrDefault(Tables!.First) is { DependsOnVariety: true };

    private bool IsPresent(TaxonRegions published) =>
        (Tables is not null && published.Tables.ContainsKey(Tables.First))
        || new[] { published.NativeStates, published.IntroducedStates,
        published.SurveyStates }.Any(s => s.Contains(place.State, StringComparer.OrdinalIgnoreCase));

    /// <summary>Of the place's own table, else of its second, else what most tables say; null where none says anything.</summary>
    private WetlandIndicator? Wetland(TaxonRegions published)
    {
        foreach (var table in Tables is null ? [] : new[] { Tables.First }.Concat(Tables.Second))
        {
            if (published.Tables.GetValueOrDefault(table) is { Wetland: not WetlandIndicator.Unknown } value)
            {
                return value.Wetland;
            }
        }

        var all = published.Tables.Values.Select(v => v.Wetland).Where(w => w != WetlandIndicator.Unknown).ToList();
        return all.Count == 0 ? null : all.GroupBy(w => w).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
    }
}
