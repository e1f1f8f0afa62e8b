using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Why a taxon is not offered.</summary>
public enum WhyNot
{
    NotNative, ImpactRank, WrongForm, ComesByItself, LightUnknown, LightUnsuited, MoistureUnknown, MoistureUnsuited,
    Toxic, HeightUnknown, TooTall, TooTallForLook, ShrubNotForLook, ShrubIsNoSeed, NoSeedCount, NoSpacing, Never,
}

/// <summary>A taxon that is offered, and how it would be put in.</summary>
/// <param name="CostPerSquareMetre">Money for a m² of this taxon alone.</param>
/// <param name="PriceEstimated">The group has no price for it; a default was used.</param>
public sealed record ConversionCandidate(CatalogueTaxon Taxon, PlantedAs As, double CostPerSquareMetre, bool PriceEstimated)
{
    /// <summary>Grasses and sedges make the matrix the flowers stand in.</summary>
    public bool IsGrass => Taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge;
}

/// <summary>A taxon that is not offered, and every reason for it.</summary>
public sealed record LeftOutTaxon(CatalogueTaxon Taxon, IReadOnlyList<WhyNot> Reasons);

/// <summary>What of the catalogue suits a request, and why the rest does not.</summary>
/// <param name="Suitable">By scientific name.</param>
/// <param name="LeftOut">By scientific name.</param>
public sealed record ConversionCandidates(IReadOnlyList<ConversionCandidate> Suitable, IReadOnlyList<LeftOutTaxon> LeftOut)
{
    /// <summary>Sorts the catalogue into what suits and what does not; the catalogue's order is irrelevant.</summary>
    /// <remarks>An unknown C does not bar a native taxon; unknown light, moisture, or height under a limit does. Our own convention.</remarks>
    public static ConversionCandidates Of(ConversionRequest request, IEnumerable<CatalogueTaxon> catalogue, PriceTable prices)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(prices);
        var suitable = new List<ConversionCandidate>();
        var leftOut = new List<LeftOutTaxon>();
        foreach (var taxon in catalogue.OrderBy(t => t.ScientificName, StringComparer.Ordinal))
        {
            var reasons = Reasons(request, taxon);
            if (reasons.Count > 0)
            {
                leftOut.Add(new(taxon, reasons));
            }
            else
            {
                suitable.Add(Offer(request, taxon, FormOf(request.Method, taxon, prices, request), prices));
            }
        }

        return new(suitable, leftOut);
    }

    /// <summary>Reasons counted, most frequent first: "34 taxa want other light". A taxon counts under its first reason only, so the counts add up.</summary>
    public IReadOnlyList<string> InWords() =>
    [
        .. LeftOut.GroupBy(l => l.Reasons[0]).OrderByDescending(g => g.Count()).ThenBy(g => g.Key)
            .Select(g => $"{g.Count()} {(g.Count() == 1 ? "taxon" : "taxa")}: {Words(g.Key)}"),
    ];

    /// <summary>A reason in words that follow a taxon's name and a colon.</summary>
    public static string Words(WhyNot why) => why switch
    {
        WhyNot.NotNative => "not native to the region",
        WhyNot.ImpactRank => "ranked as harmful to native vegetation",
        WhyNot.WrongForm => "a tree, vine, turf grass or of unknown form",
        WhyNot.ComesByItself => "comes in by itself (C below 2)",
        WhyNot.LightUnknown => "the light it wants is not known",
        WhyNot.LightUnsuited => "wants other light",
        WhyNot.MoistureUnknown => "the soil moisture it wants is not known",
        WhyNot.MoistureUnsuited => "wants other soil moisture",
        WhyNot.Toxic => "has a toxicity note, and children or pets chew plants here",
        WhyNot.HeightUnknown => "its height is not known, and there is a height limit",
        WhyNot.TooTall => "grows taller than the height limit",
        WhyNot.TooTallForLook => "too tall for an ordered planting, or its height is not known",
        WhyNot.ShrubNotForLook => "a shrub, which only a naturalistic planting takes",
        WhyNot.ShrubIsNoSeed => "a shrub, which is planted, not sown",
        WhyNot.NoSeedCount => "how many of its seeds make a gram is not known, so it cannot be sown by number",
        WhyNot.NoSpacing => "its spacing is not known, so plugs cannot be counted",
        WhyNot.Never => "on the list of taxa not wanted",
        _ => throw new ArgumentOutOfRangeException(nameof(why)),
    };

    internal static IReadOnlyList<WhyNot> Reasons(ConversionRequest request, CatalogueTaxon taxon)
    {
        var found = new List<WhyNot>();
        void When(bool holds, WhyNot why)
        {
            if (holds) found.Add(why);
        }

        var shrub = taxon.LifeForm == LifeForm.Shrub;
        When(taxon.Nativity != Nativity.Native, WhyNot.NotNative);
        When(taxon.ImpactRank != ImpactRank.Unranked, WhyNot.ImpactRank);
        When(taxon.LifeForm is LifeForm.Tree or LifeForm.Vine or LifeForm.Turf or LifeForm.Unknown, WhyNot.WrongForm);
        When(taxon.C < ConversionConvention.LowestC && !request.MustHave.Contains(taxon.ScientificName, StringComparer.Ordinal), WhyNot.ComesByItself);
        When(taxon.Light.Count == 0, WhyNot.LightUnknown);
        When(taxon.Light.Count > 0 && !taxon.Light.Contains(request.Light), WhyNot.LightUnsuited);
        When(taxon.Moisture.Count == 0, WhyNot.MoistureUnknown);
        When(taxon.Moisture.Count > 0 && !taxon.Moisture.Contains(request.Moisture), WhyNot.MoistureUnsuited);
        When(request.KeepToxicOut && taxon.Toxicity.Length > 0, WhyNot.Toxic);
        When(request.TallestMetres is not null && taxon.HeightMaxMetres is null, WhyNot.HeightUnknown);
        When(taxon.HeightMaxMetres > request.TallestMetres, WhyNot.TooTall);
        When(request.Look == Look.Ordered && !shrub && taxon.HeightMaxMetres is null or > ConversionConvention.OrderedTallestMetres, WhyNot.TooTallForLook);
        When(shrub && request.Look != Look.Naturalistic, WhyNot.ShrubNotForLook);
        When(shrub && request.Method == Method.Seed, WhyNot.ShrubIsNoSeed);
        When(!shrub && request.Method == Method.Seed && taxon.SeedsPerGram is null, WhyNot.NoSeedCount);
        When((shrub || request.Method != Method.Seed) && taxon.SpacingMetres is null && (shrub || request.Method == Method.Plugs || taxon.SeedsPerGram is null), WhyNot.NoSpacing);
        When(request.Never.Contains(taxon.ScientificName, StringComparer.Ordinal), WhyNot.Never);
        return found;
    }

    /// <summary>
    /// Seed or plug. Mixed: shrubs, taxa without a seed count, and conservative ones with a known spacing as plugs; taxa without a spacing as
    /// seed; else whichever is cheaper on a m², seed when equal.
    /// </summary>
    internal static PlantedAs FormOf(Method method, CatalogueTaxon taxon, PriceTable prices, ConversionRequest request)
    {
        if (method != Method.Mixed)
        {
            return method == Method.Seed ? PlantedAs.Seed : PlantedAs.Plug;
        }

        if (taxon.LifeForm == LifeForm.Shrub || taxon.SeedsPerGram is null || (taxon.C >= ConversionConvention.PlugFromC && taxon.SpacingMetres is not null))
        {
            return PlantedAs.Plug;
        }

        return taxon.SpacingMetres is null || Pricing.PerSquareMetre(taxon, PlantedAs.Seed, request, prices) <= Pricing.PerSquareMetre(taxon, PlantedAs.Plug, request, prices)
            ? PlantedAs.Seed
            : PlantedAs.Plug;
    }

    internal static ConversionCandidate Offer(ConversionRequest request, CatalogueTaxon taxon, PlantedAs form, PriceTable prices) =>
        new(taxon, form, Pricing.PerSquareMetre(taxon, form, request, prices), Pricing.IsEstimated(taxon, form, prices));
}
