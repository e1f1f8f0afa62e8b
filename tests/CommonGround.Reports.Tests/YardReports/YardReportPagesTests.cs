using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using UglyToad.PdfPig;

namespace CommonGround.Reports.Tests.YardReports;

public sealed class YardReportPagesTests
{
    public static TheoryData<string, PaperSize> Yards()
    {
        var data = new TheoryData<string, PaperSize>();
        foreach (var name in new[] { "lawn", "three", "settled", "settled in feet", "forty", "sixty", "eighty" })
        {
            data.Add(name, PaperSize.Letter);
            data.Add(name, PaperSize.A4);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void A_yard_of_any_size_fills_one_to_five_pages_of_the_paper_asked_for(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        pdf.NumberOfPages.ShouldBeInRange(1, 5);
        // US letter is 8.5 × 11 in; A4 is 210 × 297 mm (ISO 216). A point is 1/72 in.
        var (width, height) = paper == PaperSize.Letter ? (612.0, 792.0) : (595.28, 841.89);
        foreach (var page in pdf.GetPages())
        {
            page.Width.ShouldBe(width, 0.01);
            page.Height.ShouldBe(height, 0.01);
        }
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void Nothing_is_drawn_outside_the_margins_and_no_words_are_smaller_than_seven_and_a_half_points(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        foreach (var page in pdf.GetPages())
        {
            var words = page.Letters.Where(l => !string.IsNullOrWhiteSpace(l.Value)).ToList();
            words.Count.ShouldBeGreaterThan(200, $"page {page.Number} is nearly empty");
            words.ShouldAllBe(l => l.BoundingBox.Left >= 40 && l.BoundingBox.Right <= page.Width - 40 && l.BoundingBox.Bottom >= 20 && l.BoundingBox.Top <= page.Height - 28);
            words.Min(l => l.PointSize).ShouldBeGreaterThanOrEqualTo(7.5);
        }
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void No_words_lie_on_other_words(string name, PaperSize paper)
    {
        using var pdf = PdfDocument.Open(ReadBack.Of(Yard(name), paper).Bytes);
        foreach (var page in pdf.GetPages())
        {
            var letters = page.Letters.Where(l => char.IsLetterOrDigit(l.Value[0])).ToList();
            foreach (var row in letters.GroupBy(l => Math.Round(l.StartBaseLine.Y, 1)))
            {
                var ordered = row.OrderBy(l => l.StartBaseLine.X).ToList();
                for (var i = 1; i < ordered.Count; i++)
                {
                    ordered[i].StartBaseLine.X.ShouldBeGreaterThan(ordered[i - 1].EndBaseLine.X - 1, $"'{ordered[i - 1].Value}{ordered[i].Value}' on page {page.Number}");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Yards))]
    public void No_heading_or_table_head_is_left_alone_at_the_foot_of_a_page(string name, PaperSize paper)
    {
        using var set = new Typesetter();
        var sheet = Sheet.Of(paper);
        var placed = Pagination.Place(YardReportDocument.Flows(Yard(name), set, sheet), sheet.TextHeight);
        foreach (var last in placed.GroupBy(p => p.Page).Select(g => g.Last()))
        {
            last.Slice.KeepWithNext.ShouldBeFalse();
        }

        placed.ShouldAllBe(p => p.Y + p.Slice.Height <= sheet.TextHeight + 0.02);
    }

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
