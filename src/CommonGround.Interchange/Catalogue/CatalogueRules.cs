using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>What the values of one taxon must not say together.</summary>
internal static class CatalogueRules
{
    public static void Check(CatalogueTaxon taxon, RowCells cells)
    {
        if (taxon.HeightMinMetres > taxon.HeightMaxMetres) cells.Refuse("height_min_m", "The lowest height is above the highest.", "Exchange the two, or mend the wrong one.");
        if (taxon.Bloom is not null && taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge && cells.Has("bloom_start"))
            cells.Refuse("bloom_start", "Grasses and sedges flower by wind and have no bloom window here.", "Leave bloom_start and bloom_end blank.");
        if (taxon.C is not null && taxon.Nativity == Nativity.Introduced) cells.Refuse("c_value", "An introduced taxon has no coefficient of conservatism.", "Leave the cell blank; measures count it as 0 where that is the practice.");
        if (taxon.C is not null && taxon.CRegion.Length == 0) cells.Refuse("c_region", "The C value names no region.", "Write the region whose experts gave it.");
        if (cells.Has("control_start") != cells.Has("control_end"))
            cells.Refuse(cells.Has("control_start") ? "control_end" : "control_start", "Only one end of the control window is given.", "Write both half-months, or neither.");
        if (taxon.Toxicity.Length > 0 && !IsHarmless(taxon.Toxicity) && taxon.Caution.Length == 0)
            cells.Refuse("caution", "The taxon is marked toxic and carries no caution.", "Write the caution in full sentences.");
    }

    private static bool IsHarmless(string toxicity) => toxicity.ToUpperInvariant() is "NONE" or "NONE KNOWN" or "UNKNOWN" or "NOT KNOWN" or "LOW";
}
