using CommonGround.Reports.Charts;

namespace CommonGround.Reports.CrewSheets;

/// <summary>Everything a crew takes along on a work day. It names yards by their code and no household.</summary>
public sealed record CrewSheet
{
    public required string Neighbourhood { get; init; }

    /// <summary>The data are invented; every page says so.</summary>
    public bool Demo { get; init; }
    public required DateOnly On { get; init; }
    public required int People { get; init; }
    public required double Hours { get; init; }

    /// <summary>Of the blanks: m² or ft².</summary>
    public required string AreaUnit { get; init; }

    /// <summary>Length of the walk, in words.</summary>
    public required string Walk { get; init; }

    /// <summary>Null where no street has a shape.</summary>
    public Chart? Map { get; init; }
    public required IReadOnlyList<CrewStop> Stops { get; init; }
    public required IReadOnlyList<CrewPlant> Plants { get; init; }
    public required string Consent { get; init; }
    public required string Waste { get; init; }
}

/// <summary>One stop.</summary>
/// <param name="Place">Code of the yard, or name of the block.</param>
/// <param name="Block">Where the yard lies; empty for a block.</param>
/// <param name="Amount">"16.2 m², 39 % cover".</param>
/// <param name="PersonHours">Of all together.</param>
public sealed record CrewStop(string Place, string Block, string Plant, string Method, string Amount, double PersonHours, bool IsFollowUp);

/// <summary>One plant of the day: its marks, what it is taken for, what must not be done, and cautions.</summary>
public sealed record CrewPlant(string Name, string ScientificName, string Marks, IReadOnlyList<CrewLookAlike> LookAlikes,
    IReadOnlyList<string> MustNot, IReadOnlyList<string> Care);

/// <summary>A plant to leave alone, and by what it is told.</summary>
public sealed record CrewLookAlike(string Name, string Marks);
