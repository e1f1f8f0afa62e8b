using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.Layout;
using CommonGround.Reports.YardReports;
using UglyToad.PdfPig;

namespace CommonGround.Reports.Tests.YardReports;

public sealed class YardReportPagesTests
{
    public static TheoryData<string, PaperSize> Yards() =>
        PdfPages.OnBothPapers("lawn", "three", "settled", "settled in feet", "forty", "sixty", "eighty");

    [Theory]
    [MemberData(nameof(Yards))]
    public void A_yard_of_any_size_fills_one_to_five_pages_of_the_paper_asked_for(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        pdf.NumberOfPages.ShouldBeInRange(1, 5);
        PdfPages.AreOf(pdf, paper);
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void Nothing_is_drawn_outside_the_margins_and_no_words_are_smaller_than_seven_and_a_half_points(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        PdfPages.KeepTheirMarginsAndReadableWords(pdf);
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void No_words_lie_on_other_words(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        PdfPages.HaveNoWordsOnOtherWords(pdf);
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void No_heading_or_table_head_is_left_alone_at_the_foot_of_a_page(string name, PaperSize paper) =>
        PdfPages.LeaveNoHeadingAlone((set, sheet) => YardReportDocument.Flows(Yard(name), set, sheet), paper);

    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void A_table_row_never_splits(PaperSize paper)
    {
        var report = SampleYards.Crowded(80);
        var pages = ReadBack.Of(report, paper).Pages;
        foreach (var planting in report.Beds.SelectMany(b => b.Plantings))
        {
            var row = $"{planting.Taxon.DisplayName} {planting.Taxon.ScientificName}{planting.CoverSquareMetres.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture)}";
            pages.Count(p => p.Contains(row, StringComparison.Ordinal)).ShouldBe(1, row);
        }

        pages.Count(p => p.Contains("Cover, m²", StringComparison.Ordinal)).ShouldBe(2, "the head stands on both pages of the table");
    }

    private static YardReport Yard(string name) => name switch
    {
        "lawn" => SampleYards.Lawn(),
        "three" => SampleYards.ThreeSpecies(),
        "settled" => SampleYards.Settled(),
        "settled in feet" => SampleYards.Settled(Units.UsCustomary),
        "forty" => SampleYards.Crowded(40),
        "sixty" => SampleYards.Crowded(60),
        _ => SampleYards.Crowded(80),
    };
}
