using System.IO.Compression;
using CommonGround.Interchange.Spreadsheets;

namespace CommonGround.Interchange.Tests;

public class WorkbookTests
{
    internal static byte[] Save(params Sheet[] sheets)
    {
        using var file = new MemoryStream();
        Sheet.WriteXlsx(file, sheets);
        return file.ToArray();
    }

    [Fact]
    public void A_sheet_is_read_as_the_csv_it_would_be()
    {
        var book = Save(new Sheet("walk", ["yard", "bed", "scientific_name", "observed_on", "cover_m2", "remarks"],
            [["KI-01", "front", "Monarda fistulosa", new DateTime(2026, 7, 14), 1.5, "=1+1"],
                ["KI-01", "front", "Ratibida pinnata", "2026-07-14", "0.25", "a 5\" pot,\nagain"]]));
        var file = ImportFile.ReadAll("walk.xlsx", book).ShouldHaveSingleItem();
        file.Errors.ShouldBeEmpty();
        file.Sightings.Select(s => (s.Line, s.ObservedOn, s.CoverSquareMetres, s.Remarks)).ShouldBe(
            [(2, new DateOnly(2026, 7, 14), 1.5, "=1+1"), (3, new DateOnly(2026, 7, 14), 0.25, "a 5\" pot,\nagain")]);
    }

    [Fact]
    public void Every_sheet_that_holds_anything_is_a_file_and_an_error_names_sheet_and_row()
    {
        var files = ImportFile.ReadAll("book.xlsx", Save(new Sheet("rain", ["date", "rain_mm"], [["2026-05-01", 3], ["2026-05-02", -1]]),
            new Sheet("beds", ["yard", "bed"], [["KI-01", "front"]])));
        files.Select(f => f.Kind).ShouldBe([ImportKind.Rain, ImportKind.Beds]);
        files[0].OnlyError().ShouldSatisfyAllConditions(e => e.File.ShouldBe("book.xlsx, rain"), e => e.Line.ShouldBe(3));
    }

    [Fact]
    public void A_zip_that_is_no_spreadsheet_says_so()
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true)) zip.CreateEntry("places.csv");
        ImportFile.ReadAll("x.xlsx", file.ToArray())[0].OnlyError().What.ShouldBe("The file is a zip archive, but no spreadsheet.");
    }

    [Fact]
    public void A_workbook_that_unpacks_beyond_all_measure_is_refused_before_it_is_read()
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.CreateEntry("xl/workbook.xml");
            using var part = zip.CreateEntry("xl/worksheets/sheet1.xml").Open();
            var zeros = new byte[1024 * 1024];
            for (var i = 0; i < 257; i++) part.Write(zeros);
        }
        file.Length.ShouldBeLessThan(1024 * 1024);
        ImportFile.ReadAll("bomb.xlsx", file.ToArray())[0].OnlyError().What.ShouldBe("Unpacked the spreadsheet is larger than 256 MB.");
    }

    [Fact]
    public void An_archive_of_thousands_of_parts_is_refused()
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (var i = 0; i < 1_001; i++) zip.CreateEntry($"p{i}");
        }
        ImportFile.ReadAll("many.xlsx", file.ToArray())[0].OnlyError().What.ShouldContain("1001 parts");
    }
}
