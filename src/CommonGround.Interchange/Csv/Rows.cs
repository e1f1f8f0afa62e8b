using System.Collections.Frozen;
using System.Text.Json.Serialization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>A yard. <c>null</c> means the cell was left blank: not known.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Street">Street the block belongs to.</param>
/// <param name="Block">Unique within its street.</param>
/// <param name="Yard">Code, unique in the file whatever its case; empty where the file has none and one is to be made.</param>
/// <param name="Latitude">Degrees north, −90 to 90.</param>
/// <param name="Longitude">Degrees east, −180 to 180.</param>
/// <param name="YardSquareMetres">Above 0.</param>
/// <param name="LawnSquareMetres">0 to <paramref name="YardSquareMetres"/>.</param>
/// <param name="Light">Of most of the yard.</param>
/// <param name="Moisture">Of most of the yard.</param>
/// <param name="SoilGroup">NRCS hydrologic soil group.</param>
/// <param name="Household">Label for the household; may be empty.</param>
/// <param name="Shared">Consent to share; a blank cell is no.</param>
public sealed record PlaceRow(int Line, string Street, string Block, string Yard, double Latitude, double Longitude,
    double YardSquareMetres,
    double? LawnSquareMetres, Light? Light, Moisture? Moisture, SoilGroup? SoilGroup, string Household, bool Shared)
{
    /// <summary>Whether latitude and longitude are given; without them the yard stands in the middle of its block.</summary>
    [JsonIgnore]
    public bool HasPoint { get; init; } = true;

    /// <summary>Columns that the file does not have: of a yard that is known they say nothing, where a blank cell says "not
    /// known".</summary>
    [JsonIgnore]
    public IReadOnlySet<string> Untold { get; init; } = FrozenSet<string>.Empty;
}

/// <summary>A bed of a yard. Blank light and moisture are the yard's.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Yard">Code of its yard.</param>
/// <param name="Bed">Name, unique within its yard.</param>
/// <param name="AreaSquareMetres">Above 0; null when not measured.</param>
/// <param name="EstablishedOn">Day it was first planted.</param>
/// <param name="Light">Overrides the yard's.</param>
/// <param name="Moisture">Overrides the yard's.</param>
public sealed record BedRow(int Line, string Yard, string Bed, double? AreaSquareMetres, DateOnly? EstablishedOn, Light? Light,
    Moisture? Moisture)
{
    /// <summary>Columns that the file does not have: of a bed that is known they say nothing.</summary>
    [JsonIgnore]
    public IReadOnlySet<string> Untold { get; init; } = FrozenSet<string>.Empty;
}

/// <summary>A dated record of one taxon in one bed. At least one of cover and count is given.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Yard">Code of its yard.</param>
/// <param name="Bed">Name of its bed.</param>
/// <param name="Name">The name as written, with cf. or aff. taken out of it.</param>
/// <param name="ObservedOn">Day of the walk.</param>
/// <param name="CoverSquareMetres">0 or more; 0 ends the planting.</param>
/// <param name="Count">Plants or stems, 0 or more.</param>
/// <param name="Origin">A blank cell is unknown.</param>
/// <param name="Certainty">A blank cell is probable; never certain beside cf. or aff.</param>
/// <param name="GrowthStage">BBCH principal stage 0–9.</param>
/// <param name="Observer">Who saw it; may be empty.</param>
/// <param name="Remarks">May be empty.</param>
public sealed record SightingRow(int Line, string Yard, string Bed, TaxonName Name, DateOnly ObservedOn, double? CoverSquareMetres,
    int? Count,
    Origin Origin, Certainty Certainty, int? GrowthStage, string Observer, string Remarks)
{
    /// <summary>Which of several patches of the plant in the bed; empty where there is one.</summary>
    public string Patch { get; init; } = "";

    /// <summary>A blank cell is growing, or ended where the cover is 0.</summary>
    public Finding Finding { get; init; }

    /// <summary>Who checked the name; may be empty.</summary>
    public string VerifiedBy { get; init; } = "";

    /// <summary>Where in the bed, in words; may be empty.</summary>
    public string PlaceInBed { get; init; } = "";

    /// <summary>Seed collected that day, g, above 0.</summary>
    public double? SeedGrams { get; init; }

    /// <summary>Columns that the file does not have: of a sighting that is known they say nothing.</summary>
    [JsonIgnore]
    public IReadOnlySet<string> Untold { get; init; } = FrozenSet<string>.Empty;

    /// <summary>Names the record for the world where it is taken out; a file that is read has none.</summary>
    public Guid Key { get; init; }
}

/// <summary>A dated record of an unwanted taxon in a yard or, where the yard is not known, a block.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Yard">Code of its yard; empty when only the block is known.</param>
/// <param name="Block">The block's name, or "street, block" where two streets have a block of that name; empty when the yard says
/// it.</param>
/// <param name="Name">The name as written, with cf. or aff. taken out of it.</param>
/// <param name="ObservedOn">Day it was seen.</param>
/// <param name="AreaSquareMetres">Infested area, 0 or more; 0 closes it.</param>
/// <param name="CoverPercent">Share of that area covered, 0–100; may be null only where the area is 0.</param>
/// <param name="GrowthStage">BBCH principal stage 0–9.</param>
/// <param name="Remarks">May be empty.</param>
public sealed record InfestationRow(int Line, string Yard, string Block, TaxonName Name, DateOnly ObservedOn, double AreaSquareMetres,
    double? CoverPercent, int? GrowthStage, string Remarks)
{
    /// <inheritdoc cref="SightingRow.Key"/>
    public Guid Key { get; init; }
}

/// <summary>A day's rain.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Date">One row a day.</param>
/// <param name="RainMillimetres">0–2000 mm.</param>
public sealed record RainRow(int Line, DateOnly Date, double RainMillimetres);

/// <summary>A day's lowest and highest air temperature.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Date">One row a day.</param>
/// <param name="MinimumCelsius">−90 to 60 °C, not above the maximum.</param>
/// <param name="MaximumCelsius">−90 to 60 °C.</param>
public sealed record TemperatureRow(int Line, DateOnly Date, double MinimumCelsius, double MaximumCelsius);

/// <summary>What a plant costs here. <c>null</c> means the cell was left blank: nobody knows.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="ScientificName">As written; one row a plant.</param>
/// <param name="SeedPerGram">Money for a gram of pure live seed, 0–10000.</param>
/// <param name="PlugEach">Money for a plug, 0–10000.</param>
public sealed record PlantPriceRow(int Line, string ScientificName, double? SeedPerGram, double? PlugEach);

/// <summary>A value of a plant that the group has put in the catalogue's place.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="ScientificName">As written.</param>
/// <param name="Trait">One of <see cref="Catalogue.PlantTraits.All"/>.</param>
/// <param name="Value">As a catalogue file would hold it.</param>
/// <param name="Reason">Why the group knows better.</param>
public sealed record PlantOverrideRow(int Line, string ScientificName, string Trait, string Value, string Reason);
