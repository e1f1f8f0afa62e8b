using System.Text;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;
using FsCheck.Xunit;

namespace CommonGround.Interchange.Tests.Csv;

/// <summary>What is written is read again as it was.</summary>
public class RoundTripTests
{
    private static ImportFile Read(string text)
    {
        var file = ImportFile.Read("again.csv", Encoding.UTF8.GetBytes(text));
        file.Errors.ShouldBeEmpty();
        return file;
    }

    /// <summary>Texts of people: no half characters or NUL, which no text file can hold, and no blanks at the ends, which reading
    /// trims.</summary>
    private static string Text(string? any) => new string([.. (any ?? "").Where(c => !char.IsSurrogate(c) && c != '\0')]).Trim();

    private static string Code(string? any) => "x" + new string([.. Text(any).Where(c => !char.IsControl(c))]).Trim();

    [Property(MaxTest = 300)]
    public void Remarks_of_any_kind_survive(string? remarks, string? observer, string? bed)
    {
        var row = new SightingRow(2, "KI-01", Code(bed), new TaxonName("Monarda fistulosa", ""), new DateOnly(2026, 7, 14), 1.5, null,
            Origin.Planted, Certainty.Certain, 6, Text(observer), Text(remarks));
        Told(Read(SightingRows.Write([row])).Sightings).ShouldHaveSingleItem().ShouldBe(row);
    }

    [Property(MaxTest = 300)]
    public void Doubles_survive_to_the_last_bit(double latitude, double area)
    {
        latitude = double.IsFinite(latitude) ? Math.Abs(latitude % 79) : 0;
        area = double.IsFinite(area) && area != 0 ? Math.Abs(area % 1_000_000) : 1;
        area = area > 0 ? area : 1;
        var row = new PlaceRow(2, "Kiln Street", "A", "KI-01", latitude, -88.3, area, area / 3, Light.Shade, Moisture.Wet, SoilGroup.D, "",
            true);
        Read(PlaceRows.Write([row])).Places.ShouldHaveSingleItem().ShouldBe(row);
    }

    [Fact]
    public void Every_kind_survives_with_and_without_its_optional_cells()
    {
        PlaceRow[] places = [new(2, "Kiln Street", "A, B", "KI-01", 41.9, -88.3, 600, null, null, null, null, "", false),
            new(3, "Kiln Street", "A", "KI-02", 41.9, -88.3, 600, 0, Light.PartShade, Moisture.Dry, SoilGroup.A, "Household \"two\"",
                true)];
        Read(PlaceRows.Write(places)).Places.ShouldBe(places);
        BedRow[] beds = [new(2, "KI-01", "front", null, null, null, null),
            new(3, "KI-01", "back", 12.25, new DateOnly(2021, 5, 1), Light.FullSun, Moisture.Moist)];
        Read(PlaceRows.Write(beds)).Beds.ShouldBe(beds);
        SightingRow[] sightings = [new(2, "KI-01", "front", new TaxonName("Aster laevis", "cf."), new DateOnly(2026, 7, 14), null, 12,
            Origin.SelfSown, Certainty.Tentative, null, "", "")];
        Told(Read(SightingRows.Write(sightings)).Sightings).ShouldBe(sightings);
        InfestationRow[] infestations = [new(2, "", "A", new TaxonName("Alliaria petiolata", ""), new DateOnly(2026, 5, 2), 0, null, null,
            ""), new(3, "KI-01", "", new TaxonName("Lonicera maackii", ""), new DateOnly(2026, 5, 2), 4.5, 30, 6, "by the fence")];
        Read(SightingRows.Write(infestations)).Infestations.ShouldBe(infestations);
        RainRow[] rain = [new(2, new DateOnly(2026, 5, 1), 0), new(3, new DateOnly(2026, 5, 2), 12.7)];
        Read(WeatherRows.Write(rain)).Rain.ShouldBe(rain);
        TemperatureRow[] temperatures = [new(2, new DateOnly(2026, 1, 1), -21.5, -3)];
        Read(WeatherRows.Write(temperatures)).Temperatures.ShouldBe(temperatures);
    }

    [Theory]
    [InlineData("=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@sum", "'@sum")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\rx", "'\rx")]
    [InlineData(" =1", "' =1")]
    [InlineData("'=1", "''=1")]
    [InlineData("a=1", "a=1")]
    [InlineData("'tis", "'tis")]
    [InlineData("", "")]
    public void A_text_that_a_spreadsheet_would_run_is_guarded_and_comes_back(string text, string guarded)
    {
        CsvText.Guard(text).ShouldBe(guarded);
        CsvText.Unguard(guarded).ShouldBe(text);
    }

    [Fact]
    public void A_written_file_follows_rfc_4180() =>
        CsvText.Write(["a", "b"], [["x", "1,5"], ["y \"z\"", "line\nend"], [" kept ", ""]])
            .ShouldBe("a,b\r\nx,\"1,5\"\r\n\"y \"\"z\"\"\",\"line\nend\"\r\n\" kept \",\r\n");

    /// <summary>Which columns were not there is of the file, not of the row.</summary>
    private static List<SightingRow> Told(IEnumerable<SightingRow> rows) =>
        [.. rows.Select(r => r with { Untold = System.Collections.Frozen.FrozenSet<string>.Empty })];
}
