using CommonGround.Ecology.Taxa;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.WalkSheets;

/// <summary>Everything a walk sheet says: the last list of one yard, to be filled in by hand. It holds no household name and no
/// position.</summary>
public sealed record WalkSheet
{
    /// <summary>Empty rows for new plants below each bed.</summary>
    public const int BlankRows = 3;

    /// <summary>Name of the neighbourhood.</summary>
    public required string Neighbourhood { get; init; }

    /// <summary>The data are invented; every page says so.</summary>
    public bool Demo { get; init; }
    public required string YardCode { get; init; }

    /// <summary>The day the list was printed.</summary>
    public required DateOnly AsOf { get; init; }
    public Units Units { get; init; }

    /// <summary>Beds in the order of the entry page.</summary>
    public required IReadOnlyList<WalkBed> Beds { get; init; }

    /// <summary>Where the sheet is typed in, for the QR code; empty to print none.</summary>
    public string EntryAddress { get; init; } = "";
}

/// <summary>A bed and its rows, in the order of the entry page.</summary>
public sealed record WalkBed(string Name, IReadOnlyList<WalkRow> Rows);

/// <summary>A planting as it was last known.</summary>
/// <param name="Patch">Which patch; empty where there is one.</param>
/// <param name="LastStage">In words; empty where nobody noted one.</param>
/// <param name="Marks">Field marks in words; empty where nobody has described the plant.</param>
public sealed record WalkRow(CatalogueTaxon Taxon, string Patch, string Qualifier, double CoverSquareMetres, string LastStage,
    DateOnly LastSeen, Certainty Certainty, IReadOnlyList<string> Marks)
{
    /// <summary>Somebody should look twice.</summary>
    public bool IsDoubtful => Certainty != Certainty.Certain || Qualifier.Length > 0;
}
