using System.IO.Compression;
using System.Text;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.Web.Features.Export;

/// <summary>Sightings and infestations of yards that share, as a Darwin Core Archive: meta.xml, eml.xml and occurrence.csv (Darwin Core
/// text guide, dwc.tdwg.org/text). Nobody's name is in it: no household has been asked for that.</summary>
public static class DarwinCoreArchive
{
    public const string TermsAt = "http://rs.tdwg.org/dwc/terms/", DublinCoreAt = "http://purl.org/dc/terms/";

    /// <summary>The columns of occurrence.csv, each a term of the Darwin Core list of terms (dwc.tdwg.org/list).</summary>
    public static readonly IReadOnlyList<string> Terms =
    [
        "occurrenceID", "license", "datasetName", "basisOfRecord", "eventDate", "kingdom", "family", "scientificName", "taxonRank",
            "vernacularName", "identificationQualifier", "identificationVerificationStatus",
            "establishmentMeans", "degreeOfEstablishment", "occurrenceStatus", "individualCount",
        "organismQuantity", "organismQuantityType", "country", "countryCode", "stateProvince", "decimalLatitude", "decimalLongitude",
            "geodeticDatum", "coordinateUncertaintyInMeters", "dataGeneralizations", "informationWithheld", "locality", "occurrenceRemarks",
        "reproductiveCondition", "samplingProtocol", "samplingEffort",
    ];

    /// <summary>Where a term is defined: the licence is Dublin Core's.</summary>
    public static string Address(string term) => (term == "license" ? DublinCoreAt : TermsAt) + term;

    /// <param name="to">Where the zip goes.</param>
    /// <param name="rows">As exported: generalised unless the exact ones were asked for.</param>
    /// <param name="about">What the data set says of itself.</param>
    /// <param name="exact">Whether positions are as stored.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task WriteAsync(Stream to, ExportedRows rows, DataSet about, bool exact, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(about);
        using var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true);
        foreach (var (name, text) in new[] { ("meta.xml", ArchiveDescription.Meta()),
            ("eml.xml", ArchiveDescription.About(about, rows, exact)), ("occurrence.csv", Occurrences(rows, about, exact)) })
        {
            await using var entry = await zip.CreateEntry(name).OpenAsync(cancel);
            await entry.WriteAsync(Encoding.UTF8.GetBytes(text), cancel);
        }
    }

    private static string Occurrences(ExportedRows rows, DataSet about, bool exact)
    {
        var yards = rows.Places.Where(p => p.Shared).ToDictionary(p => p.Yard, StringComparer.Ordinal);
        var seen = rows.Sightings.Where(s => yards.ContainsKey(s.Yard))
            .Select(s => new Occurrence(s.Key, yards[s.Yard], s.Name, s.ObservedOn, s.Certainty, s.Origin,
                s.CoverSquareMetres is 0 || s.Count is 0 || s.Finding != Finding.Growing, s.Count, s.CoverSquareMetres, s.Remarks)
            { Stage = s.GrowthStage, Walk = rows.Walks.GetValueOrDefault((s.Yard, s.ObservedOn)) });
        var unwanted = rows.Infestations.Where(i => yards.ContainsKey(i.Yard))
            .Select(i => new Occurrence(i.Key, yards[i.Yard], i.Name, i.ObservedOn, Certainty.Certain, Origin.Unknown,
                i.AreaSquareMetres == 0, null, i.AreaSquareMetres * (i.CoverPercent ?? 0) / 100, i.Remarks)
            { Stage = i.GrowthStage, Walk = rows.Walks.GetValueOrDefault((i.Yard, i.ObservedOn)) });
        return CsvText.Write(Terms, seen.Concat(unwanted).Select(o => Row(o, rows.Taxa.GetValueOrDefault(o.Name.Name), about, exact)));
    }

    /// <param name="Gone">The plant was looked for and is not there: an absence has no number and no cover.</param>
    private sealed record Occurrence(Guid Key, PlaceRow Yard, TaxonName Name, DateOnly Day, Certainty Certainty, Origin Origin, bool Gone,
        int? Count, double? Cover, string Remarks)
    {
        /// <summary>BBCH principal stage, 0–9.</summary>
        public int? Stage { get; init; }

        /// <summary>The walk of that yard and day, where one kept its time.</summary>
        public WalkEffort? Walk { get; init; }
    }

    private static string[] Row(Occurrence o, CatalogueTaxon? taxon, DataSet about, bool exact) =>
    [
        $"urn:uuid:{o.Key}", about.Licence.Address, CsvText.Guard(about.Title), "HumanObservation", CsvText.Day(o.Day), "Plantae",
            CsvText.Guard(taxon?.Family ?? ""), CsvText.Guard(o.Name.Name), Rank(o.Name.Name, taxon),
            CsvText.Guard(taxon?.CommonNames is [var common, ..] ? common : ""), o.Name.Qualifier,
            o.Certainty.ToString().ToLowerInvariant(), Means(taxon), Degree(o, taxon), o.Gone ? "absent" : "present",
            o.Gone ? "" : CsvText.Number(o.Count),
        o.Gone ? "" : CsvText.Number(o.Cover), o.Gone || o.Cover is null ? "" : "square metres covered", about.Country, about.CountryCode,
            about.State, CsvText.Number(o.Yard.Latitude), CsvText.Number(o.Yard.Longitude),
            "EPSG:4326", exact ? "" : CsvText.Number(PlaceOffset.FarthestMetres), exact ? "" : PlaceOffset.Generalised,
        exact ? "" : PlaceOffset.Withheld, exact ? CsvText.Guard($"{o.Yard.Street}, {o.Yard.Block}") : "", CsvText.Guard(o.Remarks),
        o.Gone ? "" : Plants.PlantWords.Stage(o.Stage), o.Walk is null ? "" : "each planting of the yard looked at in turn",
        o.Walk is { } walk ? $"{walk.Minutes} minutes, {walk.Looked} plantings" : "",
    ];

    /// <summary>The taxon's standing in the region, by the vocabulary of dwc:establishmentMeans (rs.tdwg.org/dwcem/values): a native plant
    /// that was planted is still native, how it came is told by the degree of establishment.</summary>
    private static string Means(CatalogueTaxon? taxon) => taxon?.Nativity switch
    {
        Nativity.Native => "native",
        Nativity.Introduced => "introduced",
        _ => "uncertain",
    };

    /// <summary>By the vocabulary of dwc:degreeOfEstablishment (rs.tdwg.org/dwcdoe/values); blank where the record does not tell.</summary>
    private static string Degree(Occurrence o, CatalogueTaxon? taxon) => o.Origin switch
    {
        Origin.Planted => "cultivated",
        Origin.Relict when taxon?.Nativity == Nativity.Native => "native",
        _ => "",
    };

    private static string Rank(string name, CatalogueTaxon? taxon) => taxon switch
    {
        { Rank: RecordedRank.Genus } => "genus",
        { Rank: RecordedRank.Aggregate } => "speciesAggregate",
        _ when name.Contains(" subsp. ", StringComparison.Ordinal) => "subspecies",
        _ when name.Contains(" var. ", StringComparison.Ordinal) => "variety",
        _ when name.Contains(" f. ", StringComparison.Ordinal) => "form",
        { Nativity: Nativity.Native or Nativity.Introduced } => "species",
        // A name the catalogue does not list may be of any rank.
        _ => "",
    };
}
