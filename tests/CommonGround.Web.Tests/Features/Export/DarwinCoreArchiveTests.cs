using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using CommonGround.Interchange;
using CommonGround.Web.Features.Export;

namespace CommonGround.Web.Tests.Features.Export;

public class DarwinCoreArchiveTests
{
    /// <summary>Terms of record, occurrence, event, location, identification and taxon, from TDWG's list of the occurrence core:
    /// github.com/tdwg/dwc, dist/dwc_occurrence_core_horizontal.csv at commit c13a04a.</summary>
    private static readonly string[] Published =
    [
        "type", "modified", "language", "license", "rightsHolder", "accessRights", "bibliographicCitation", "references", "institutionID",
            "collectionID",
        "datasetID", "institutionCode", "collectionCode", "datasetName", "ownerInstitutionCode", "basisOfRecord", "informationWithheld",
            "dataGeneralizations", "dynamicProperties", "feedbackURL",
        "occurrenceID", "recordedBy", "recordedByID", "individualCount", "organismQuantity", "organismQuantityType", "sex", "lifeStage",
            "reproductiveCondition", "caste",
        "behavior", "vitality", "establishmentMeans", "degreeOfEstablishment", "pathway", "substrate", "occurrenceStatus",
            "associatedMedia", "associatedOccurrences", "associatedReferences",
        "associatedTaxa", "occurrenceRemarks", "eventID", "parentEventID", "eventCategory", "eventType", "fieldNumber", "eventDate",
            "eventTime", "startDayOfYear",
        "endDayOfYear", "year", "month", "day", "verbatimEventDate", "habitat", "samplingProtocol", "locationID", "higherGeographyID",
            "higherGeography",
        "continent", "country", "countryCode", "stateProvince", "county", "municipality", "locality", "verbatimLocality",
            "locationAccordingTo", "locationRemarks",
        "georeferenceVerificationStatus", "decimalLatitude", "decimalLongitude", "geodeticDatum", "coordinateUncertaintyInMeters",
            "coordinatePrecision", "identificationID", "identificationType", "verbatimIdentification", "isAcceptedIdentification",
        "identificationQualifier", "typeStatus", "identifiedBy", "identifiedByID", "dateIdentified", "identificationReferences",
            "identificationVerificationStatus", "identificationRemarks", "taxonID", "scientificNameID",
        "scientificName", "family", "genus", "taxonRank", "vernacularName", "taxonRemarks",
    ];

    [Fact]
    public void Every_column_is_a_term_of_Darwin_Core() => DarwinCoreArchive.Terms.Except(Published).ShouldBeEmpty();

    /// <summary>Darwin Core text guide, section 2: one core with a row type and an id, each field an index and a term, the files
    /// named.</summary>
    [Fact]
    public async Task The_description_names_each_column_of_the_file_in_its_order()
    {
        var files = await FilesAsync(exact: false);
        var meta = XDocument.Parse(files["meta.xml"]).Root!;
        XNamespace text = "http://rs.tdwg.org/dwc/text/";
        var core = meta.Element(text + "core")!;
        (meta.Name, core.Attribute("rowType")!.Value).ShouldBe((text + "archive", "http://rs.tdwg.org/dwc/terms/Occurrence"));
        core.Element(text + "files")!.Element(text + "location")!.Value.ShouldBe("occurrence.csv");
        var fields = core.Elements(text + "field").ToList();
        fields.Select(f => f.Attribute("index")!.Value).ShouldBe(Enumerable.Range(0, fields.Count).Select(i => $"{i}"));
        string.Join(',', fields.Select(f => f.Attribute("term")!.Value.Replace("http://rs.tdwg.org/dwc/terms/", "",
            StringComparison.Ordinal))).ShouldBe(files["occurrence.csv"].Split("\r\n")[0]);
        files.ShouldContainKey(meta.Attribute("metadata")!.Value);
    }

    [Fact]
    public async Task Only_yards_that_share_are_in_it_and_their_positions_are_coarse()
    {
        var rows = (await FilesAsync(exact: false))["occurrence.csv"];
        rows.ShouldContain("/bed 1/Monarda fistulosa/2026-08-01,HumanObservation,2026-08-01,Monarda fistulosa");
        foreach (var withheld in new[] { "S-1", "front", "North", "A to B", "=1+1" })
        {
            rows.ShouldNotContain(withheld);
        }

        rows.ShouldContain(PlaceOffset.Withheld);
        rows.ShouldContain("cultivated,present");
        rows.ShouldContain(PlaceOffset.Generalised);
        rows.ShouldNotContain("N-2");
        rows.ShouldNotContain("41.872565");
        var exact = (await FilesAsync(exact: true))["occurrence.csv"];
        exact.ShouldContain("41.872565");
        exact.ShouldContain("\"North, A to B\"");
    }

    [Fact]
    public async Task The_workbook_of_everything_comes_back_and_changes_nothing()
    {
        using var garden = await LaidAsync();
        using var file = new MemoryStream();
        WorkbookExport.Write(file, await garden.Export.RowsAsync(exact: true));
        var sheets = ImportFile.ReadAll("book.xlsx", file.ToArray());
        sheets.SelectMany(s => s.Errors).ShouldBeEmpty();
        sheets.Select(s => s.Kind).ShouldBe([ImportKind.Places, ImportKind.Beds, ImportKind.Sightings, ImportKind.Infestations,
            ImportKind.Rain, ImportKind.Temperature, ImportKind.Prices, ImportKind.Overrides]);
        var outcome = await new CommonGround.Web.Features.Import.ImportFiles(garden.Database, garden.Neighbourhood).RunAsync(sheets,
            new(false, false, Garden.Today), null, CancellationToken.None);
        outcome.Errors.ShouldBeEmpty();
        outcome.Changed.ShouldBeFalse();
        outcome.Counts.Sum(c => c.Unchanged).ShouldBe(6);
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A to B,S-1,41.872565,-88.56146,100,yes\nNorth,A to "
                + "B,N-2,41.6,-88.6,100,no\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2,origin,remarks\nS-1,front,Monarda fistulosa,2026-08-01,1.5,planted,=1+1\n"
                    + "N-2,007,Monarda fistulosa,2026-08-01,1,,\n"));
        return garden;
    }

    private static async Task<Dictionary<string, string>> FilesAsync(bool exact)
    {
        using var garden = await LaidAsync();
        using var file = new MemoryStream();
        await DarwinCoreArchive.WriteAsync(file, await garden.Export.RowsAsync(exact), "Testgrund", Garden.Today, exact,
            CancellationToken.None);
        using var zip = new ZipArchive(file, ZipArchiveMode.Read);
        return zip.Entries.ToDictionary(e => e.FullName, e =>
        {
            using var reader = new StreamReader(e.Open(), Encoding.UTF8);
            return reader.ReadToEnd();
        });
    }
}
