using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.GapFilling;

/// <summary>Plants that good practice offers for a bed: the rules of a mix, asked of one plant.</summary>
public static class SoundPlants
{
    /// <summary>A front bed, as suggestions have it; the rules differ with size.</summary>
    private const double BedSquareMetres = 20;

    /// <summary>Whether a mix on such ground would be offered the plant. Where the light is not known, any that the plant stands will do;
    /// where the moisture is not known, ordinary ground is meant.</summary>
    /// <param name="taxon">With traits of mixes; without them the answer is no.</param>
    /// <param name="site">The ground.</param>
    /// <remarks>See docs/measures.md#mix. The household's own limits are not asked here: <see cref="GapSuggestions.Suits"/> does
    /// that.</remarks>
    public static bool Allows(CatalogueTaxon taxon, GrowingSite site)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(site);
        IEnumerable<Light> lights = site.Light is { } light ? [light] : taxon.Light;
        IEnumerable<Moisture> moistures = site.Moisture is { } moisture ? [moisture]
            : taxon.Moisture.Contains(Moisture.Medium) ? [Moisture.Medium] : taxon.Moisture.Where(m => m != Moisture.Wet);
        return taxon.Mix is not null && lights.Any(l => moistures.Any(m => CandidateRules.Advice(Ground(l, m), taxon).Count == 0));
    }

    private static ConversionRequest Ground(Light light, Moisture moisture) => new()
    {
        Areas = [new ConversionArea("bed", BedSquareMetres, [])],
        Light = light,
        Moisture = moisture,
        SoilGroup = SoilGroup.B,
        PresentCover = PresentCover.GoodTurf,
    };
}
