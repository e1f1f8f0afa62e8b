using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;

namespace CommonGround.Reports.YardReports;

/// <summary>The units a group reads. Values in records are always metric.</summary>
public enum Units
{
    /// <summary>Square metres and metres.</summary>
    Metric,

    /// <summary>Square feet and feet, 0.3048 m each.</summary>
    UsCustomary,
}

/// <summary>Everything the report of one yard says. It holds no household name and no position: paper gets left lying about.</summary>
public sealed record YardReport
{
    /// <summary>Name of the neighbourhood.</summary>
    public required string Neighbourhood { get; init; }

    /// <summary>The data are invented; every page says so.</summary>
    public bool Demo { get; init; }

    /// <summary>The yard's code, for example LA-07.</summary>
    public required string YardCode { get; init; }
    public required string Block { get; init; }

    /// <summary>The day all figures describe.</summary>
    public required DateOnly AsOf { get; init; }

    /// <summary>What dates of bloom rest on, in one sentence; empty to name the catalogue's places.</summary>
    public string BloomDates { get; init; } = "";

    /// <summary>Name of the regional table that C values come from; empty to say what each plant's value names.</summary>
    public string Table { get; init; } = "";
    public Units Units { get; init; }
    public Season Season { get; init; } = Season.Default;
    public required double YardSquareMetres { get; init; }

    /// <summary>Null where nobody has said.</summary>
    public double? LawnSquareMetres { get; init; }
    public Light? Light { get; init; }
    public Moisture? Moisture { get; init; }
    public SoilGroup? SoilGroup { get; init; }

    /// <summary>Beds in the order to print them.</summary>
    public IReadOnlyList<ReportBed> Beds { get; init; } = [];

    /// <summary>The yard's measures as of <see cref="AsOf"/>.</summary>
    public required SiteMeasures Measures { get; init; }
    public required ReportStreet Street { get; init; }

    /// <summary>First suggestions for the yard, best first.</summary>
    public IReadOnlyList<GapSuggestion> Suggestions { get; init; } = [];

    /// <summary>Who finds food in the yard, and what would feed most more; nothing where there is no record of visitors.</summary>
    public FedVisitors Visitors { get; init; } = FedVisitors.None;

    /// <summary>Unwanted plants recorded in the yard and not closed.</summary>
    public IReadOnlyList<ReportInfestation> Infestations { get; init; } = [];

    /// <summary>One entry a season, oldest first; the last may be today.</summary>
    public IReadOnlyList<ReportSeason> History { get; init; } = [];
}

/// <summary>A bed and what grows in it.</summary>
/// <param name="AreaSquareMetres">Null where nobody has measured it.</param>
public sealed record ReportBed(string Name, double? AreaSquareMetres, IReadOnlyList<ReportPlanting> Plantings);

/// <summary>A planting: the latest sighting of a taxon in a bed.</summary>
/// <param name="Qualifier">"cf." or "aff." where the observer wrote it; else empty.</param>
/// <param name="CoverDerived">The cover was worked out from a count and the catalogue's spacing.</param>
public sealed record ReportPlanting(CatalogueTaxon Taxon, double CoverSquareMetres, Certainty Certainty, Origin Origin,
    string Qualifier = "", bool CoverDerived = false);

/// <summary>The street the yard lies on; it is printed only when it has at least three yards.</summary>
/// <param name="Blocks">Blocks that <paramref name="Measures"/> sum up.</param>
public sealed record ReportStreet(string Name, int Blocks, SiteMeasures Measures)
{
    /// <summary>With fewer yards, two households could tell each other's figures apart.</summary>
    public const int YardsToShow = 3;

    public bool MayBeShown => Measures.Yards >= YardsToShow;
}

/// <summary>An unwanted plant in the yard.</summary>
/// <param name="CoverPercent">Of the area, 0–100.</param>
public sealed record ReportInfestation(CatalogueTaxon Taxon, double AreaSquareMetres, double CoverPercent, DateOnly ObservedOn);

/// <summary>One season's figures, as of its last day or of the report's.</summary>
public sealed record ReportSeason(DateOnly AsOf, SiteMeasures Measures, double CoverSquareMetres);
