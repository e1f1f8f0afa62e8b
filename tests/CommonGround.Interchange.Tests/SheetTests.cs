using CommonGround.Interchange.Spreadsheets;
using MiniExcelLibs;

namespace CommonGround.Interchange.Tests;

public class SheetTests
{
    private static readonly Sheet Some = new("list", ["name", "grams"], [["=HYPERLINK(\"x\")", 1.5], ["a, \"b\"", null], ["-2", 3]]);

    [Fact]
    public void Text_that_a_spreadsheet_would_run_is_made_plain_in_CSV() => // OWASP, "CSV Injection"
        Some.ToCsv().ShouldBe("name,grams\r\n\"'=HYPERLINK(\"\"x\"\")\",1.5\r\n\"a, \"\"b\"\"\",\r\n'-2,3\r\n");

    /// <summary>OWASP's ASVS 5.0, requirement 1.2.10, asks for the quote in spreadsheets too: somebody may save them as CSV.</summary>
    [Fact]
    public void XLSX_keeps_numbers_as_numbers_and_text_as_text()
    {
        using var file = new MemoryStream();
        Some.WriteXlsx(file);
        file.Position = 0;
        var rows = MiniExcel.Query(file, useHeaderRow: true).Cast<IDictionary<string, object?>>().ToList();
        rows.Select(r => r["name"]).ShouldBe(["'=HYPERLINK(\"x\")", "a, \"b\"", "'-2"]);
        rows.Select(r => r["grams"]).ShouldBe([1.5, null, 3d]);
        MiniExcel.GetSheetNames(file).ShouldBe(["list"]);
        file.Position = 0;
        using var zip = new System.IO.Compression.ZipArchive(file);
        foreach (var entry in zip.Entries.Where(e => e.FullName.StartsWith("xl/worksheets/", StringComparison.Ordinal)))
        {
            using var text = new StreamReader(entry.Open());
            text.ReadToEnd().ShouldNotContain("<x:f>");
        }
    }

    [Fact]
    public void A_list_of_nothing_still_has_its_headings()
    {
        using var file = new MemoryStream();
        var none = Some with { Rows = [] };
        none.ToCsv().ShouldBe("name,grams\r\n");
        none.WriteXlsx(file);
        file.Length.ShouldBeGreaterThan(0);
    }
}
