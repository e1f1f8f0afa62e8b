namespace CommonGround.Interchange;

/// <summary>The kinds of file a group brings; shared/csv-columns.md describes each.</summary>
public enum ImportKind
{
    /// <summary>The header matches no kind; the file's errors say what was expected.</summary>
    Unrecognised,
    Places,
    Beds,
    Sightings,
    Infestations,
    Rain,
    Temperature,
    Prices,
    Streets,
    Overrides,
    Catalogue,
}
