using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.Layout;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.YardReports;
using UglyToad.PdfPig;

namespace CommonGround.Reports.Tests.ConversionReports;

public sealed class ConversionReportPagesTests
{
    public static TheoryData<string, PaperSize> Plans() =>
        PdfPages.OnBothPapers("three", "three in feet", "ordinary", "ordinary in feet", "priceless", "thirty", "sixty", "sixty in feet");

    [Theory]
    [MemberData(nameof(Plans))]
    public void An_ordinary_plan_fills_four_to_seven_pages_and_one_of_sixty_taxa_no_more_than_eleven(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        pdf.NumberOfPages.ShouldBeInRange(4, name.StartsWith("sixty", StringComparison.Ordinal) ? 12 : name == "thirty" ? 9 : 8);
        PdfPages.AreOf(pdf, paper);
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void Nothing_is_drawn_outside_the_margins_and_no_words_are_smaller_than_seven_and_a_half_points(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        PdfPages.KeepTheirMarginsAndReadableWords(pdf);
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void No_words_lie_on_other_words(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        PdfPages.HaveNoWordsOnOtherWords(pdf);
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void No_heading_or_table_head_is_left_alone_at_the_foot_of_a_page(string name, PaperSize paper) =>
        PdfPages.LeaveNoHeadingAlone((set, sheet) => ConversionReportDocument.Flows(Plan(name), set, sheet), paper);

    internal static byte[] Write(ConversionReport report, PaperSize paper = PaperSize.Letter)
    {
        using var stream = new MemoryStream();
        ConversionReportDocument.Write(report, paper, stream);
        return stream.ToArray();
    }

    internal static ReadBack Read(ConversionReport report, PaperSize paper = PaperSize.Letter) => ReadBack.Of(Write(report, paper));

    internal static ConversionReport Plan(string name) => name switch
    {
        "three" => SamplePlans.Three(),
        "three in feet" => SamplePlans.Three(Units.UsCustomary),
        "ordinary" => SamplePlans.Ordinary(),
        "ordinary in feet" => SamplePlans.Ordinary(Units.UsCustomary),
        "priceless" => SamplePlans.Priceless(),
        "thirty" => SamplePlans.Crowded(30),
        "sixty" => SamplePlans.Crowded(60),
        _ => SamplePlans.Crowded(60, Units.UsCustomary),
    };
}
