namespace CommonGround.Ecology.Identification;

/// <summary>Where a taxon is known to grow, from the place at hand outwards.</summary>
public enum KnownFrom { Nowhere, Neighbourhood, Block, Yard }

/// <summary>How much more likely a plant is to be one that grows here, and one that is in season.</summary>
/// <param name="Floor">Weight of a taxon recorded nowhere near, above 0, so that a newcomer stays possible.</param>
/// <param name="Neighbourhood">Weight of one recorded in the neighbourhood.</param>
/// <param name="Block">On the block.</param>
/// <param name="Yard">In the yard itself.</param>
/// <param name="OutOfSeason">Factor for a taxon said to be in flower outside its bloom window, above 0 to 1.</param>
/// <remarks>The defaults are this project's convention, not a measurement. See docs/measures.md#identification.</remarks>
public sealed record LocalPrior(double Floor = 1, double Neighbourhood = 5, double Block = 10, double Yard = 20, double OutOfSeason = 0.1)
{
    public static LocalPrior Default { get; } = new();

    /// <summary>The weight of one taxon, above 0.</summary>
    /// <param name="from">The nearest place where it is recorded.</param>
    /// <param name="inSeason">Whether it flowers in the half-month at hand; null where the plant is not in flower or its window is not
    /// known, which counts neither way.</param>
    /// <exception cref="InvalidOperationException">A weight that is not above 0.</exception>
    public double Of(KnownFrom from, bool? inSeason)
    {
        var weight = from switch
        {
            KnownFrom.Yard => Yard,
            KnownFrom.Block => Block,
            KnownFrom.Neighbourhood => Neighbourhood,
            _ => Floor,
        };
        var seasonal = inSeason == false ? OutOfSeason : 1;
        return weight > 0 && seasonal > 0 ? weight * seasonal
            : throw new InvalidOperationException("The weights of a prior are above 0: nothing is impossible.");
    }
}
