using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.WalkSheets;

namespace CommonGround.Reports.Tests.WalkSheets;

public sealed class WalkSheetTests
{
    private static readonly CatalogueTaxon s_aster = new()
    {
        ScientificName = "Symphyotrichum laeve",
        CommonNames = ["smooth blue aster"],
        Caution = "Taken for others of its kind."
    };
    private static readonly CatalogueTaxon s_bergamot = new() { ScientificName = "Monarda fistulosa", CommonNames = ["wild bergamot"] };

    [Theory]
    [InlineData(PaperSize.Letter, 612, 792)]
    [InlineData(PaperSize.A4, 595, 842)]
    public void Every_planting_stands_on_the_sheet_in_order_with_its_number_and_empty_rows_follow(PaperSize paper, double width,
    double height)
    {
        var read = Read(Sheet(40), paper);
        read.Text.ShouldContain("1wild bergamot Monarda fistulosa1.0 m², flowering, Aug 2025");
        read.Text.IndexOf("39wild bergamot", StringComparison.Ordinal)
            .ShouldBeLessThan(read.Text.IndexOf("40smooth blue aster", StringComparison.Ordinal));
        // Three empty rows end the bed.
        read.Text.ShouldContain("43");
        read.Text.ShouldContain("Walk sheet, yard LA-07");
        read.Text.ShouldContain("0 looked and not found");
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(read.Bytes);
        // US letter, ANSI/ASME Y14.1; A4, ISO 216; in points of 1/72 in.
        pdf.GetPages().ShouldAllBe(p => Math.Abs(p.Width - width) < 1 && Math.Abs(p.Height - height) < 1);
        read.Pages.Count.ShouldBeGreaterThan(1);
        read.Pages.ShouldAllBe(p => p.Contains("Walk sheet · yard LA-07"));
    }

    [Fact]
    public void What_is_doubtful_is_told_with_its_marks_and_caution_and_certain_names_are_not()
    {
        var text = Read(Sheet(3), PaperSize.Letter).Text;
        text.ShouldContain("Look twice at one plant");
        text.ShouldContain("Alternate, egg-shaped.");
        text.ShouldContain("Taken for others of its kind.");
        text[text.IndexOf("Look twice", StringComparison.Ordinal)..].ShouldNotContain("wild bergamot");
        Read(Sheet(3) with { Beds = [new WalkBed("front", [Row(s_bergamot, Certainty.Certain)])] },
            PaperSize.Letter).Text.ShouldNotContain("Look twice");
    }

    [Fact]
    public void A_yard_without_plantings_still_gives_rows_to_write_on_and_no_code_without_an_address()
    {
        var read = Read(Sheet(0) with { EntryAddress = "", Beds = [new WalkBed("front", [])] }, PaperSize.A4);
        read.Pages.Count.ShouldBe(1);
        read.Text.ShouldContain("Front");
        read.Text.ShouldNotContain("Type it in here");
    }

    private static WalkSheet Sheet(int rows) => new()
    {
        Neighbourhood = "Quarry Bend",
        Demo = true,
        YardCode = "LA-07",
        AsOf = new DateOnly(2026, 8, 19),
        EntryAddress = "https://example.org/yards/LA-07/record/sheet",
        Beds = [new WalkBed("front", [.. Enumerable.Range(1, Math.Max(0, rows - 1)).Select(_ => Row(s_bergamot, Certainty.Certain)),
            .. rows > 0 ? [Row(s_aster, Certainty.Tentative)] : Array.Empty<WalkRow>()])],
    };

    private static WalkRow Row(CatalogueTaxon taxon, Certainty certainty) => new(taxon, "", "", 1, "flowering", new DateOnly(2025, 8, 3),
        certainty, ["Alternate, egg-shaped."]);

    private static ReadBack Read(WalkSheet sheet, PaperSize paper)
    {
        using var stream = new MemoryStream();
        WalkSheetDocument.Write(sheet, paper, stream);
        return ReadBack.Of(stream.ToArray());
    }
}
