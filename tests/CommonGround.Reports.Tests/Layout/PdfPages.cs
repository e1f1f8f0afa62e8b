using CommonGround.Reports.Layout;
using UglyToad.PdfPig;

namespace CommonGround.Reports.Tests.Layout;

/// <summary>What every report must keep, read back from the PDF by a reader that is not ours.</summary>
internal static class PdfPages
{
    /// <summary>Each name on both papers.</summary>
    public static TheoryData<string, PaperSize> OnBothPapers(params string[] names)
    {
        var data = new TheoryData<string, PaperSize>();
        foreach (var name in names)
        {
            data.Add(name, PaperSize.Letter);
            data.Add(name, PaperSize.A4);
        }

        return data;
    }

    /// <summary>US letter is 8.5 × 11 in; A4 is 210 × 297 mm (ISO 216). A point is 1/72 in.</summary>
    public static void AreOf(PdfDocument pdf, PaperSize paper)
    {
        var (width, height) = paper == PaperSize.Letter ? (612.0, 792.0) : (595.28, 841.89);
        foreach (var page in pdf.GetPages())
        {
            page.Width.ShouldBe(width, 0.01);
            page.Height.ShouldBe(height, 0.01);
        }
    }

    public static void KeepTheirMarginsAndReadableWords(PdfDocument pdf)
    {
        foreach (var page in pdf.GetPages())
        {
            var words = page.Letters.Where(l => !string.IsNullOrWhiteSpace(l.Value)).ToList();
            words.Count.ShouldBeGreaterThan(200, $"page {page.Number} is nearly empty");
            words.ShouldAllBe(l => l.BoundingBox.Left >= 40 && l.BoundingBox.Right <= page.Width - 40
                && l.BoundingBox.Bottom >= 20 && l.BoundingBox.Top <= page.Height - 28);
            words.Min(l => l.PointSize).ShouldBeGreaterThanOrEqualTo(7.5);
        }
    }

    public static void HaveNoWordsOnOtherWords(PdfDocument pdf)
    {
        foreach (var page in pdf.GetPages())
        {
            var letters = page.Letters.Where(l => char.IsLetterOrDigit(l.Value[0])).ToList();
            foreach (var row in letters.GroupBy(l => Math.Round(l.StartBaseLine.Y, 1)))
            {
                var ordered = row.OrderBy(l => l.StartBaseLine.X).ToList();
                for (var i = 1; i < ordered.Count; i++)
                {
                    var (left, right) = (ordered[i - 1], ordered[i]);
                    right.StartBaseLine.X.ShouldBeGreaterThan(
                        left.EndBaseLine.X - 1,
                        $"'{left.Value}{right.Value}' on page {page.Number}: {string.Concat(ordered.Select(l => l.Value))}");
                }
            }
        }
    }

    public static void LeaveNoHeadingAlone(Func<Typesetter, Sheet, IReadOnlyList<Flow>> flows, PaperSize paper)
    {
        using var set = new Typesetter();
        var sheet = Sheet.Of(paper);
        var placed = Pagination.Place(flows(set, sheet), sheet.TextHeight);
        foreach (var last in placed.GroupBy(p => p.Page).Select(g => g.Last()))
        {
            last.Slice.KeepWithNext.ShouldBeFalse();
        }

        placed.ShouldAllBe(p => p.Y + p.Slice.Height <= sheet.TextHeight + 0.02);
    }
}
