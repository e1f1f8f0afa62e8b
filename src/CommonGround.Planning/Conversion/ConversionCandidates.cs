using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Why a taxon is not offered.</summary>
public enum WhyNot
{
    NotNative, ListedByLaw, ImpactRank, WrongForm, LightUnknown, LightUnsuited, MoistureUnknown, MoistureUnsuited, NotRoot,
    Toxic, HeightUnknown, TooTall, TooTallForLook, Never,
    NoTraits, AdvisedAgainst, ComesByItself, IntroducedHere, OtherCommunity, Woody, FernInSun, WoodlandInSun, NotToBeHad, RareInTrade,
    TooTallForSize, Aggressive, NotTidy, ShortLived,
    WantsMoist, NotOnSand, WantsDrained, NotInDry, MustNotDryOut, WetlandPlant, UplandPlant, StandingWater, DeepSandOnly, Kerb, Salt,
    Septic, Awns, NotWhereChewed, HarmsPeople,
}

/// <summary>A taxon that is offered.</summary>
/// <param name="MustHave">Somebody asked for it by name.</param>
/// <param name="Barred">Why it would not have been offered by itself; empty for the others.</param>
public sealed record ConversionCandidate(CatalogueTaxon Taxon, MixTraits Traits, bool MustHave, IReadOnlyList<WhyNot> Barred)
{
    /// <summary>Grasses, sedges and rushes make the matrix the flowers stand in.</summary>
    public bool IsGrass => Traits.IsGrass;

    /// <summary>Upper height, m: the traits' own where the catalogue is known to be off.</summary>
    public double? Tallest => CandidateRules.Tall(Taxon);

    /// <summary>Whether it flowers for visitors in a half-month.</summary>
    public bool Flowers(int halfMonth) => !IsGrass && (Taxon.Bloom?.Contains(halfMonth) ?? false);
}

/// <summary>A taxon that is not offered, and every reason for it.</summary>
public sealed record LeftOutTaxon(CatalogueTaxon Taxon, IReadOnlyList<WhyNot> Reasons);

/// <summary>What of the catalogue suits a request, and why the rest does not.</summary>
/// <param name="Suitable">By scientific name.</param>
/// <param name="LeftOut">By scientific name.</param>
public sealed record ConversionCandidates(IReadOnlyList<ConversionCandidate> Suitable, IReadOnlyList<LeftOutTaxon> LeftOut)
{
    /// <summary>Sorts the catalogue into what suits and what does not; the catalogue's order is irrelevant.</summary>
    /// <remarks>
    /// What is asked for by name passes every bar of good practice, but not the ground's light and moisture, nor the household's own
    /// limits. Rules: docs/measures.md#mix.
    /// </remarks>
    public static ConversionCandidates Of(ConversionRequest request, IEnumerable<CatalogueTaxon> catalogue)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(catalogue);
        var suitable = new List<ConversionCandidate>();
        var leftOut = new List<LeftOutTaxon>();
        foreach (var taxon in catalogue.OrderBy(t => t.ScientificName, StringComparer.Ordinal))
        {
            var must = request.Wants(taxon.ScientificName);
            var firm = CandidateRules.Firm(request, taxon);
            var advice = CandidateRules.Advice(request, taxon);
            if (firm.Count > 0 || (!must && advice.Count > 0))
            {
                leftOut.Add(new(taxon, [.. firm, .. advice]));
            }
            else
            {
                suitable.Add(new(taxon, taxon.Mix ?? CandidateRules.Guessed(taxon), must, advice));
            }
        }

        return new(suitable, leftOut);
    }

    /// <summary>Reasons counted, most frequent first: "34 taxa: want other light". A taxon counts under its first reason only, so the
    /// counts add up.</summary>
    public IReadOnlyList<string> InWords() =>
    [
        .. LeftOut.GroupBy(l => l.Reasons[0]).OrderByDescending(g => g.Count()).ThenBy(g => g.Key)
            .Select(g => $"{g.Count()} {(g.Count() == 1 ? "taxon" : "taxa")}: {WhyNotWords.Of(g.Key)}"),
    ];
}
