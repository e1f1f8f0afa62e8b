namespace CommonGround.Interchange.Tests.Csv;

public class CellTests
{
    [Theory]
    [InlineData("2026-07-14", true)]
    [InlineData("2024-02-29", true)]
    [InlineData("2026-02-29", false)]
    public void Days_are_iso_8601_and_must_exist(string cell, bool good) =>
        (TestFiles.With(TestFiles.SightingsHeader, TestFiles.GoodSighting, "observed_on", cell).Errors.Count == 0).ShouldBe(good);

    [Theory]
    [InlineData("8/14/2026", "Write 2026-08-14.")]
    [InlineData("14.8.2026", "Write 2026-08-14.")]
    [InlineData("8/4/26", "Write 2026-08-04 if the month comes first, 2026-04-08 if the day does.")]
    [InlineData("46248", "Format the column as year-month-day; this one would be 2026-08-14.")]
    [InlineData("2026-8-4", "Write 2026-08-04.")]
    [InlineData("20260814", "Write 2026-08-14.")]
    [InlineData("2026-08-14T10:30", "Write the day alone: 2026-08-14.")]
    [InlineData("2026-13-01", "Check the month (01 to 12) and the day.")]
    [InlineData("99/99/2026", "Write year-month-day, for example 2026-08-14.")]
    [InlineData("yesterday", "Write year-month-day, for example 2026-08-14.")]
    [InlineData("0026-08-14", "Write a year from 1800 to 2200.")]
    [InlineData("", "Write the day as year-month-day, for example 2026-08-14.")]
    public void A_wrong_day_gets_advice_that_fits_it(string cell, string advice) =>
        TestFiles.With(TestFiles.SightingsHeader, TestFiles.GoodSighting, "observed_on", cell).OnlyError().HowToCorrect.ShouldBe(advice);

    [Theory]
    [InlineData("1.5", 1.5)]
    [InlineData("+2", 2)]
    [InlineData(".5", 0.5)]
    [InlineData("1e-3", 0.001)]
    [InlineData("-0", 0)]
    public void Numbers_are_plain_and_invariant(string cell, double value) =>
        TestFiles.With(TestFiles.SightingsHeader, TestFiles.GoodSighting, "cover_m2", cell).Sightings.ShouldHaveSingleItem(
            ).CoverSquareMetres.ShouldBe(value);

    [Theory]
    [InlineData("\"1,200\"", "Write it without: 1200.")]
    [InlineData("1 200", "Write it without: 1200.")]
    [InlineData("\"1,5\"", "Write a point: 1.5.")]
    [InlineData("1.5 m2", "Write the number alone: 1.5.")]
    [InlineData("$3", "Write a plain number such as 12.5.")]
    [InlineData("−3", "Write a plain hyphen: -3.")]
    [InlineData("NaN", "Write a plain number such as 12.5.")]
    [InlineData("Infinity", "Write a plain number such as 12.5.")]
    [InlineData("∞", "Write a plain number such as 12.5.")]
    [InlineData("1e999", "Check the exponent.")]
    [InlineData("-0.1", "Write a number of square metres, 0 or more.")]
    public void A_wrong_number_gets_advice_that_fits_it(string cell, string advice)
    {
        var header = TestFiles.SightingsHeader;
        var row = TestFiles.GoodSighting.Replace("1.5", cell, StringComparison.Ordinal);
        TestFiles.Rows(header, row).OnlyError().HowToCorrect.ShouldBe(advice);
    }

    [Theory]
    [InlineData("growth_stage", "10")]
    [InlineData("growth_stage", "-1")]
    [InlineData("growth_stage", "6.5")]
    [InlineData("count", "-1")]
    [InlineData("count", "2.5")]
    [InlineData("origin", "bought")]
    [InlineData("certainty", "sure")]
    [InlineData("yard", "")]
    [InlineData("bed", "")]
    [InlineData("scientific_name", "")]
    [InlineData("scientific_name", "cf.")]
    public void A_sighting_with_one_bad_cell_is_refused_at_that_cell(string column, string cell)
    {
        var file = TestFiles.With(TestFiles.SightingsHeader, TestFiles.GoodSighting, column, cell);
        file.OnlyError().Column.ShouldBe(column);
        file.Sightings.ShouldBeEmpty();
    }

    [Theory]
    [InlineData("street", "")]
    [InlineData("block", "")]
    [InlineData("yard", "")]
    [InlineData("latitude", "")]
    [InlineData("latitude", "90.1")]
    [InlineData("latitude", "-91")]
    [InlineData("longitude", "180.5")]
    [InlineData("longitude", "88 W")]
    [InlineData("yard_m2", "")]
    [InlineData("yard_m2", "0")]
    [InlineData("yard_m2", "-5")]
    [InlineData("lawn_m2", "601")]
    [InlineData("light", "sunny")]
    [InlineData("moisture", "damp")]
    [InlineData("soil_group", "E")]
    [InlineData("shared", "maybe")]
    public void A_place_with_one_bad_cell_is_refused_at_that_cell(string column, string cell) =>
        TestFiles.With(TestFiles.PlacesHeader, TestFiles.GoodPlace, column, cell).OnlyError().Column.ShouldBe(column);

    [Theory]
    [InlineData("scientific_name", "")]
    [InlineData("observed_on", "")]
    [InlineData("area_m2", "")]
    [InlineData("area_m2", "-1")]
    [InlineData("cover_percent", "")]
    [InlineData("cover_percent", "100.5")]
    [InlineData("cover_percent", "30 %")]
    [InlineData("growth_stage", "11")]
    [InlineData("yard", "")]
    public void An_infestation_with_one_bad_cell_is_refused_at_that_cell(string column, string cell) =>
        TestFiles.With(TestFiles.InfestationsHeader, TestFiles.GoodInfestation, column, cell).OnlyError().Column.ShouldBe(column);

    [Theory]
    [InlineData("area_m2", "0")]
    [InlineData("established_on", "spring 2021")]
    [InlineData("light", "dark")]
    [InlineData("moisture", "soggy")]
    public void A_bed_with_one_bad_cell_is_refused_at_that_cell(string column, string cell) =>
        TestFiles.With(TestFiles.BedsHeader, "KI-01,front,12.5,2021-05-01,full_sun,dry", column, cell).OnlyError().Column.ShouldBe(column);
}
