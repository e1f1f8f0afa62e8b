using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.Layout;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace CommonGround.Reports.Tests.Charts;

/// <summary>QR codes as they stand on paper, read by a decoder that shares nothing with the one who drew them (ISO/IEC 18004).</summary>
public sealed class QrReadBackTests
{
    /// <summary>Dots of the scan to a point: 576 to the inch.</summary>
    private const int Dots = 8;

    /// <summary>White round it on the scan, points.</summary>
    private const int Quiet = 4;

    [Theory]
    [InlineData("walk sheet", PaperSize.Letter, "https://quarry-bend.example.org/yards/LA-07/record/sheet")]
    [InlineData("walk sheet", PaperSize.A4, "https://quarry-bend.example.org/yards/LA-07/record/sheet")]
    [InlineData("tour leaflet", PaperSize.Letter, "https://quarry-bend.example.org/tours/ABCD-EFGH-JKLM")]
    [InlineData("tour leaflet", PaperSize.A4, "https://quarry-bend.example.org/tours/ABCD-EFGH-JKLM")]
    [InlineData("street invitation", PaperSize.Letter, "https://quarry-bend.example.org/streets/street?street=Kiln%20Street")]
    [InlineData("edge sign", PaperSize.Letter, "https://example.org/streets")]
    [InlineData("conversion report", PaperSize.Letter, "https://quarrybend.example/yards/KI-12/plan/3")]
    public void The_code_on_the_page_opens_the_address_that_is_meant(string kind, PaperSize paper, string address)
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind, paper));
        pdf.GetPages().SelectMany(p => Codes(pdf, p)).ShouldContain(address);
    }

    [Theory]
    [InlineData("labels")]
    [InlineData("stakes")]
    public void Every_label_carries_its_own_code(string kind)
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind));
        pdf.GetPages().SelectMany(p => Codes(pdf, p)).ShouldBe(Enumerable.Range(0, 6)
            .Select(i => $"https://quarry-bend.example.org/plants/monarda-fistulosa?label={i}"), ignoreOrder: true);
    }

    [Fact]
    public void Each_slip_has_the_code_of_its_own_invitation()
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of("invitation slips"));
        pdf.GetPages().SelectMany(p => Codes(pdf, p)).ShouldBe(Enumerable.Range(1, 8)
            .Select(i => $"https://example.org/join?code=ABCD-EFGH-JKLM-NPQ{i}"), ignoreOrder: true);
    }

    /// <summary>What a camera reads that is held over each code of a page: the dark shapes there, as they are filled.</summary>
    private static IEnumerable<string> Codes(PdfDocument pdf, Page page)
    {
        List<PdfRectangle> dark = [.. page.Paths.Where(p => p.IsFilled && Dark(p)).Select(p => p.GetBoundingRectangle())
            .OfType<PdfRectangle>()];
        foreach (var box in PdfUaTests.BoxesOf(pdf, page, "QR code of "))
        {
            var (left, top, side) = (box[0] - Quiet, box[3] + Quiet, (int)((box[2] - box[0] + (2 * Quiet)) * Dots));
            var grey = new byte[side * side];
            Array.Fill(grey, (byte)255);
            int Dot(double points) => Math.Clamp((int)Math.Round(points * Dots), 0, side);
            foreach (var shape in dark)
            {
                for (var y = Dot(top - shape.Top); y < Dot(top - shape.Bottom); y++)
                {
                    grey.AsSpan((y * side) + Dot(shape.Left - left), Math.Max(0, Dot(shape.Right - left) - Dot(shape.Left - left))).Clear();
                }
            }

            yield return new QRCodeReader().decode(new BinaryBitmap(new GlobalHistogramBinarizer(new RGBLuminanceSource(grey, side, side,
                RGBLuminanceSource.BitmapFormat.Gray8))))?.Text ?? "unread";
        }
    }

    private static bool Dark(UglyToad.PdfPig.Graphics.PdfPath path) => path.FillColor is { } colour && colour.ToRGBValues() is var (r, g, b)
        && r + g + b < 0.9;
}
