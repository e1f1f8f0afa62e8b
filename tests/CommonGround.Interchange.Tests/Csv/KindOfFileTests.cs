using System.Text;

namespace CommonGround.Interchange.Tests.Csv;

public class KindOfFileTests
{
    [Theory]
    [InlineData(TestFiles.PlacesHeader, ImportKind.Places)]
    [InlineData(TestFiles.BedsHeader, ImportKind.Beds)]
    [InlineData(TestFiles.SightingsHeader, ImportKind.Sightings)]
    [InlineData(TestFiles.InfestationsHeader, ImportKind.Infestations)]
    [InlineData("date,rain_mm", ImportKind.Rain)]
    [InlineData("date,tmin_c,tmax_c", ImportKind.Temperature)]
    [InlineData("yard,bed", ImportKind.Beds)]
    [InlineData("yard,bed,scientific_name,observed_on,count", ImportKind.Sightings)]
    public void A_file_is_told_apart_by_its_header_and_a_header_alone_is_no_error(string header, ImportKind kind)
    {
        var file = TestFiles.Read(header + "\r\n");
        (file.Kind, file.Errors.Count, file.RowCount).ShouldBe((kind, 0, 0));
    }

    [Theory]
    [InlineData("\uFEFFdate,rain_mm\n2026-05-01,3\n")]
    [InlineData("RAIN_MM,Date\n3,2026-05-01\n")]
    [InlineData("\n\n date , rain_mm \r\n\r\n2026-05-01, 3 \r\n\r\n")]
    [InlineData("date,rain_mm\r2026-05-01,3\r")]
    [InlineData("\"date\",\"rain_mm\"\n\"2026-05-01\",\"3\"")]
    [InlineData("date,rain_mm,,\n2026-05-01,3,,\n")]
    [InlineData("date,rain_mm\n2026-05-01,3,,,\n")]
    public void Byte_order_mark_case_order_blanks_and_line_ends_do_not_matter(string text) =>
        TestFiles.Read(text).ShouldSatisfyAllConditions(f => f.Errors.ShouldBeEmpty(),
            f => f.Rain.ShouldHaveSingleItem().ShouldSatisfyAllConditions(
            r => r.Date.ShouldBe(new DateOnly(2026, 5, 1)), r => r.RainMillimetres.ShouldBe(3)));

    [Theory]
    [InlineData("date;rain_mm\n2026-05-01;3\n", "semicolons")]
    [InlineData("date\train_mm\n2026-05-01\t3\n", "tabs")]
    [InlineData("date|rain_mm\n2026-05-01|3\n", "vertical bars")]
    public void Another_separator_gives_one_clear_error(string text, string word) =>
        TestFiles.Read(text).OnlyError().What.ShouldBe($"The file is separated by {word}.");

    [Fact]
    public void A_misspelt_column_is_refused_with_the_nearest_known_name()
    {
        var error = TestFiles.Read("yard,bed,scientific_name,observed_on,cover,origin\n").OnlyError();
        (error.Line, error.Column, error.HowToCorrect).ShouldBe((1, "cover", "Did you mean cover_m2?"));
    }

    [Fact]
    public void A_foreign_column_is_refused_with_the_known_ones() =>
        TestFiles.Read("date,rain_mm,weather_station_operator\n").OnlyError().HowToCorrect.ShouldContain("known are date, rain_mm");

    [Fact]
    public void A_missing_column_is_named()
    {
        var error = TestFiles.Read("yard,bed,scientific_name,cover_m2,origin,certainty\nKI-01,front,Monarda fistulosa,1,planted,certain\n")
            .OnlyError();
        (error.Column, error.Line).ShouldBe(("observed_on", 1));
    }

    [Fact]
    public void A_column_given_twice_is_refused() => TestFiles.Read("date,rain_mm,rain_mm\n")
    .OnlyError().What.ShouldBe("The column is there twice.");

    [Fact]
    public void A_value_under_a_nameless_column_is_refused_where_it_stands()
    {
        var error = TestFiles.Read("date,rain_mm,\n2026-05-01,3,\n2026-05-02,4,windy\n").OnlyError();
        (error.Line, error.Value).ShouldBe((3, "windy"));
    }

    [Theory]
    [InlineData("dear neighbours, please find our list attached")]
    [InlineData("a,b,c\n1,2,3\n")]
    [InlineData(",,,\n1,2,3\n")]
    public void An_unknown_header_is_refused(string text)
    {
        var file = TestFiles.Read(text);
        file.Kind.ShouldBe(ImportKind.Unrecognised);
        file.OnlyError().What.ShouldBe("The header matches no kind of file.");
    }

    [Fact]
    public void A_header_beyond_all_measure_is_refused_without_comparing_it()
    {
        TestFiles.Read("date,rain_mm" + string.Concat(Enumerable.Range(0, 100_000).Select(i => $",c{i}")))
            .OnlyError().What.ShouldBe("The header matches no kind of file.");
        TestFiles.Read("date,rain_mm," + new string('x', 1_000_000)).OnlyError().What.ShouldBe("The header matches no kind of file.");
    }

    [Fact]
    public void A_value_is_shortened_without_cutting_a_character_in_two()
    {
        var value = TestFiles.Rows("date,rain_mm", "2026-05-01," + string.Concat(Enumerable.Repeat("\U0001F33B", 40))).OnlyError().Value;
        value.EnumerateRunes().ShouldAllBe(rune => rune != System.Text.Rune.ReplacementChar);
        value.ShouldEndWith("...");
    }

    [Theory]
    [InlineData("", "The file is empty.")]
    [InlineData(" \r\n \n", "The file is empty.")]
    [InlineData(",,\n\"\",\n", "The file holds blank cells only.")]
    [InlineData("date,rain_mm\n2026-05-01,\0\n", "The file holds bytes that are not text.")]
    public void An_empty_or_binary_file_gives_one_error(string text, string what) => TestFiles.Read(text).OnlyError().What.ShouldBe(what);

    [Fact]
    public void Bytes_that_are_not_utf8_are_found_on_their_line()
    {
        var error = ImportFile.Read("rain.csv", [.. "date,rain_mm\n2026-05-01,3\r\n"u8, 0xE9, (byte)'\n']).OnlyError();
        (error.Line, error.What).ShouldBe((3, "The line holds a byte that is not UTF-8 text."));
    }

    [Fact]
    public void A_spreadsheet_or_utf16_file_is_told_how_to_save_itself()
    {
        ImportFile.Read("rain.xlsx", [.. "PK"u8, 3, 4, 0, 0]).OnlyError().HowToCorrect.ShouldContain("CSV UTF-8");
        ImportFile.Read("rain.csv", [0xFF, 0xFE, .. Encoding.Unicode.GetBytes("date,rain_mm")]).OnlyError().What.ShouldContain("UTF-16");
    }

    [Fact]
    public void An_error_names_the_file_without_its_folder_and_reads_as_a_sentence()
    {
        var file = ImportFile.Read("C:\\files/rain.csv", new MemoryStream(Encoding.UTF8.GetBytes("date,rain_mm\n2026-05-01,wet\n")));
        file.OnlyError().ToString().ShouldBe("rain.csv, line 2, rain_mm \"wet\": This is not a number. Write a plain number such as 12.5.");
    }
}
