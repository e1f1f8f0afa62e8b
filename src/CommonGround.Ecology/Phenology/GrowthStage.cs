namespace CommonGround.Ecology.Phenology;

/// <summary>BBCH principal growth stages: one digit, 0–9, for how far a plant has come this year.</summary>
/// <remarks>Source: Meier, ed. (2001), BBCH Monograph, 2nd edition, table 1; see docs/measures.md#growth-stages.</remarks>
public static class GrowthStage
{
    /// <summary>The stage of open flowers, 6.</summary>
    public const int Flowering = 6;

    private static readonly string[] s_names =
    [
        "Germination / sprouting / bud development",
        "Leaf development (main shoot)",
        "Formation of side shoots / tillering",
        "Stem elongation or rosette growth / shoot development (main shoot)",
        "Development of harvestable vegetative plant parts or vegetatively propagated organs / booting (main shoot)",
        "Inflorescence emergence (main shoot) / heading",
        "Flowering (main shoot)",
        "Development of fruit",
        "Ripening or maturity of fruit and seed",
        "Senescence, beginning of dormancy",
    ];

    /// <summary>The standard's title of a stage.</summary>
    /// <param name="stage">0–9.</param>
    /// <remarks>Source: Meier, ed. (2001), table 1; see docs/measures.md#growth-stages.</remarks>
    public static string Name(int stage) => stage is >= 0 and <= 9
        ? s_names[stage]
        : throw new ArgumentOutOfRangeException(nameof(stage), stage, "A principal growth stage is 0 to 9.");
}
