namespace CommonGround.Interchange.Tests.Csv;

/// <summary>RFC 4180 (Shafranovich, 2005), section 2: the numbered rules, with sightings' remarks as the cell that carries the
/// text.</summary>
public class Rfc4180Tests
{
    private static string Remark(string cell) => TestFiles.Rows(TestFiles.SightingsHeader,
        TestFiles.GoodSighting + cell).Sightings.ShouldHaveSingleItem().Remarks;

    [Theory]
    [InlineData("\"aaa\"", "aaa")] // rule 5
    [InlineData("\"b\r\nbb\"", "b\r\nbb")] // rule 6
    [InlineData("\"b\nbb\"", "b\nbb")]
    [InlineData("\"b,bb\"", "b,bb")] // rule 6
    [InlineData("\"b\"\"bb\"", "b\"bb")] // rule 7
    [InlineData("\"\"\"\"", "\"")]
    [InlineData("\"\"", "")]
    public void Quoted_cells_read_as_the_rules_say(string cell, string text) => Remark(cell).ShouldBe(text);

    [Fact]
    // rule 2
    public void The_last_record_may_lack_its_line_end() => TestFiles.Read(TestFiles.SightingsHeader + "\r\n"
    + TestFiles.GoodSighting).Sightings.Count.ShouldBe(1);

    [Fact]
    public void Lines_are_counted_through_cells_that_hold_line_ends()
    {
        var file = TestFiles.Read(TestFiles.SightingsHeader + "\r\n" + TestFiles.GoodSighting + "\"one\r\ntwo\nthree\"\r\n\r\n"
            + TestFiles.GoodSighting.Replace("1.5", "x", StringComparison.Ordinal) + "\r\n" + TestFiles.GoodSighting);
        file.OnlyError().Line.ShouldBe(6);
        file.Sightings.Select(s => s.Line).ShouldBe([2, 7]);
    }

    [Fact]
    public void Every_row_must_have_as_many_cells_as_the_header() // rule 4
    {
        var file = TestFiles.Rows("date,rain_mm", "2026-05-01", "2026-05-02,3,4", "2026-05-03,5");
        file.Errors.Select(e => e.Line).ShouldBe([2, 3]);
        file.Rain.Count.ShouldBe(1);
    }

    [Fact]
    public void A_quote_mark_that_is_never_closed_is_found_where_it_opens()
    {
        var error = TestFiles.Rows(TestFiles.SightingsHeader, TestFiles.GoodSighting, TestFiles.GoodSighting + "\"never closed",
            TestFiles.GoodSighting).OnlyError();
        (error.Line, error.What).ShouldBe((3, "A quote mark opens here and is never closed."));
    }

    [Theory]
    [InlineData("a 5\" pot", "A quote mark stands in the middle of a cell.")]
    [InlineData("\"Monarda\" by the gate", "Text follows a closing quote mark.")]
    public void A_stray_quote_mark_spoils_its_row_only(string cell, string what)
    {
        var file = TestFiles.Rows(TestFiles.SightingsHeader, TestFiles.GoodSighting, TestFiles.GoodSighting + cell, TestFiles.GoodSighting);
        var error = file.OnlyError();
        (error.Line, error.What, file.Sightings.Count).ShouldBe((3, what, 2));
    }

    [Fact]
    public void A_broken_header_gives_one_error() => TestFiles.Read("date,\"rain_mm\n2026-05-01,3\n").Errors.Count.ShouldBe(1);

    [Fact]
    public void A_huge_cell_is_refused_and_shown_shortened()
    {
        var error = TestFiles.Rows(TestFiles.SightingsHeader, TestFiles.GoodSighting + new string('x', 2_000_000)).OnlyError();
        error.Column.ShouldBe("remarks");
        error.Value.Length.ShouldBeLessThanOrEqualTo(60);
    }
}
