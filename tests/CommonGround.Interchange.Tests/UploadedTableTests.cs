using System.Text;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Tests;

public class BroughtTableTests
{
    private const string Foreign = "Yard code,Bed,Species,Date seen,Cover (m²),Weather\n";

    private static UploadedTable Open(string text) => UploadedTable.Open("walk.csv", Encoding.UTF8.GetBytes(text)).ShouldHaveSingleItem();

    private static string Correct(UploadedTable table, ReadingChoices choices) => table.ToCorrect(choices, table.Read(choices).Errors)!;

    [Fact]
    public void Columns_under_other_names_are_matched_and_what_is_left_over_is_not_taken()
    {
        var table = Open(Foreign + "KI-01,front,Monarda fistulosa,2026-07-14,1.5,sunny\n");
        var choices = table.Guess();
        choices.Kind.ShouldBe(ImportKind.Sightings);
        choices.Columns.OrderBy(c => c.Value).Select(c => c.Key).ShouldBe(["yard", "bed", "scientific_name", "observed_on", "cover_m2"]);
        table.Read(choices).ShouldSatisfyAllConditions(f => f.Errors.ShouldBeEmpty(),
            f => f.Sightings.ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(1.5));
    }

    [Theory]
    [InlineData("yard", "yard", 0)]
    [InlineData("Yard_Code", "yard", 0)]
    [InlineData("scientificName", "scientific_name", 0)]
    [InlineData("scientfic name", "scientific_name", 0)]
    [InlineData("recordedBy", "observer", 0)]
    public void A_name_a_synonym_and_a_slip_lead_to_the_same_column(string theirs, string ours, int at) =>
        ColumnMatching.Columns(ImportKind.Sightings, [theirs]).ShouldHaveSingleItem().ShouldBe(new KeyValuePair<string, int>(ours, at));

    [Theory]
    [InlineData(TestFiles.PlacesHeader, ImportKind.Places)]
    [InlineData(TestFiles.SightingsHeader, ImportKind.Sightings)]
    [InlineData("day,rainfall", ImportKind.Rain)]
    [InlineData("Day,Low,High", ImportKind.Temperature)]
    [InlineData("shoe size,colour", ImportKind.Unrecognised)]
    public void The_kind_is_told_by_whatever_the_columns_are_called(string header, ImportKind kind) =>
    Open(header + "\n").Guess().Kind.ShouldBe(kind);

    [Theory]
    [InlineData("8/4/2026", true, DateOrder.YearFirst)]
    [InlineData("8/14/2026", false, DateOrder.MonthFirst)]
    [InlineData("14.8.2026", false, DateOrder.DayFirst)]
    [InlineData("2026-08-14", false, DateOrder.YearFirst)]
    public void The_order_of_a_day_is_asked_only_where_it_cannot_be_told(string cell, bool asked, DateOrder only)
    {
        var table = Open(Foreign + $"KI-01,front,Monarda fistulosa,{cell},1.5,\n");
        var days = table.DaysOf(table.Guess().Columns);
        (days.MustBeAsked, days.Only).ShouldBe((asked, only));
    }

    [Theory]
    [InlineData("13/9/2026,9/3/2026,9/4/2026", true, DateOrder.YearFirst)]
    [InlineData("13/9/2026,14/9/2026,9/4/2026", false, DateOrder.DayFirst)]
    [InlineData("9/13/2026,9/3/2026,9/4/2026", false, DateOrder.MonthFirst)]
    [InlineData("9/13/2026,14/9/2026", true, DateOrder.YearFirst)]
    public void One_day_that_cannot_be_in_the_usual_order_may_be_a_slip_and_decides_nothing(string cells, bool asked, DateOrder only)
    {
        var table = Open(Foreign + string.Concat(cells.Split(',').Select(c => $"KI-01,front,Monarda fistulosa,{c},1.5,\n")));
        var days = table.DaysOf(table.Guess().Columns);
        (days.MustBeAsked, days.Only).ShouldBe((asked, only));
    }

    [Theory]
    [InlineData(DateOrder.MonthFirst, 8, 4)]
    [InlineData(DateOrder.DayFirst, 4, 8)]
    public void A_day_is_read_in_the_order_chosen(DateOrder order, int month, int day)
    {
        var table = Open(Foreign + "KI-01,front,Monarda fistulosa,8/4/2026,1.5,\n");
        table.Read(table.Guess() with { Order = order }).Sightings.ShouldHaveSingleItem().ObservedOn.ShouldBe(new DateOnly(2026, month,
            day));
    }

    [Fact]
    public void A_needed_column_that_is_not_matched_is_named()
    {
        var table = Open("yard,bed,cover_m2\n");
        table.Read(table.Guess(ImportKind.Sightings)).Errors.Select(e => e.Column).ShouldBe(["scientific_name", "observed_on"]);
    }

    [Fact]
    public void A_file_to_mend_holds_every_row_bad_ones_first_and_completes_the_import_when_mended()
    {
        var table = Open(Foreign
            + "KI-01,front,Monarda fistulosa,7/14/2026,1.5,sunny\nKI-01,front,Monarda fistulosa,7/15/2026,much,\"wind, rain\"\n"
            + "KI-01,back,Ratibida pinnata,7/16/2026,1,x,y\n");
        var text = Correct(table, table.Guess());
        var lines = text.Split("\r\n");
        lines[0].ShouldBe("reason,line,yard,bed,scientific_name,observed_on,cover_m2,Weather");
        lines[1].ShouldStartWith(
            "cover_m2: This is not a number. Write a plain number such as 12.5.,3,KI-01,front,Monarda "
                + "fistulosa,2026-07-15,much,\"wind, rain\"");
        lines[2].ShouldContain("The row has 7 cells, the header has 6.");
        lines[3].ShouldBe(",2,KI-01,front,Monarda fistulosa,2026-07-14,1.5,sunny");
        var corrected = UploadedTable.Open("walk-to-correct.csv",
            Encoding.UTF8.GetBytes(text.Replace("much", "2", StringComparison.Ordinal).Replace(",x,y", ",x", StringComparison.Ordinal)))[0];
        var read = corrected.Read(corrected.Guess());
        read.Errors.ShouldBeEmpty();
        read.Sightings.Select(s => (s.ObservedOn.Day, s.CoverSquareMetres)).ShouldBe([(14, 1.5), (15, 2), (16, 1)]);
    }

    [Fact]
    public void Names_chosen_for_those_written_stand_in_the_rows_and_in_the_file_to_mend()
    {
        var table = Open(TestFiles.SightingsHeader
            + "\nKI-01,front,Monardda cf. fistulosa,2026-07-14,1,,,,,,\nKI-01,front,Monardda fistulosa,2026-07-14,much,,,,,,\n");
        var choices = table.Guess() with { Names = new Dictionary<string, string> { ["Monardda fistulosa"] = "Monarda fistulosa" } };
        table.Read(choices).Sightings.ShouldHaveSingleItem().Name.ToString().ShouldBe("Monarda cf. fistulosa");
        Correct(table, choices).ShouldNotContain("Monardda");
    }

    [Fact]
    public void A_quote_mark_that_is_never_closed_loses_no_row_of_the_file_to_mend() // RFC 4180, section 2, rule 5
    {
        var table = Open(TestFiles.BedsHeader + "\nKI-01,\"front,1,,,\nKI-02,back,2,,,\nKI-03,side,3,,,\n");
        var text = Correct(table, table.Guess());
        foreach (var yard in new[] { "KI-01", "KI-02", "KI-03" }) text.ShouldContain(yard);
        text.ShouldContain("A quote mark opens here and is never closed.");
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("'=1+1")]
    [InlineData("-3.5")]
    [InlineData("@SUM(A1)")]
    [InlineData("''+x")]
    [InlineData("＝1+1")]
    public void A_file_to_mend_is_no_formula_and_gives_back_the_text(string remark) // OWASP, "CSV Injection"
    {
        var table = Open(TestFiles.SightingsHeader
            + $"\nKI-01,front,Monarda fistulosa,2026-07-14,1,,,,,,{remark}\nKI-01,front,Monarda fistulosa,2026-07-15,much,,,,,,\n");
        var before = table.Read(table.Guess()).Sightings.ShouldHaveSingleItem().Remarks;
        var text = Correct(table, table.Guess());
        var cell = text.Split("\r\n")[2].Split(',')[^1];
        if (!double.TryParse(cell, System.Globalization.CultureInfo.InvariantCulture, out _)) cell.ShouldStartWith("'");
        var again = UploadedTable.Open("m.csv", Encoding.UTF8.GetBytes(text)).ShouldHaveSingleItem();
        again.Read(again.Guess()).Sightings.ShouldHaveSingleItem().Remarks.ShouldBe(before);
    }

    [Theory]
    [InlineData("=1")]
    [InlineData("\t=1")]
    [InlineData("\r=1")]
    [InlineData("-2 pots")]
    [InlineData("'quoted'")]
    [InlineData("＠x")]
    public void What_is_guarded_comes_back_as_it_was(string text)
    {
        var guarded = CsvText.Guard(text);
        "=+-@\t\r\n\0＝＋－＠".ShouldNotContain(guarded[..1]);
        CsvText.Unguard(guarded).ShouldBe(text);
    }
}
