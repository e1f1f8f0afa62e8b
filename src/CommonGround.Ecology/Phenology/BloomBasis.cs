namespace CommonGround.Ecology.Phenology;

/// <summary>What a taxon's dates of bloom rest on. This year's warmth may move each of them but the last.</summary>
public enum BloomBasis
{
    /// <summary>The catalogue's own dates, moved to the group's place where that lies elsewhere.</summary>
    Catalogue,

    /// <summary>The group's own records, drawn towards the catalogue's dates.</summary>
    OwnRecords,

    /// <summary>The group has set them itself.</summary>
    SetByGroup,
}
