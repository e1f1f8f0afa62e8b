using System.Xml.Linq;
using CommonGround.Interchange.Csv;

namespace CommonGround.Web.Features.Export;

/// <summary>A licence that a group may give its record.</summary>
/// <param name="Key">As an address or a command says it.</param>
/// <param name="Address">Where it stands.</param>
public sealed record Licence(string Key, string Words, string Address)
{
    /// <summary>The licences that publishers of biodiversity data ask for, the freest first.</summary>
    public static readonly IReadOnlyList<Licence> All =
    [
        new("cc0", "CC0 1.0: free for every use", "http://creativecommons.org/publicdomain/zero/1.0/legalcode"),
        new("cc-by", "CC BY 4.0: free, the group is to be named", "http://creativecommons.org/licenses/by/4.0/legalcode"),
        new("cc-by-nc", "CC BY-NC 4.0: the group is to be named, no commercial use",
            "http://creativecommons.org/licenses/by-nc/4.0/legalcode"),
    ];

    public static Licence? Keyed(string? key) => All.FirstOrDefault(l => l.Key == key);
}

/// <summary>What a data set says of itself.</summary>
/// <param name="Group">Name of the neighbourhood.</param>
/// <param name="Day">Day of publication.</param>
/// <param name="Licence">Chosen by the group.</param>
/// <param name="ContactName">Whom to ask; empty: the group.</param>
/// <param name="ContactEmail">Where to ask; may be empty.</param>
/// <param name="State">Two letters of a state of the United States; empty where the group has not said where it is.</param>
public sealed record DataSet(string Group, DateOnly Day, Licence Licence, string ContactName, string ContactEmail, string State)
{
    public string Title => $"Plants recorded in the yards of {Group}";

    public string Country => State.Length > 0 ? "United States" : "";

    /// <summary>ISO 3166-1 alpha-2.</summary>
    public string CountryCode => State.Length > 0 ? "US" : "";
}

/// <summary>The two descriptions in a Darwin Core Archive: which column is which term, and what the data set is (EML 2.2.0).</summary>
internal static class ArchiveDescription
{
    private static readonly XNamespace Text = "http://rs.tdwg.org/dwc/text/", Eml = "https://eml.ecoinformatics.org/eml-2.2.0";

    public static string Meta() => Declared(new XElement(Text + "archive", new XAttribute("metadata", "eml.xml"),
        new XElement(Text + "core", new XAttribute("encoding", "UTF-8"), new XAttribute("fieldsTerminatedBy", ","),
            new XAttribute("linesTerminatedBy", "\\r\\n"), new XAttribute("fieldsEnclosedBy", "\""),
                new XAttribute("ignoreHeaderLines", "1"), new XAttribute("rowType", DarwinCoreArchive.TermsAt + "Occurrence"),
            new XElement(Text + "files", new XElement(Text + "location", "occurrence.csv")),
                new XElement(Text + "id", new XAttribute("index", "0")),
            DarwinCoreArchive.Terms.Select((term, i) => new XElement(Text + "field", new XAttribute("index", i),
                new XAttribute("term", DarwinCoreArchive.Address(term)))))));

    public static string About(DataSet about, ExportedRows rows, bool exact) =>
        Declared(new XElement(Eml + "eml", new XAttribute(XNamespace.Xmlns + "eml", Eml),
            new XAttribute("packageId", $"{about.Group} {CsvText.Day(about.Day)}"), new XAttribute("system", "CommonGround"),
        new XElement("dataset", new XElement("title", about.Title),
            new XElement("creator", new XElement("organizationName", about.Group)), new XElement("pubDate", CsvText.Day(about.Day)),
            new XElement("language", "en"),
            new XElement("abstract", new XElement("para", "Plants seen in yards that share their record, and unwanted plants among them. "
                + (exact ? "" : PlaceOffset.Generalised + " " + PlaceOffset.Withheld))),
            new XElement("intellectualRights", new XElement("para", $"This work is licensed under {about.Licence.Words} "
                + $"({about.Licence.Address}).")),
            new XElement("licensed", new XElement("licenseName", about.Licence.Words), new XElement("url", about.Licence.Address)),
            Coverage(about, rows),
            new XElement("contact", about.ContactName.Length > 0 ? new XElement("individualName",
                new XElement("surName", about.ContactName)) : null, new XElement("organizationName", about.Group),
                about.ContactEmail.Length > 0 ? new XElement("electronicMailAddress", about.ContactEmail) : null))));

    /// <summary>The ground, the days and the kingdom that the rows cover; rounded to a hundredth of a degree, about a kilometre.</summary>
    private static XElement? Coverage(DataSet about, ExportedRows rows)
    {
        var places = rows.Places.Where(p => p.Shared).ToList();
        if (places.Count == 0)
        {
            return null;
        }

        var days = rows.Sightings.Select(s => s.ObservedOn).Concat(rows.Infestations.Select(i => i.ObservedOn)).ToList();
        static string Degree(double value) => CsvText.Number(Math.Round(value, 2));
        return new XElement("coverage",
            new XElement("geographicCoverage", new XElement("geographicDescription", about.Group
                + (about.State.Length > 0 ? $", {about.State}, United States" : "")),
                new XElement("boundingCoordinates",
                    new XElement("westBoundingCoordinate", Degree(places.Min(p => p.Longitude) - 0.005)),
                    new XElement("eastBoundingCoordinate", Degree(places.Max(p => p.Longitude) + 0.005)),
                    new XElement("northBoundingCoordinate", Degree(places.Max(p => p.Latitude) + 0.005)),
                    new XElement("southBoundingCoordinate", Degree(places.Min(p => p.Latitude) - 0.005)))),
            days.Count == 0 ? null : new XElement("temporalCoverage", new XElement("rangeOfDates",
                new XElement("beginDate", new XElement("calendarDate", CsvText.Day(days.Min()))),
                new XElement("endDate", new XElement("calendarDate", CsvText.Day(days.Max()))))),
            new XElement("taxonomicCoverage", new XElement("taxonomicClassification", new XElement("taxonRankName", "kingdom"),
                new XElement("taxonRankValue", "Plantae"))));
    }

    private static string Declared(XElement root) => "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + root.ToString(SaveOptions.None)
        + "\n";
}
