using CommonGround.Planning.Conversion;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Everything the report of one conversion plan says. It holds no household name and no position: paper gets left lying
/// about.</summary>
public sealed record ConversionReport
{
    /// <summary>Name of the neighbourhood.</summary>
    public required string Neighbourhood { get; init; }

    /// <summary>The data are invented; every page says so.</summary>
    public bool Demo { get; init; }

    /// <summary>The yard's code, for example KI-12.</summary>
    public required string YardCode { get; init; }

    /// <summary>Street the yard lies on; empty when not known.</summary>
    public string Street { get; init; } = "";

    /// <summary>The day all figures describe.</summary>
    public required DateOnly AsOf { get; init; }

    /// <summary>What dates of bloom rest on, in one sentence; empty to name the catalogue's places.</summary>
    public string BloomDates { get; init; } = "";
    public Units Units { get; init; }

    /// <summary>Size of the whole yard; null where nobody has measured it.</summary>
    public double? YardSquareMetres { get; init; }

    /// <summary>The yard's corners, metres east and north of its own corner, in the areas' own measure; empty when not drawn.</summary>
    public IReadOnlyList<PlanPoint> YardOutline { get; init; } = [];
    public required ConversionPlan Plan { get; init; }

    /// <summary>The group has no prices: no cost is printed, and the report says why.</summary>
    public bool NoPrices { get; init; }

    /// <summary>Sign of the group's money.</summary>
    public string Currency { get; init; } = "$";

    /// <summary>Why <see cref="ConversionPlan.Water"/> is null, in words.</summary>
    public IReadOnlyList<string> WaterProblems { get; init; } = [];

    /// <summary>The planting in four seasons, in the order of the year; empty to print none.</summary>
    public IReadOnlyList<Drawings.Pens.Picture> Scenes { get; init; } = [];

    /// <summary>The yard's newest photo of all of it, as JPEG; null for none.</summary>
    public ReportPhoto? Photo { get; init; }

    /// <summary>Height of the tallest plant along the walk, m, in the third year; null where no bed could be drawn.</summary>
    public double? WalkHeightMetres { get; init; }

    /// <summary>What the group has written down of its town and of growers; blanks print nothing but a hint to ask.</summary>
    public LocalNotes Local { get; init; } = new();

    /// <summary>Who comes, by the names people use.</summary>
    public IReadOnlyList<ComingVisitor> Visitors { get; init; } = [];

    /// <summary>Where the plan's page is found, for the QR code; empty to print none.</summary>
    public string PlanAddress { get; init; } = "";
}

/// <summary>A photo of the yard.</summary>
/// <param name="Jpeg">The file.</param>
/// <param name="TakenOn">The day.</param>
/// <param name="Caption">The household's words; may be empty.</param>
public sealed record ReportPhoto(byte[] Jpeg, DateOnly TakenOn, string Caption);

/// <summary>What holds in the group's own town, as the group typed it.</summary>
public sealed record LocalNotes
{
    /// <summary>What the town's ordinance says of plant height and front yards; empty where nobody entered it.</summary>
    public string Ordinance { get; init; } = "";

    /// <summary>Where it stands, and as of when.</summary>
    public string OrdinanceSource { get; init; } = "";

    /// <summary>Where to get plants and seed, a line each.</summary>
    public string WhereToGetPlants { get; init; } = "";
}
