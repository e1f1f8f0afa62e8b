using CommonGround.Ecology.Sites;

namespace CommonGround.Ecology.Invasives;

/// <summary>What one source sends to a place.</summary>
/// <param name="Infestation">Index into <see cref="CommunityMatrix.Infestations"/>.</param>
/// <param name="Metres">How far away it is, m.</param>
/// <param name="Pressure">w·A·c·g·exp(−d/λ), m²-equivalents.</param>
/// <param name="Share">Of all pressure there, 0–1; the shares of a place sum to 1.</param>
/// <param name="ShareLow">The least share over the range of dispersal distances.</param>
/// <param name="ShareHigh">The greatest.</param>
public sealed record PressureShare(int Infestation, double Metres, double Pressure, double Share, double ShareLow, double ShareHigh);

/// <summary>Where the pressure on a place comes from.</summary>
/// <remarks>
/// The same sum as <see cref="InvasivePressure"/>, taken apart. The range is of one source at a time: its own dispersal distance at the
/// low and high end of what is published or assumed, all others at theirs as reckoned. See docs/measures.md#pressure-shares.
/// </remarks>
public static class PressureShares
{
    /// <summary>All sources of a place, the greatest first.</summary>
    /// <param name="matrix">Its infestations are the sources.</param>
    /// <param name="latitude">Degrees north.</param>
    /// <param name="longitude">Degrees east.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <param name="range">Low and high dispersal distance of a taxon, m; <c>null</c> where no range is held.</param>
    /// <returns>Empty where nothing reaches the place.</returns>
    /// <remarks>See docs/measures.md#pressure-shares.</remarks>
    public static IReadOnlyList<PressureShare> At(CommunityMatrix matrix, double latitude, double longitude, PressureConvention convention,
        Func<string, Span?> range)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(convention);
        ArgumentNullException.ThrowIfNull(range);
        var sources = matrix.Infestations.Select((infestation, index) => Of(index, infestation)).Where(s => s.Sent > 0).ToList();
        var all = sources.Sum(s => s.Sent);
        return [.. sources.Select(s => new PressureShare(s.Index, s.Metres, s.Sent, s.Sent / all, Share(s.Sent, s.Low, all),
            Share(s.Sent, s.High, all))).OrderByDescending(s => s.Pressure).ThenBy(s => s.Infestation)];

        (int Index, double Metres, double Sent, double Low, double High) Of(int index, Infestation infestation)
        {
            var taxon = matrix.Taxa[infestation.Taxon];
            var worth = InvasivePressure.SourceSquareMetres(infestation, matrix, convention);
            var metres = GreatCircle.Metres(latitude, longitude, infestation.Latitude, infestation.Longitude);
            var scale = convention.DispersalMetres(taxon);
            var span = range(taxon.ScientificName);
            return (index, metres, Sent(scale), Sent(Math.Min(scale, span?.Low ?? scale)), Sent(Math.Max(scale, span?.High ?? scale)));

            double Sent(double lambda) => metres > 40 * lambda ? 0 : worth * Math.Exp(-metres / lambda);
        }
    }

    private static double Share(double reckoned, double other, double all) => all - reckoned + other is > 0 and var sum ? other / sum : 0;
}
