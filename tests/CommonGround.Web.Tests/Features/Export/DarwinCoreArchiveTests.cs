using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using CommonGround.Interchange;
using CommonGround.Web.Features.Export;
using Microsoft.EntityFrameworkCore;

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
        "scientificName", "kingdom", "family", "genus", "taxonRank", "vernacularName", "taxonRemarks",
        // Of the event class, not in that file: dwc.tdwg.org/list (from memory).
        "samplingEffort",
    ];

    /// <summary>controlled_value_string of TDWG's vocabulary of establishmentMeans: github.com/tdwg/rs.tdwg.org,
    /// establishmentMeans/establishmentMeans.csv at commit 6f86959.</summary>
    private static readonly string[] MeansPublished = ["native", "nativeReintroduced", "introduced", "introducedAssistedColonisation",
        "vagrant", "uncertain", "nativeEndemic"];

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
        string.Join(',', fields.Select(f => f.Attribute("term")!.Value.Split('/')[^1])).ShouldBe(files["occurrence.csv"].Split("\r\n")[0]);
        files.ShouldContainKey(meta.Attribute("metadata")!.Value);
    }

    [Fact]
    public async Task Only_yards_that_share_are_in_it_and_their_positions_are_coarse()
    {
        var rows = (await FilesAsync(exact: false))["occurrence.csv"];
        rows.ShouldContain(",HumanObservation,2026-08-01,Plantae,,Monarda fistulosa,");
        foreach (var withheld in new[] { "S-1", "front", "North", "A to B", "=1+1" })
        {
            rows.ShouldNotContain(withheld);
        }

        rows.ShouldContain(PlaceOffset.Withheld);
        rows.ShouldContain("native,cultivated,present");
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

    [Fact]
    public async Task A_walk_gives_its_sightings_their_effort_and_a_stage_stands_in_the_standards_column()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,growth_stage\nS-1,front,Monarda fistulosa,2026-08-15,2,6\n"));
        (await garden.Database.WriteAsync(async db =>
        {
            db.Walks.Add(new()
            {
                NeighbourhoodId = garden.Neighbourhood.Id,
                Id = Storage.RowIds.Next(),
                YardId = await db.Yards.Where(y => y.Code == "S-1").Select(y => y.Id).SingleAsync(),
                WalkedOn = new(2026, 8, 15),
                Minutes = 12,
                Looked = 30,
            });
            return Storage.Saving.Intent.Store(Garden.Organiser.Note("walked"));
        })).IsStored.ShouldBeTrue();
        foreach (var exact in new[] { false, true })
        {
            var rows = Occurrences((await FilesAsync(garden, exact))["occurrence.csv"]);
            var walked = rows.Single(r => r["eventDate"] == "2026-08-15");
            (walked["samplingEffort"], walked["reproductiveCondition"]).ShouldBe(("12 minutes, 30 plantings", "flowering"));
            rows.Where(r => r["eventDate"] == "2026-08-01").ShouldAllBe(r => r["samplingEffort"] == "" && r["samplingProtocol"] == "");
        }
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
        return await FilesAsync(garden, exact);
    }

    /// <summary>Read by CsvHelper, which did not write the cells' meaning.</summary>
    private static List<Dictionary<string, string>> Occurrences(string csv)
    {
        using var reader = new CsvHelper.CsvReader(new StringReader(csv), System.Globalization.CultureInfo.InvariantCulture);
        return [.. reader.GetRecords<dynamic>().Select(r => ((IDictionary<string, object>)r).ToDictionary(c => c.Key, c => $"{c.Value}"))];
    }

    [Fact]
    public async Task Each_record_keeps_one_identifier_and_says_licence_kingdom_rank_and_standing_in_the_standards_words()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nS-1,front,Monarda fistulosa,2026-08-15,0\n"),
            ("infestations.csv",
                "yard,scientific_name,observed_on,area_m2,cover_percent\nS-1,Alliaria petiolata,2026-05-02,4,50\n"));
        var first = Occurrences((await FilesAsync(garden, exact: false))["occurrence.csv"]);
        var second = Occurrences((await FilesAsync(garden, exact: true))["occurrence.csv"]);
        first.Count.ShouldBe(3);
        first.Select(r => r["occurrenceID"]).Distinct().Count().ShouldBe(3);
        first.Select(r => r["occurrenceID"]).ShouldBe(second.Select(r => r["occurrenceID"]), ignoreOrder: true);
        first.ShouldAllBe(r => Guid.Parse(r["occurrenceID"].Replace("urn:uuid:", "")).Version == 8); // RFC 9562, section 5.8
        first.ShouldAllBe(r => r["kingdom"] == "Plantae" && r["taxonRank"] == "species"
            && r["license"] == "http://creativecommons.org/licenses/by/4.0/legalcode" && MeansPublished.Contains(r["establishmentMeans"]));
        first.Select(r => (r["scientificName"], r["establishmentMeans"])).ShouldContain(("Alliaria petiolata", "introduced"));
        var gone = first.Single(r => r["occurrenceStatus"] == "absent");
        (gone["eventDate"], gone["individualCount"], gone["organismQuantity"], gone["organismQuantityType"])
            .ShouldBe(("2026-08-15", "", "", ""));
        first[0].Keys.ShouldNotContain("recordedBy");
    }

    [Fact]
    public async Task The_data_set_says_its_licence_its_ground_its_days_and_whom_to_ask()
    {
        var eml = XDocument.Parse((await FilesAsync(exact: false))["eml.xml"]).Root!.Element("dataset")!;
        eml.Element("intellectualRights")!.Value.ShouldContain("CC BY 4.0");
        eml.Element("contact")!.Element("electronicMailAddress")!.Value.ShouldBe("wren@quarry-bend.example");
        var box = eml.Descendants("boundingCoordinates").Single();
        double.Parse(box.Element("westBoundingCoordinate")!.Value, System.Globalization.CultureInfo.InvariantCulture)
            .ShouldBeLessThan(double.Parse(box.Element("eastBoundingCoordinate")!.Value,
                System.Globalization.CultureInfo.InvariantCulture));
        eml.Descendants("calendarDate").First().Value.ShouldBe("2026-08-01");
        eml.Descendants("taxonRankValue").Single().Value.ShouldBe("Plantae");
    }

    private static async Task<Dictionary<string, string>> FilesAsync(Garden garden, bool exact)
    {
        using var file = new MemoryStream();
        await garden.Export.WriteArchiveAsync(file, Licence.Keyed("cc-by")!, "Wren", "wren@quarry-bend.example", exact);
        using var zip = new ZipArchive(file, ZipArchiveMode.Read);
        return zip.Entries.ToDictionary(e => e.FullName, e =>
        {
            using var reader = new StreamReader(e.Open(), Encoding.UTF8);
            return reader.ReadToEnd();
        });
    }
}
