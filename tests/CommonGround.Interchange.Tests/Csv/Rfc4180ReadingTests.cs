namespace CommonGround.Interchange.Tests.Csv;

/// <summary>RFC 4180, section 2, rule by rule, through the whole reader. Rule 4 is tightened: blanks around a cell are not kept.</summary>
public class Rfc4180ReadingTests
{
    private static string[] Remarks(string text) => [.. TestFiles.Read(text).ShouldSatisfy().Sightings.Select(s => s.Remarks)];

    private const string Head = "yard,bed,scientific_name,observed_on,cover_m2,remarks";
    private const string Row = "KI-01,front,Monarda fistulosa,2026-07-14,1,";

    [Fact]
    public void Rule_1_and_2_records_end_with_a_line_break_and_the_last_need_not() => Remarks($"{Head}\r\n{Row}a\r\n{Row}b")
    .ShouldBe(["a", "b"]);

    [Fact]
    public void Rule_6_line_breaks_quotes_and_commas_may_stand_between_quote_marks() => Remarks($"{Head}\r\n{Row}\"b\r\nbb, c\"\r\n")
    .ShouldBe(["b\r\nbb, c"]);

    [Fact]
    public void Rule_7_a_quote_mark_inside_is_doubled() => Remarks($"{Head}\r\n{Row}\"b\"\"bb\"\r\n").ShouldBe(["b\"bb"]);
}

internal static class Sound
{
    /// <summary>The file, which must be without error.</summary>
    public static ImportFile ShouldSatisfy(this ImportFile file)
    {
        file.Errors.ShouldBeEmpty();
        return file;
    }
}
