using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Invasives;

/// <summary>The weights and defaults of invasive pressure. They are our own convention, not a published scale: settings of the group, shown
/// as such.</summary>
/// <param name="HighWeight">Weight of taxa of high impact rank, 0–1.</param>
/// <param name="MediumWeight">Weight of medium rank, 0–1.</param>
/// <param name="LowWeight">Weight of low rank, 0–1.</param>
/// <param name="UnrankedWeight">Weight of taxa nobody has ranked, 0–1.</param>
/// <param name="FullFromGrowthStage">BBCH principal stage, 0–9, from which an infestation counts in full (6 is flowering).</param>
/// <param name="BeforeFullFactor">Factor before that stage, 0–1; an unknown stage counts in full.</param>
/// <param name="DefaultDispersalMetres">Dispersal distance where the catalogue has none, m, above 0.</param>
/// <remarks>See docs/measures.md#invasive-pressure.</remarks>
public sealed record PressureConvention(
    double HighWeight,
    double MediumWeight,
    double LowWeight,
    double UnrankedWeight,
    int FullFromGrowthStage,
    double BeforeFullFactor,
    double DefaultDispersalMetres)
{
    /// <summary>High 1, medium 0.6, low and unranked 0.3; half before flowering (stage 6); 25 m where no dispersal distance is
    /// known.</summary>
    public static PressureConvention Default { get; } = new(1, 0.6, 0.3, 0.3, 6, 0.5, 25);

    /// <summary>The weight of an impact rank, 0–1.</summary>
    public double Weight(ImpactRank rank) => rank switch
    {
        ImpactRank.High => HighWeight,
        ImpactRank.Medium => MediumWeight,
        ImpactRank.Low => LowWeight,
        _ => UnrankedWeight,
    };

    /// <summary>The factor g of a growth stage, 0–1.</summary>
    /// <param name="growthStage">BBCH principal stage 0–9, or <c>null</c> when unknown: counts in full.</param>
    public double StageFactor(int? growthStage) => growthStage < FullFromGrowthStage ? BeforeFullFactor : 1;

    /// <summary>The dispersal distance λ of a taxon, m: the catalogue's, or the default.</summary>
    public double DispersalMetres(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        return taxon.DispersalMetres is > 0 and var metres ? metres : DefaultDispersalMetres;
    }
}
