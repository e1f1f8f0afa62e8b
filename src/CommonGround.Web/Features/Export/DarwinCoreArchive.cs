using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.Web.Features.Export;

/// <summary>Sightings and infestations of yards that share, as a Darwin Core Archive: meta.xml, eml.xml and occurrence.csv (Darwin Core
/// text guide, dwc.tdwg.org/text).</summary>
public static class DarwinCoreArchive
{
    public const string TermsAt = "http://rs.tdwg.org/dwc/terms/";

    /// <summary>The columns of occurrence.csv, each a term of the Darwin Core list of terms (dwc.tdwg.org/list).</summary>
    public static readonly IReadOnlyList<string> Terms =
    [
        "occurrenceID", "basisOfRecord", "eventDate", "scientificName", "identificationQualifier", "identificationVerificationStatus",
            "establishmentMeans", "degreeOfEstablishment", "occurrenceStatus", "individualCount",
        "organismQuantity", "organismQuantityType", "decimalLatitude", "decimalLongitude", "geodeticDatum",
            "coordinateUncertaintyInMeters", "dataGeneralizations", "informationWithheld", "locality", "occurrenceRemarks",
    ];

    private static readonly XNamespace Text = "http://rs.tdwg.org/dwc/text/", Eml = "https://eml.ecoinformatics.org/eml-2.2.0";

    /// <param name="to">Where the zip goes.</param>
    /// <param name="rows">As exported: generalised unless the exact ones were asked for.</param>
    /// <param name="title">The neighbourhood's name.</param>
    /// <param name="day">Day of publication.</param>
    /// <param name="exact">Whether positions are as stored.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task WriteAsync(Stream to, ExportedRows rows, string title, DateOnly day, bool exact, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(rows);
        using var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true);
        foreach (var (name, text) in new[] { ("meta.xml", Meta()), ("eml.xml", About(title, day, exact)),
            ("occurrence.csv", Occurrences(rows, exact)) })
        {
            await using var entry = await zip.CreateEntry(name).OpenAsync(cancel);
            await entry.WriteAsync(Encoding.UTF8.GetBytes(text), cancel);
        }
    }

    private static string Occurrences(ExportedRows rows, bool exact)
    {
        var yards = rows.Places.Where(p => p.Shared).ToDictionary(p => p.Yard, StringComparer.Ordinal);
        var seen = rows.Sightings.Where(s => yards.ContainsKey(s.Yard))
            .Select(s => Row($"{s.Yard}/{s.Bed}/{s.Name.Name}{(s.Patch.Length > 0 ? "/" + s.Patch : "")}/{CsvText.Day(s.ObservedOn)}",
            yards[s.Yard], s.Name, s.ObservedOn, s.Certainty,
            s.Origin, s.CoverSquareMetres is 0 || s.Count is 0, s.Count, s.CoverSquareMetres, s.Remarks, exact));
        var unwanted = rows.Infestations.Where(i => yards.ContainsKey(i.Yard))
            .Select(i => Row($"{i.Yard}//{i.Name.Name}/{CsvText.Day(i.ObservedOn)}", yards[i.Yard], i.Name, i.ObservedOn, Certainty.Certain,
            Origin.Unknown, i.AreaSquareMetres == 0, null, i.AreaSquareMetres * (i.CoverPercent ?? 0) / 100, i.Remarks, exact));
        return CsvText.Write(Terms, seen.Concat(unwanted));
    }

    private static string[] Row(string id, PlaceRow yard, TaxonName name, DateOnly day, Certainty certainty, Origin origin, bool gone,
        int? count, double? cover, string remarks, bool exact) =>
    [
        CsvText.Guard(id), "HumanObservation", CsvText.Day(day), CsvText.Guard(name.Name), name.Qualifier,
            certainty.ToString().ToLowerInvariant(), origin == Origin.Relict ? "native" : "", origin == Origin.Planted ? "cultivated" : "",
                gone ? "absent" : "present", CsvText.Number(count),
        CsvText.Number(cover), cover is null ? "" : "square metres covered", CsvText.Number(yard.Latitude), CsvText.Number(yard.Longitude),
            "EPSG:4326", exact ? "" : CsvText.Number(PlaceOffset.FarthestMetres), exact ? "" : PlaceOffset.Generalised,
        exact ? "" : PlaceOffset.Withheld, exact ? CsvText.Guard($"{yard.Street}, {yard.Block}") : "", CsvText.Guard(remarks),
    ];

    private static string Meta() => Declared(new XElement(Text + "archive", new XAttribute("metadata", "eml.xml"),
        new XElement(Text + "core", new XAttribute("encoding", "UTF-8"), new XAttribute("fieldsTerminatedBy", ","),
            new XAttribute("linesTerminatedBy", "\\r\\n"), new XAttribute("fieldsEnclosedBy", "\""),
                new XAttribute("ignoreHeaderLines", "1"), new XAttribute("rowType", TermsAt + "Occurrence"),
            new XElement(Text + "files", new XElement(Text + "location", "occurrence.csv")),
                new XElement(Text + "id", new XAttribute("index", "0")),
            Terms.Select((term, i) => new XElement(Text + "field", new XAttribute("index", i), new XAttribute("term", TermsAt + term))))));

    private static string About(string title, DateOnly day, bool exact) =>
        Declared(new XElement(Eml + "eml", new XAttribute(XNamespace.Xmlns + "eml", Eml),
            new XAttribute("packageId", $"{title} {CsvText.Day(day)}"), new XAttribute("system", "CommonGround"),
        new XElement("dataset", new XElement("title", $"Plants recorded in the yards of {title}"),
            new XElement("creator", new XElement("organizationName", title)), new XElement("pubDate", CsvText.Day(day)),
            new XElement("abstract", new XElement("para", "Plants seen in yards that share their record, and unwanted plants among them. "
                + (exact ? "" : PlaceOffset.Generalised + " " + PlaceOffset.Withheld))),
                new XElement("contact", new XElement("organizationName", title)))));

    private static string Declared(XElement root) => "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + root.ToString(SaveOptions.None)
        + "\n";
}
