using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Seed that is sown together.</summary>
/// <param name="Name">"The matrix, everywhere".</param>
/// <param name="How">Where it goes and how, for whoever sows.</param>
public sealed record SowingPass(string Name, string How, IReadOnlyList<PlannedTaxon> Taxa)
{
    private const double FineSeedsPerGram = 10_000;

    /// <summary>How the seed of a mix is put out, pass by pass; empty for plugs alone.</summary>
    /// <remarks>Common practice: the matrix over all ground, flowers in drifts or mingled, tall ones apart, fine seed last. From
    /// memory.</remarks>
    /// <param name="request">What was asked for.</param>
    /// <param name="mix">What is sown.</param>
    /// <param name="customary">Feet, else metres.</param>
    public static IReadOnlyList<SowingPass> Of(ConversionRequest request, ConversionMix mix, bool customary = false)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        var seed = mix.Taxa.Where(t => t.SeedsPerSquareMetre > 0).ToList();
        if (seed.Count == 0) return [];
        var fine = seed.Where(IsFine).ToList();
        var tall = seed.Except(fine).Where(t => t.Traits.Role == MixRole.Structural).ToList();
        var matrix = seed.Except(fine).Except(tall).Where(t => t.Traits.IsGrass || t.Traits.Role is MixRole.Filler or MixRole.Legume
            || request.Look == Look.Naturalistic).ToList();
        var drifts = seed.Except(fine).Except(tall).Except(matrix).ToList();
        var grounds = request.Areas.Count > 1 ? "Weigh out each area’s share first. " : "";
        SowingPass[] passes =
        [
            new(request.Look == Look.Naturalistic ? "Mingled, everywhere" : "The matrix, everywhere",
                $"{grounds}Mix it with five times its bulk of damp sand; sow half lengthwise and half across.", matrix),
            new("Flowers, in drifts",
                "Halve each kind. Sow each half on a patch of its own, [2–4 m|6–12 ft] across, low kinds towards walk and kerb; let "
                    + "neighbours flower at different times, and let the edges run into each other.", drifts),
            new("Tall flowers, apart", "In three to seven small patches in the back half, away from walk and kerb: a few are enough.",
                tall),
            new("Fine seed, last", "On top of the rest, with ten times its bulk of dry sand, and only pressed in: it needs light.", fine),
        ];
        return [.. passes.Where(p => p.Taxa.Count > 0).Select(p => p with { How = UnitWords.In(p.How, customary) })];
    }

    private static bool IsFine(PlannedTaxon taxon) => taxon.Taxon.SeedsPerGram > FineSeedsPerGram;
}
