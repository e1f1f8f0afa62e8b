using CommonGround.Ecology.Taxa;

namespace CommonGround.DemoData;

/// <summary>A taxon in a bed with what becomes of it.</summary>
internal sealed record Planting(Yard Yard, Bed Bed, CatalogueTaxon Taxon, double Cover, Origin Origin, int FirstYear)
{
    /// <summary>Year in which it is found gone, or null.</summary>
    public int? GoneIn { get; init; }
    public Certainty Certainty { get; init; }
}
