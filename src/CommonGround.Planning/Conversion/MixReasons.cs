using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>The part a taxon plays, in words.</summary>
public static class RoleWords
{
    /// <summary>What it does in the planting; names the role.</summary>
    public static string Of(MixRole role) => role switch
    {
        MixRole.WarmBunch => "bunchgrass: the matrix that flowers stand in",
        MixRole.WarmTall => "tall grass: for large meadows, thinly",
        MixRole.CoolSeason => "cool-season grass: green early, holds the ground",
        MixRole.MatrixLow => "low sedge or grass: closes the ground between the others",
        MixRole.WetMatrix => "sedge or rush of wet ground: the matrix there",
        MixRole.Legume => "legume: feeds the soil with nitrogen",
        MixRole.GroundForb => "low flower: covers the ground",
        MixRole.Seasonal => "flower of its season",
        MixRole.Structural => "tall flower: gives height, a few are enough",
        MixRole.Filler => "quick filler: shows early, gives way later",
        MixRole.Ephemeral => "spring flower: up before the others, gone by summer",
        MixRole.Fern => "fern: cover in shade",
        MixRole.Woody => "shrub: placed by hand",
        _ => "asked for by name",
    };

    /// <summary>The role in a word or two, for a table.</summary>
    public static string Short(MixRole role) => role switch
    {
        MixRole.WarmBunch => "bunchgrass",
        MixRole.WarmTall => "tall grass",
        MixRole.CoolSeason => "cool-season grass",
        MixRole.MatrixLow => "low sedge or grass",
        MixRole.WetMatrix => "wet sedge or rush",
        MixRole.Legume => "legume",
        MixRole.GroundForb => "low flower",
        MixRole.Seasonal => "seasonal flower",
        MixRole.Structural => "tall flower",
        MixRole.Filler => "filler",
        MixRole.Ephemeral => "spring flower",
        MixRole.Fern => "fern",
        MixRole.Woody => "shrub",
        _ => "asked for",
    };

    public static string Of(Spreading spread) => spread switch
    {
        Spreading.StaysPut => "stays put",
        Spreading.Slow => "widens slowly",
        Spreading.AggressiveRhizome => "spreads by roots",
        Spreading.AggressiveSeed => "seeds itself hard",
        _ => "spreads by roots and seed",
    };

    public static string Of(Longevity longevity) => longevity switch
    {
        Longevity.AnnualBiennial => "one or two years",
        Longevity.ShortLived => "two to six years",
        _ => "long-lived"
    };
}

/// <summary>Why a taxon is in, for the reader.</summary>
internal static class MixReasons
{
    private const int Most = 4, ManyBees = 20;

    public static IReadOnlyList<string> Of(PlannedTaxon planned, IReadOnlyList<string> names, ConversionRequest request,
        ConversionSurroundings surroundings)
    {
        var taxon = planned.Taxon;
        var season = request.Season;
        var halves = Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => !planned.Traits.IsGrass
            && (taxon.Bloom?.Contains(t) ?? false)).ToList();
        var reasons = new List<string> { RoleWords.Of(planned.Traits.Role) };
        void When(bool holds, string reason)
        {
            if (holds && reasons.Count < Most) reasons.Add(reason);
        }

        var (own, alone) = Bees(taxon.ScientificName, names, surroundings.Forage);
        When(request.MustHave.Contains(taxon.ScientificName, StringComparer.Ordinal), "you asked for it");
        When(request.LockedAmounts.ContainsKey(taxon.ScientificName), "you locked its amount");
        When(string.Equals(taxon.ScientificName, Nurse.Sunny, StringComparison.Ordinal) && planned.SeedsPerSquareMetre > 0,
            "nurse plant: thin by year four");
        When(alone > 0, $"alone feeds {alone} {(alone == 1 ? "kind" : "kinds")} of bees here");
        When(halves.Any(t => surroundings.StreetInFlower[t] == 0), "flowers when the street has nothing");
        When(halves.Any(t => surroundings.StreetInFlower[t] is > 0 and var n && n < season.Norm), "helps a gap of the street");
        When(own >= ManyBees, $"{own} kinds of bees come to it");
        When(halves.Any(t => surroundings.YardInFlower[t] < season.Norm), "helps a gap of the yard");
        When(!surroundings.GrownOnStreet.Contains(taxon.ScientificName), "new to the street");
        return reasons;
    }

    private static (int Own, int Alone) Bees(string name, IReadOnlyList<string> names, ForageIndex forage)
    {
        if (forage.PositionOf(name) < 0) return (0, 0);
        var others = names.Where(n => !string.Equals(n, name, StringComparison.Ordinal)).ToList();
        return (forage.Of([name]).Bees, forage.Of(names).Bees - forage.Of(others).Bees);
    }
}

/// <summary>Limits a mix has run up against.</summary>
internal static class MixBinding
{
    public static IReadOnlyList<string> Of(List<PlannedTaxon> taxa, int[] inFlower, double cost, MixSite site,
        ConversionCandidates candidates)
    {
        var request = site.Request;
        var found = new List<string>();
        void When(bool holds, string words)
        {
            if (holds) found.Add(words);
        }

        var most = request.MostTaxa ?? site.MostTaxa;
        When(request.Budget is { } budget && cost > 0.98 * budget, $"Budget: {cost:0.00} of {request.Budget:0.00} is spent.");
        When(taxa.Count == most, $"Number of taxa: all {most} that ground of this size takes are used.");
        for (var t = request.Season.First; t <= request.Season.Last; t++)
        {
            var suited = candidates.Suitable.Count(c => c.Flowers(t));
            if (inFlower[t] < request.Season.Norm)
            {
                found.Add(suited < request.Season.Norm
                    ? $"{HalfMonthWords.Of(t)}: only {suited} suitable {(suited == 1 ? "taxon flowers" : "taxa flower")} then, and "
                    + $"{request.Season.Norm} cover a half-month."
                    : $"{HalfMonthWords.Of(t)}: {inFlower[t]} in flower; the limits leave no room for {request.Season.Norm}.");
            }
        }

        return found;
    }
}
