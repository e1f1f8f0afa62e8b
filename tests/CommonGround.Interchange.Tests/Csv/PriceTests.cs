using System.Text;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Tests.Csv;

public class PriceTests
{
    private const string Header = "scientific_name,seed_per_gram,plug_each\n";

    [Fact]
    public void A_blank_price_is_unknown_and_nothing_is_free()
    {
        var file = Read("Liatris aspera,1.4,\nAster laevis,0,2.5\n");
        file.Errors.ShouldBeEmpty();
        file.Prices.Select(p => (p.SeedPerGram, p.PlugEach)).ShouldBe([(1.4, null), (0, 2.5)]);
    }

    [Theory]
    [InlineData("Liatris aspera,-1,2\n", "seed_per_gram")]
    [InlineData("Liatris aspera,1,much\n", "plug_each")]
    [InlineData(",1,2\n", "scientific_name")]
    [InlineData("Liatris aspera,1,10001\n", "plug_each")]
    public void What_is_no_price_is_refused_by_line_and_column(string row, string column)
    {
        var error = Read(row).Errors.ShouldHaveSingleItem();
        (error.Line, error.Column).ShouldBe((2, column));
    }

    [Fact]
    public void A_plant_has_one_row()
    {
        var error = Read("Liatris aspera,1,2\nliatris ASPERA,1,2\n").Errors.ShouldHaveSingleItem();
        (error.Line, error.Column).ShouldBe((3, "scientific_name"));
        error.What.ShouldContain("line 2");
    }

    [Fact]
    public void What_is_written_is_read_again()
    {
        PlantPriceRow[] rows = [new(2, "Aster laevis", null, 2.25), new(3, "Liatris aspera", 1.4, null)];
        ImportFile.Read("prices.csv", Encoding.UTF8.GetBytes(PriceRows.Write(rows))).Prices.ShouldBe(rows);
    }

    private static ImportFile Read(string rows) => ImportFile.Read("prices.csv", Encoding.UTF8.GetBytes(Header + rows));
}
