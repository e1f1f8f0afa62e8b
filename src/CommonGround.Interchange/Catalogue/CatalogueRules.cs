using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>What the values of one taxon must not say together.</summary>
internal static class CatalogueRules
{
    public static void Check(CatalogueTaxon taxon, RowCells cells)
    {
        if (taxon.HeightMinMetres > taxon.HeightMaxMetres)
            cells.Refuse("height_min_m", "The lowest height is above the highest.", "Exchange the two, or correct the wrong one.");
        if (taxon.Bloom is not null && taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge && cells.Has("bloom_start"))
            cells.Refuse("bloom_start", "Grasses and sedges flower by wind and have no bloom window here.",
                "Leave bloom_start and bloom_end blank.");
        if (taxon.C is not null && taxon.Nativity == Nativity.Introduced)
            cells.Refuse("c_value", "An introduced taxon has no coefficient of conservatism.",
                "Leave the cell blank; measures count it as 0 where that is the practice.");
        if (taxon.C is not null && taxon.CRegion.Length == 0)
            cells.Refuse("c_region", "The C value names no region.", "Write the region whose experts gave it.");
        if (cells.Has("control_start") != cells.Has("control_end"))
            cells.Refuse(cells.Has("control_start") ? "control_end" : "control_start", "Only one end of the control window is given.",
                "Write both half-months, or neither.");
        if (taxon.CSecond is not null && taxon.RegionSecond.Length == 0)
            cells.Refuse("region_second", "The second C value names no region.", "Write the table that has it.");
        CheckSpread(taxon, cells);
        CheckToxicity(taxon, cells);
    }

    private static void CheckSpread(CatalogueTaxon taxon, RowCells cells)
    {
        if (cells.Has("pollinator_low") != cells.Has("pollinator_high"))
            cells.Refuse(cells.Has("pollinator_low") ? "pollinator_high" : "pollinator_low", "Only one end of the range is given.",
                "Write both ends, or neither.");
        else if (taxon.PollinatorLow > taxon.PollinatorValue || taxon.PollinatorHigh < taxon.PollinatorValue
            || (taxon.PollinatorLow is not null && taxon.PollinatorValue is null))
            cells.Refuse("pollinator_value", "The estimated value does not lie in its range.",
                "Write a value between pollinator_low and pollinator_high.");
    }

    private static void CheckToxicity(CatalogueTaxon taxon, RowCells cells)
    {
        if (((taxon.Toxicity.Length > 0 && !IsHarmless(taxon.Toxicity)) || taxon.ToxicityClasses.Count > 0) && taxon.Caution.Length == 0)
            cells.Refuse("caution", "The taxon is marked toxic and carries no caution.", "Write the caution in full sentences.");
        if (taxon.ToxicityClasses.Count > 0 && taxon.Toxicity.Length == 0)
            cells.Refuse("toxicity", "The taxon has a toxicity class and no words for it.", "Write in a few words what it does.");
        if (taxon.ToxicityClasses.Contains(ToxicityClass.DeadlyToPeople) && taxon.LookAlikes.Count == 0)
            cells.Refuse("look_alikes", "The taxon is deadly and names no look-alike.",
                "Write the scientific names of the plants it is taken for, with | between them.");
    }

    private static bool IsHarmless(string toxicity) => toxicity.ToUpperInvariant() is "NONE" or "NONE KNOWN" or "UNKNOWN" or "NOT KNOWN"
        or "LOW";
}
