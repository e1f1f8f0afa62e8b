namespace CommonGround.Planning.Conversion;

/// <summary>What failure looks like, and what helps.</summary>
public sealed record Setback(string Looks, string Remedy);

/// <summary>The setbacks a planting of this kind may meet.</summary>
/// <remarks>From memory and common practice; see docs/measures.md#calendar.</remarks>
public static class Setbacks
{
    public static IReadOnlyList<Setback> Of(ConversionMix mix, bool customary = false)
    {
        ArgumentNullException.ThrowIfNull(mix);
        var sown = mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0);
        var plugged = mix.Taxa.Any(t => t.Plugs > 0);
        // Tall kinds that flower late take a cut in June; which of them are in this mix.
        var flops = ConversionCalendar.Names(mix.Taxa.Where(t => !t.Traits.IsGrass && t.Taxon.Bloom?.Start >= 12
            && (t.Traits.HeightMaxMetres ?? t.Taxon.HeightMaxMetres) >= 0.9), 5);
        IEnumerable<(bool Holds, string Looks, string Remedy)> all =
        [
            (sown, "Annual weeds knee-high in the first year", "Not failure: cut, and cut again."),
            (true, "Grass over 70 % and few flowers, from the fourth year",
                "Cut to [15 cm|6 in] early in June two years running; rake a third of the ground bare in November and sow flowers there."),
            (true, "Thistle, crown vetch or reed canary grass over a quarter of the ground",
                "That part is cleared and begun again. Below that treat spots in May and September; herbicide only by its label and "
                    + "the law."),
            (sown, "Washed out or crusted, no seedlings by July",
                "Lay a blanket without plastic net, and sow again in November, not in summer."),
            (flops.Length > 0, "Stems flop over the walk", $"By half about June 10, cut: {flops}. No water, no fertiliser."),
            (plugged, "Plugs heaved out, eaten or gone",
                "Replace by June 1, in a cage. Gone twice means the wrong kind for the place: take another."),
        ];
        return [.. all.Where(s => s.Holds).Select(s => new Setback(s.Looks, ConversionCalendar.InUnits(s.Remedy, customary)))];
    }
}
