using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Tests.Names;

public class TaxonNameTests
{
    [Theory]
    [InlineData("Aster laevis", "Aster laevis", "")]
    [InlineData("  Aster \t laevis ", "Aster laevis", "")]
    [InlineData("Aster cf. laevis", "Aster laevis", "cf.")]
    [InlineData("cf. Aster laevis", "Aster laevis", "cf.")]
    [InlineData("Aster laevis (cf.)", "Aster laevis", "cf.")]
    [InlineData("Aster CF laevis", "Aster laevis", "cf.")]
    [InlineData("Aster aff. laevis", "Aster laevis", "aff.")]
    [InlineData("Carex aff stricta", "Carex stricta", "aff.")]
    [InlineData("", "", "")]
    public void Doubt_is_taken_out_of_a_name(string written, string name, string qualifier) =>
        TaxonName.Parse(written).ShouldBe(new TaxonName(name, qualifier));

    [Theory]
    [InlineData("Aster cf. laevis")]
    [InlineData("Aster aff. laevis")]
    [InlineData("Aster laevis")]
    [InlineData("cf. Aster")]
    public void A_name_is_written_as_it_is_read(string written) => TaxonName.Parse(written).ToString().ShouldBe(written);
}
