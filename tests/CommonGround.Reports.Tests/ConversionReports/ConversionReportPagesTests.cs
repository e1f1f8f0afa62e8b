using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.YardReports;
using UglyToad.PdfPig;

namespace CommonGround.Reports.Tests.ConversionReports;

public sealed class ConversionReportPagesTests
{
    public static TheoryData<string, PaperSize> Plans()
    {
        var data = new TheoryData<string, PaperSize>();
        foreach (var name in new[] { "three", "three in feet", "ordinary", "ordinary in feet", "priceless", "thirty", "sixty", "sixty in feet" })
        {
            data.Add(name, PaperSize.Letter);
            data.Add(name, PaperSize.A4);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void An_ordinary_plan_fills_four_to_seven_pages_and_one_of_sixty_taxa_no_more_than_eleven(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        pdf.NumberOfPages.ShouldBeInRange(4, name.StartsWith("sixty", StringComparison.Ordinal) ? 11 : name == "thirty" ? 8 : 7);
        var (width, height) = paper == PaperSize.Letter ? (612.0, 792.0) : (595.28, 841.89);
        foreach (var page in pdf.GetPages())
        {
            page.Width.ShouldBe(width, 0.01);
            page.Height.ShouldBe(height, 0.01);
        }
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void Nothing_is_drawn_outside_the_margins_and_no_words_are_smaller_than_seven_and_a_half_points(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        foreach (var page in pdf.GetPages())
        {
            var words = page.Letters.Where(l => !string.IsNullOrWhiteSpace(l.Value)).ToList();
            words.Count.ShouldBeGreaterThan(200, $"page {page.Number} is nearly empty");
            words.ShouldAllBe(l => l.BoundingBox.Left >= 40 && l.BoundingBox.Right <= page.Width - 40 && l.BoundingBox.Bottom >= 20 && l.BoundingBox.Top <= page.Height - 28);
            words.Min(l => l.PointSize).ShouldBeGreaterThanOrEqualTo(7.5);
        }
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void No_words_lie_on_other_words(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(Write(Plan(name), paper));
        foreach (var page in pdf.GetPages())
        {
            var letters = page.Letters.Where(l => char.IsLetterOrDigit(l.Value[0])).ToList();
            foreach (var row in letters.GroupBy(l => Math.Round(l.StartBaseLine.Y, 1)))
            {
                var ordered = row.OrderBy(l => l.StartBaseLine.X).ToList();
                for (var i = 1; i < ordered.Count; i++)
                {
                    ordered[i].StartBaseLine.X.ShouldBeGreaterThan(ordered[i - 1].EndBaseLine.X - 1, $"'{ordered[i - 1].Value}{ordered[i].Value}' on page {page.Number} of {name}: {string.Concat(ordered.Select(l => l.Value))}");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public void No_heading_or_table_head_is_left_alone_at_the_foot_of_a_page(string name, PaperSize paper)
    {
        using var set = new Typesetter();
        var sheet = Sheet.Of(paper);
        var placed = Pagination.Place(ConversionReportDocument.Flows(Plan(name), set, sheet), sheet.TextHeight);
        foreach (var last in placed.GroupBy(p => p.Page).Select(g => g.Last()))
        {
            last.Slice.KeepWithNext.ShouldBeFalse();
        }

        placed.ShouldAllBe(p => p.Y + p.Slice.Height <= sheet.TextHeight + 0.02);
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
        "priceless" => SamplePlans.Priceless(),
        "thirty" => SamplePlans.Crowded(30),
        "sixty" => SamplePlans.Crowded(60),
        _ => SamplePlans.Crowded(60, Units.UsCustomary),
    };
}
