using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.FloristicQuality;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>Every measure of one site as of the matrix's date. <c>null</c> means "not defined here" and is shown as a dash, never as
/// 0.</summary>
/// <remarks>Formulas, ranges and sources: docs/measures.md, by the anchors named below.</remarks>
public sealed record SiteMeasures
{
    /// <summary>Yards of the site, empty ones included.</summary>
    public required int Yards { get; init; }

    /// <summary>Taxa that grow here, 0 or more (#richness).</summary>
    public required int Richness { get; init; }

    /// <summary>Native taxa among them (#richness).</summary>
    public required int NativeRichness { get; init; }

    /// <summary>Introduced taxa among them; taxa of unknown nativity are in neither count (#richness).</summary>
    public required int IntroducedRichness { get; init; }

    /// <summary>H′ in nats, 0 to ln(richness); <c>null</c> for an empty site (#shannon).</summary>
    public double? Shannon { get; init; }

    /// <summary>1 − Σp², 0 to 1; <c>null</c> for an empty site (#simpson).</summary>
    public double? Simpson { get; init; }

    /// <summary>1/Σp², taxa, 1 to richness; <c>null</c> for an empty site (#simpson).</summary>
    public double? InverseSimpson { get; init; }

    /// <summary>Pielou's J, 0 to 1; <c>null</c> with fewer than two taxa (#evenness).</summary>
    public double? Evenness { get; init; }

    /// <summary>Hill number of order 0 = richness; <c>null</c> for an empty site (#hill-numbers).</summary>
    public double? Hill0 { get; init; }

    /// <summary>Hill number of order 1 = exp(H′), taxa; <c>null</c> for an empty site (#hill-numbers).</summary>
    public double? Hill1 { get; init; }

    /// <summary>Hill number of order 2 = inverse Simpson, taxa; <c>null</c> for an empty site (#hill-numbers).</summary>
    public double? Hill2 { get; init; }

    /// <summary>Estimated taxa with those overlooked, yards as sampling units; <c>null</c> for one yard or an empty site
    /// (#chao2).</summary>
    public double? Chao2 { get; init; }

    /// <summary>Standard error of <see cref="Chao2"/>, taxa (#chao2).</summary>
    public double? Chao2StandardError { get; init; }

    /// <summary>Mean C with introduced taxa at 0, 0–10 (#floristic-quality).</summary>
    public double? MeanC { get; init; }

    /// <summary>Mean C of native taxa, 0–10 (#floristic-quality).</summary>
    public double? NativeMeanC { get; init; }

    /// <summary>Mean C·√N of all scored taxa (#floristic-quality).</summary>
    public double? Fqi { get; init; }

    /// <summary>Native mean C·√N_native (#floristic-quality).</summary>
    public double? NativeFqi { get; init; }

    /// <summary>0–100 (#floristic-quality).</summary>
    public double? AdjustedFqi { get; init; }

    /// <summary>Mean C weighted by cover, 0–10 (#floristic-quality).</summary>
    public double? CoverWeightedMeanC { get; init; }

    /// <summary>Native or unlisted taxa without a C value, left out of floristic quality (#floristic-quality).</summary>
    public required int WithoutC { get; init; }

    /// <summary>Of <see cref="Richness"/>, the taxa that nobody has seen here since before the last whole season; see
    /// docs/measures.md#presence.</summary>
    public int OnOldSightings { get; init; }

    /// <summary>Native bloom through the year, tentative identifications included: the value to show (#bloom-coverage).</summary>
    public required BloomCoverage Bloom { get; init; }

    /// <summary>The same without tentative identifications: the lower edge of the sensitivity band (#bloom-coverage).</summary>
    public required BloomCoverage BloomWithoutTentative { get; init; }

    /// <summary>Covered half-months of the season as a share, 0–1 (#bloom-coverage).</summary>
    public double CoveredShare => Bloom.CoveredShare;

    /// <summary>Covered half-months of the late season as a share, 0–1 (#bloom-coverage).</summary>
    public double LateSeasonCoveredShare => Bloom.LateSeasonCoveredShare;

    /// <summary>Runs of the season with too little in flower (#bloom-coverage).</summary>
    public IReadOnlyList<BloomGap> Gaps => Bloom.Gaps;

    /// <summary>Invasive pressure, m²-equivalents, 0 or more; <c>null</c> where it was not asked for or a street has no block
    /// (#invasive-pressure).</summary>
    public double? InvasivePressureSquareMetres { get; init; }

    /// <summary>All measures of one community.</summary>
    /// <param name="community">The site's yards rolled up.</param>
    /// <param name="taxa">The list that its taxon indices point into.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="invasivePressureSquareMetres">Pressure at the site, m²-equivalents, if known.</param>
    /// <remarks>Composes <see cref="DiversityIndex"/>, <see cref="Chao2Estimate"/>, <see cref="FloristicQualityIndex"/> and
    /// <see cref="BloomCoverage"/>.</remarks>
    public static SiteMeasures Of(SiteCommunity community, IReadOnlyList<CatalogueTaxon> taxa, Season season,
        double? invasivePressureSquareMetres)
    {
        ArgumentNullException.ThrowIfNull(community);
        ArgumentNullException.ThrowIfNull(taxa);
        var present = community.Told(taxa).Taxa;
        double[] covers = [.. present.Select(t => t.CoverSquareMetres)];
        var chao2 = Chao2Estimate.Of([.. present.Select(t => t.YardsHolding)], community.Yards);
        var quality = FloristicQualityIndex.Of(present.Select(t => new ScoredTaxon(taxa[t.Taxon].Nativity, taxa[t.Taxon].C,
            t.CoverSquareMetres)));
        return new SiteMeasures
        {
            Yards = community.Yards,
            Richness = DiversityIndex.Richness(covers),
            NativeRichness = present.Count(t => taxa[t.Taxon].Nativity == Nativity.Native),
            IntroducedRichness = present.Count(t => taxa[t.Taxon].Nativity == Nativity.Introduced),
            Shannon = DiversityIndex.Shannon(covers),
            Simpson = DiversityIndex.Simpson(covers),
            InverseSimpson = DiversityIndex.InverseSimpson(covers),
            Evenness = DiversityIndex.Evenness(covers),
            Hill0 = DiversityIndex.HillNumber(covers, 0),
            Hill1 = DiversityIndex.HillNumber(covers, 1),
            Hill2 = DiversityIndex.HillNumber(covers, 2),
            WithoutC = quality.WithoutC,
            OnOldSightings = present.Count(t => t.Old),
            Bloom = BloomCoverage.Of(present.Select(t => Flowering(taxa[t.Taxon], t.CoverSquareMetres)), season),
            BloomWithoutTentative = BloomCoverage.Of(
                present.Where(t => t.CertainSquareMetres > 0).Select(t => Flowering(taxa[t.Taxon], t.CertainSquareMetres)), season),
            InvasivePressureSquareMetres = invasivePressureSquareMetres,
        }.With(chao2, quality);
    }

    private static FloweringTaxon Flowering(CatalogueTaxon taxon, double coverSquareMetres) =>
        new(taxon.Nativity == Nativity.Native, taxon.Bloom, taxon.PollinatorValue, coverSquareMetres);

    /// <summary>The same with what richness and quality say, however they were reckoned.</summary>
    internal SiteMeasures With(Chao2Estimate? chao2, FloristicQualityIndex quality) => this with
    {
        Chao2 = chao2?.Value,
        Chao2StandardError = chao2?.StandardError,
        MeanC = quality.MeanC,
        NativeMeanC = quality.NativeMeanC,
        Fqi = quality.Fqi,
        NativeFqi = quality.NativeFqi,
        AdjustedFqi = quality.AdjustedFqi,
        CoverWeightedMeanC = quality.CoverWeightedMeanC,
        WithoutC = quality.WithoutC,
    };
}
