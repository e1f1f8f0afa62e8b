using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Tests;

/// <summary>A small catalogue with round figures to reckon by hand. The names are real, the traits are invented.</summary>
internal static class Flora
{
    public const string Smooth = "Symphyotrichum laeve";
    public const string Aromatic = "Symphyotrichum oblongifolium";
    public const string Bergamot = "Monarda fistulosa";
    public const string Columbine = "Aquilegia canadensis";
    public const string Bluestem = "Schizachyrium scoparium";
    public const string Goldenrod = "Solidago rigida";
    public const string Mustard = "Alliaria petiolata";

    public static IReadOnlyList<CatalogueTaxon> All { get; } =
    [
        Native(Smooth, "smooth blue aster", 8, (15, 18), 1) with { Synonyms = ["Aster laevis"], SpacingMetres = 0.5,
            HeightMaxMetres = 1.2 },
        Native(Aromatic, "aromatic aster", 9, (16, 19), 0.5) with { SpacingMetres = 0.5, HeightMaxMetres = 0.6, Light = [Light.FullSun] },
        Native(Bergamot, "wild bergamot", 4, (11, 15), 0.8) with { SpacingMetres = 1, HeightMaxMetres = 1.2, Moisture = [Moisture.Medium] },
        Native(Columbine, "wild columbine", 6, (7, 10), null) with { Toxicity = "seeds", Caution = "The seeds are poisonous.",
            HeightMaxMetres = 0.8, Light = [Light.Shade], FlowerColour = "red" },
        Native(Goldenrod, "stiff goldenrod", 4, (15, 18), 0.9) with { SpacingMetres = 0.4, HeightMaxMetres = 1.5 },
        new() { ScientificName = Bluestem, CommonNames = ["little bluestem"], Nativity = Nativity.Native, C = 5, LifeForm = LifeForm.Grass,
            SpacingMetres = 0.3, HeightMaxMetres = 1 },
        new() { ScientificName = Mustard, CommonNames = ["garlic mustard"], Nativity = Nativity.Introduced, LifeForm = LifeForm.Forb,
            Bloom = new BloomWindow(7, 10), ImpactRank = ImpactRank.High, DispersalMetres = 50, ControlStart = 6, ControlEnd = 9 },
    ];

    public static CatalogueTaxon Named(string name) => All.Single(t => t.ScientificName == name);

    private static CatalogueTaxon Native(string name, string common, double c, (int From, int To) bloom, double? value) => new()
    {
        ScientificName = name,
        CommonNames = [common],
        Nativity = Nativity.Native,
        C = c,
        LifeForm = LifeForm.Forb,
        Bloom = new BloomWindow(bloom.From, bloom.To),
        PollinatorValue = value,
        FlowerColour = "blue",
    };
}
