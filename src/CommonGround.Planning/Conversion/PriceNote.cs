namespace CommonGround.Planning.Conversion;

/// <summary>What is to be said of prices nobody has entered.</summary>
public static class PriceNote
{
    /// <summary>A sentence or two; null when every taxon of the mix has its price.</summary>
    public static string? Of(ConversionMix mix)
    {
        ArgumentNullException.ThrowIfNull(mix);
        var missing = mix.Taxa.Where(t => t.PriceEstimated).Select(t => t.Taxon.DisplayName).Order(StringComparer.Ordinal).ToList();
        if (missing.Count == 0)
        {
            return null;
        }

        var counted = $"The group has no price for {missing.Count} of {mix.Taxa.Count} taxa";
        if (2 * missing.Count >= mix.Taxa.Count)
        {
            return counted
                + ", half of the list or more. Defaults stand in for them, so the cost is a rough guess: enter their prices in the price "
                + "table before you rely on it.";
        }

        var (stands, enter) = missing.Count == 1 ? ("A default stands in for it", "it") : ("Defaults stand in for them", "them");
        return $"{counted}: {string.Join(", ", missing)}. {stands}; enter {enter} in the price table to be sure of the cost.";
    }
}
