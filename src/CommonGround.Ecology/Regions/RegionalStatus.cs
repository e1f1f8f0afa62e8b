using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Regions;

/// <summary>What a taxon's nativity at a place rests on.</summary>
public enum NativityBasis
{
    /// <summary>The place's own table.</summary>
    OwnTable,

    /// <summary>The second table, because the first lacks the taxon or has it native and introduced by variety.</summary>
    SecondTable,

    /// <summary>No table has it; a federal agency's list says native. Too weak to offer it.</summary>
    AgencyListOnly,

    /// <summary>Its varieties differ: somebody has to say which one it is.</summary>
    DependsOnVariety,

    /// <summary>Neither table nor list has it there: it is not known to grow wild there.</summary>
    NotRecorded,
}

/// <summary>How a taxon stands at the group's place, and what its values there rest on.</summary>
/// <param name="Basis">What nativity rests on.</param>
/// <param name="Table">The table that gave nativity and C; empty for none.</param>
/// <param name="NameInTable">The name under which that table has it, where that is another.</param>
/// <param name="IsBorrowed">C comes from a second table.</param>
/// <param name="LowestC">Where its varieties differ in C, the lowest, 0–10; no single value is used then.</param>
/// <param name="HighestC">Where its varieties differ in C, the highest.</param>
/// <param name="IsPresent">A table or list of the state has it, native or not.</param>
/// <param name="IsListedByLaw">The state's law lists it, as far as its lists are held.</param>
/// <param name="SpringDays">How much later spring comes than where its bloom was observed, days; negative is earlier.</param>
/// <param name="ObservedBloom">Its bloom window where it was observed; the taxon's own is the shifted one.</param>
public sealed record RegionalStatus(NativityBasis Basis, string Table, string NameInTable, bool IsBorrowed, double? LowestC,
    double? HighestC, bool IsPresent, bool IsListedByLaw,
    double SpringDays, BloomWindow? ObservedBloom);
