using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Regions;

/// <summary>What one regional table says of one taxon.</summary>
/// <param name="Nativity">Native or introduced; unknown where that depends on the variety.</param>
/// <param name="LowestC">Lowest coefficient of conservatism of its varieties, 0–10; null for introduced taxa.</param>
/// <param name="HighestC">Highest of them, 0–10.</param>
/// <param name="Wetland">How often it grows in wetlands; unknown where the table says nothing.</param>
/// <param name="As">The name under which the table has it, where that is another.</param>
public sealed record RegionalValue(Nativity Nativity, double? LowestC, double? HighestC, WetlandIndicator Wetland, string As)
{
    /// <summary>The coefficient, 0–10; null where introduced, or where its varieties have different ones: then no single value is
    /// right.</summary>
    public double? C => LowestC == HighestC ? LowestC : null;

    /// <summary>Some of its varieties are native there, others introduced.</summary>
    public bool DependsOnVariety => Nativity == Nativity.Unknown;
}

/// <summary>What is published of one taxon, region by region.</summary>
/// <param name="ScientificName">Accepted name in the catalogue.</param>
/// <param name="Tables">Table id → what it says; a table that lacks the taxon has no entry.</param>
/// <param name="NativeStates">States (two letters) where a federal agency's list has it as native: a weak source, it copies the status of
/// the lower 48 states.</param>
/// <param name="IntroducedStates">States where that list has it as introduced.</param>
/// <param name="SurveyStates">States where a national survey of wetlands met it.</param>
public sealed record TaxonRegions(
    string ScientificName,
    IReadOnlyDictionary<string, RegionalValue> Tables,
    IReadOnlyList<string> NativeStates,
    IReadOnlyList<string> IntroducedStates,
    IReadOnlyList<string> SurveyStates)
{
    /// <summary>Whether a table calls native what others divide into a native and an introduced kind: it does not tell them
    /// apart.</summary>
    public bool IsUndivided(RegionalValue value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return value is { Nativity: Nativity.Native, As.Length: 0 } && Tables.Values.Any(v => v.DependsOnVariety);
    }
}
