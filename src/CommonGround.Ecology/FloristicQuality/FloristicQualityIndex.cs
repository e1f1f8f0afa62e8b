using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.FloristicQuality;

/// <summary>One taxon of a site, as floristic quality sees it.</summary>
/// <param name="Nativity">Native, introduced, or unknown for a taxon the catalogue does not list.</param>
/// <param name="C">Coefficient of conservatism, 0–10, or <c>null</c> when nobody has given one.</param>
/// <param name="CoverSquareMetres">Cover, m², 0 or more; 0 counts as present in the means but weighs nothing in the cover-weighted
/// mean.</param>
public readonly record struct ScoredTaxon(Nativity Nativity, double? C, double CoverSquareMetres);

/// <summary>How faithful a site's plants are to unspoilt natural places, from the coefficients of conservatism (C, 0–10) of its
/// taxa.</summary>
/// <param name="NativeTaxa">Native taxa with a C value, N_native.</param>
/// <param name="IntroducedTaxa">Introduced taxa; each counts as C = 0.</param>
/// <param name="WithoutC">Native or unlisted taxa without a C value: left out of every other number here.</param>
/// <param name="NativeMeanC">ΣC/N_native over native taxa with C, 0–10; <c>null</c> without any.</param>
/// <param name="MeanC">ΣC/N_all over those and the introduced taxa at 0, 0–10; <c>null</c> without any.</param>
/// <param name="NativeFqi">NativeMeanC·√N_native, 0 or more; <c>null</c> without native taxa with C.</param>
/// <param name="Fqi">MeanC·√N_all, 0 or more; <c>null</c> without any scored taxon.</param>
/// <param name="AdjustedFqi">100·(NativeMeanC/10)·√(N_native/N_all), 0–100; <c>null</c> without native taxa with C.</param>
/// <param name="CoverWeightedMeanC">Σ(cover·C)/Σcover over the taxa of MeanC, 0–10; <c>null</c> when they cover nothing.</param>
/// <remarks>
/// Sources: Swink and Wilhelm (1994); Taft and others (1997); adjusted index: Miller and Wardrop (2006). Counting introduced taxa as C = 0
/// is common practice. See docs/measures.md#floristic-quality.
/// </remarks>
public sealed record FloristicQualityIndex(
    int NativeTaxa,
    int IntroducedTaxa,
    int WithoutC,
    double? NativeMeanC,
    double? MeanC,
    double? NativeFqi,
    double? Fqi,
    double? AdjustedFqi,
    double? CoverWeightedMeanC)
{
    /// <summary>Scores a site's list of taxa.</summary>
    /// <param name="taxa">One entry per taxon present, order irrelevant. C of an introduced taxon is not looked at.</param>
    /// <returns>Counts of 0 and <c>null</c> scores for an empty list.</returns>
    /// <remarks>A taxon of unknown nativity is left out and counted as without C, whatever its C. See
    /// docs/measures.md#floristic-quality.</remarks>
    public static FloristicQualityIndex Of(IEnumerable<ScoredTaxon> taxa)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        int natives = 0, introduced = 0, without = 0;
        double sumC = 0, sumCover = 0, sumCoverC = 0;
        foreach (var taxon in taxa)
        {
            RequireSound(taxon);
            switch (taxon)
            {
                case { Nativity: Nativity.Introduced }:
                    introduced++;
                    sumCover += taxon.CoverSquareMetres;
                    break;
                case { Nativity: Nativity.Native, C: { } c }:
                    natives++;
                    sumC += c;
                    sumCover += taxon.CoverSquareMetres;
                    sumCoverC += taxon.CoverSquareMetres * c;
                    break;
                default:
                    without++;
                    break;
            }
        }

        return FromSums(natives, introduced, without, sumC, sumCover, sumCoverC);
    }

    internal static FloristicQualityIndex FromSums(int natives, int introduced, int without, double sumC, double sumCover, double sumCoverC)
    {
        var all = natives + introduced;
        double? nativeMean = natives > 0 ? sumC / natives : null;
        double? mean = all > 0 ? sumC / all : null;
        return new(
            natives,
            introduced,
            without,
            nativeMean,
            mean,
            nativeMean * Math.Sqrt(natives),
            mean * Math.Sqrt(all),
            100 * (nativeMean / 10) * Math.Sqrt(all > 0 ? (double)natives / all : 0),
            sumCover > 0 ? sumCoverC / sumCover : null);
    }

    private static void RequireSound(ScoredTaxon taxon)
    {
        if (taxon.C is { } c && !(c is >= 0 and <= 10))
        {
            throw new ArgumentOutOfRangeException(nameof(taxon), c, "A coefficient of conservatism is 0 to 10.");
        }

        if (!double.IsFinite(taxon.CoverSquareMetres) || taxon.CoverSquareMetres < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(taxon), taxon.CoverSquareMetres, "Cover is a finite number of m², 0 or more.");
        }
    }
}
