using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Spreadsheets;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Validation;
using MiniExcelLibs;

namespace CommonGround.Interchange.Tests;

/// <summary>Workbooks that other programs open: valid by the standard's schemas, and read back by a library that did not write
/// them.</summary>
public class WorkbookWriterTests
{
    private static readonly Sheet Walk = new("walk",
        ["yard", "seen", "cover", "count", "remarks"],
        [["007", new DateTime(2026, 7, 14), 0.1, 3, "first"], ["KI-02", null, 1e-7, null, null], [null, null, null, null, "last"]]);

    /// <summary>
    /// The schemas of ECMA-376 as the Open XML SDK carries them. An empty list of fills, which made other readers refuse the file, is a
    /// fault there.
    /// </summary>
    [Fact]
    public void It_is_valid_by_the_standards_schemas()
    {
        using var file = new MemoryStream(WorkbookTests.Save(Walk, new Sheet("nothing", ["a"], [])));
        using var document = SpreadsheetDocument.Open(file, isEditable: false);
        new OpenXmlValidator().Validate(document).Select(e => $"{e.Path?.XPath}: {e.Description}").ShouldBeEmpty();
        // ECMA-376 part 1, 18.8.21 and common practice: the first two fills are reserved, none and gray125.
        var fills = document.WorkbookPart!.WorkbookStylesPart!.Stylesheet!.Fills!;
        fills.Elements<DocumentFormat.OpenXml.Spreadsheet.Fill>().Select(f => f.PatternFill!.PatternType!.InnerText)
            .ShouldBe(["none", "gray125"]);
    }

    [Fact]
    public void Another_reader_finds_every_cell_where_it_was_put()
    {
        using var file = new MemoryStream(WorkbookTests.Save(Walk));
        var rows = file.Query(useHeaderRow: true).Cast<IDictionary<string, object?>>().ToList();
        rows.Select(r => r["yard"]).ShouldBe(["007", "KI-02", null]);
        rows.Select(r => r["seen"]).ShouldBe([new DateTime(2026, 7, 14), null, null]);
        rows.Select(r => r["cover"]).ShouldBe([0.1, 1e-7, null]);
        rows.Select(r => r["count"]).ShouldBe([3d, null, null]);
        rows.Select(r => r["remarks"]).ShouldBe(["first", null, "last"]);
    }

    [Fact]
    public void Past_the_twenty_sixth_column_names_go_on_with_two_letters()
    {
        string[] columns = [.. Enumerable.Range(0, 60).Select(i => $"c{i}")];
        using var file = new MemoryStream(WorkbookTests.Save(new Sheet("wide", columns, [[.. columns.Select((_, i) => (object?)i)]])));
        var row = file.Query(useHeaderRow: true).Cast<IDictionary<string, object?>>().ShouldHaveSingleItem();
        row.Keys.ShouldBe(columns);
        row.Values.ShouldBe(Enumerable.Range(0, 60).Select(i => (object?)(double)i));
    }

    /// <summary>ECMA-376 part 1, 22.9.2.19 (ST_Xstring): what XML 1.0 cannot hold is written as _xHHHH_.</summary>
    [Theory]
    [InlineData(" kept at both ends ")]
    [InlineData("one line\nand another")]
    [InlineData("one line\r\nand another")]
    [InlineData("a bell \u0007 and a null \0")]
    [InlineData("_x0041_ as somebody typed it")]
    [InlineData("grün, 青, 🌱, a lone \uD83C half")]
    [InlineData("<b>&amp;\"'</b>")]
    public void A_text_comes_back_as_it_went(string text)
    {
        using var file = new MemoryStream(WorkbookTests.Save(new Sheet("s", ["t"], [[text]])));
        file.Query(useHeaderRow: true).Cast<IDictionary<string, object?>>().ShouldHaveSingleItem()["t"].ShouldBe(text);
    }

    [Fact]
    public void A_stream_that_can_only_be_written_to_takes_it_too()
    {
        using var held = new MemoryStream();
        using (var packed = new System.IO.Compression.GZipStream(held, System.IO.Compression.CompressionLevel.Fastest, leaveOpen: true))
        {
            Walk.WriteXlsx(packed);
        }

        held.Length.ShouldBeGreaterThan(0);
    }

    /// <summary>RFC 4180, section 2, rules 5 to 7, and texts that many readers would cut.</summary>
    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("", "")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a \"b\"", "\"a \"\"b\"\"\"")]
    [InlineData("a\nb", "\"a\nb\"")]
    [InlineData("a\rb", "\"a\rb\"")]
    [InlineData("\ta", "\"\ta\"")]
    [InlineData("a ", "\"a \"")]
    [InlineData("semi;colon", "semi;colon")]
    public void A_cell_of_csv_is_quoted_where_it_must_be(string text, string written)
    {
        var csv = CsvText.Write(["t"], [[text]]);
        csv.ShouldBe($"t\r\n{written}\r\n");
    }
}
