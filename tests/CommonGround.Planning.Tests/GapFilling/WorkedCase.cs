using System.Text.Json;
using System.Text.Json.Serialization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Tests.GapFilling;

/// <summary>An invented plant as the worked example writes it.</summary>
internal sealed record WorkedCase(string Name, Nativity Nativity, double? C, ImpactRank ImpactRank, string Toxicity, Light[] Light,
    Moisture[] Moisture, double? HeightMaxMetres, int[]? Bloom, double? PollinatorValue)
{
    public static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Converters =
        { new JsonStringEnumConverter(JsonNamingPolicy.SnakeCaseLower) }
    };

    public CatalogueTaxon Taxon() => new()
    {
        ScientificName = Name,
        Nativity = Nativity,
        C = C,
        ImpactRank = ImpactRank,
        Toxicity = Toxicity,
        Light = Light,
        Moisture = Moisture,
        HeightMaxMetres = HeightMaxMetres,
        Bloom = Bloom is [var start, var end] ? new BloomWindow(start, end) : null,
        PollinatorValue = PollinatorValue,
    };
}
