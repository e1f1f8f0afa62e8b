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
        PdfPages.OnBothPapers("three", "three in feet", "ordinary", "ordinary in feet", "local",
            "priceless", "thirty", "sixty", "sixty in feet");

    [Theory]
    [MemberData(nameof(Plans))]
    public void An_ordinary_plan_fills_seven_to_twelve_pages_and_one_of_sixty_kinds_no_more_than_eighteen(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        pdf.NumberOfPages.ShouldBeInRange(7, name.StartsWith("sixty", StringComparison.Ordinal) ? 18 : name == "thirty" ? 14 : 12);
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

    [Theory]
    [MemberData(nameof(Plans))]
    public void No_page_but_the_last_is_empty_by_a_third(string name, PaperSize paper)
    {
        using var set = new Typesetter();
        var sheet = Sheet.Of(paper);
        var placed = Pagination.Place(ConversionReportDocument.Flows(Plan(name), set, sheet), sheet.TextHeight);
        var ends = placed.GroupBy(p => p.Page).SkipLast(1).Select(g => (Page: g.Key + 1, Share: g.Max(p => p.Y + p.Slice.Height)
            / sheet.TextHeight)).ToList();
        ends.Where(e => e.Share < 2.0 / 3).ShouldBeEmpty();
    }

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
        "local" => SamplePlans.Local(),
        "priceless" => SamplePlans.Priceless(),
        "thirty" => SamplePlans.Crowded(30),
        "sixty" => SamplePlans.Crowded(60),
        _ => SamplePlans.Crowded(60, Units.UsCustomary),
    };
}
