using System.Text;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace CommonGround.Reports.Tests.YardReports;

/// <summary>What a reader finds in the file: pages of words in the order they were written.</summary>
internal sealed record ReadBack(byte[] Bytes, IReadOnlyList<string> Pages)
{
    public string Text => string.Join('\n', Pages);

    public static ReadBack Of(YardReport report, PaperSize paper = PaperSize.Letter)
    {
        using var stream = new MemoryStream();
        YardReportDocument.Write(report, paper, stream);
        return Of(stream.ToArray());
    }

    public static ReadBack Of(byte[] bytes)
    {
        using var pdf = PdfDocument.Open(bytes);
        return new ReadBack(bytes, [.. pdf.GetPages().Select(Words)]);
    }

    private static string Words(Page page)
    {
        var text = new StringBuilder();
        foreach (var letter in page.Letters)
        {
            text.Append(letter.Value == "\u00A0" ? " " : letter.Value);
        }

        return text.ToString();
    }
}
