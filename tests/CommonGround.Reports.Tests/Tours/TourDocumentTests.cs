using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.Layout;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.Tours;

namespace CommonGround.Reports.Tests.Tours;

public sealed class TourDocumentTests
{
    [Theory]
    [InlineData(PaperSize.Letter, 1)]
    [InlineData(PaperSize.Letter, 3)]
    [InlineData(PaperSize.A4, 12)]
    public void A_leaflet_lies_on_its_side_and_no_word_crosses_the_fold(PaperSize paper, int stops)
    {
        using var stream = new MemoryStream();
        TourLeaflet.Write(SampleDocuments.Tour(stops), paper, stream);
        Keep(stream.ToArray(), $"leaflet-{paper}-{stops}");
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(stream.ToArray());
        pdf.NumberOfPages.ShouldBeGreaterThanOrEqualTo(2);
        foreach (var page in pdf.GetPages())
        {
            // US letter, ANSI/ASME Y14.1; A4, ISO 216; on their side, in points of 1/72 in.
            (page.Width, page.Height).ShouldBe(paper == PaperSize.Letter ? (792, 612) : (842, 595), new AboutEqual());
            var fold = page.Width / 2;
            foreach (var word in page.GetWords())
            {
                var (left, right) = (word.BoundingBox.Left, word.BoundingBox.Right);
                (right < fold - 8 || left > fold + 8).ShouldBeTrue($"“{word.Text}” crosses the fold");
                (left > 8 && right < page.Width - 8 && word.BoundingBox.Bottom > 8).ShouldBeTrue($"“{word.Text}” runs off the paper");
            }
        }
    }

    [Fact]
    public void Guests_read_no_code_no_household_and_nothing_doubtful_and_the_steward_reads_all_of_it()
    {
        string[] stewardsOwn = ["LA-01", "The Wrens", "Smooth blue aster", "Garlic mustard"];
        var leaflet = ReadBack.Of(SampleDocuments.Of("tour leaflet")).Text;
        var own = ReadBack.Of(SampleDocuments.Of("steward's sheet")).Text;
        foreach (var word in stewardsOwn)
        {
            leaflet.ShouldNotContain(word);
            own.ShouldContain(word);
        }

        foreach (var word in new[] { "12 Lathe Street", "It began with one bergamot.", "Feel the square stem.", "Leave alone here",
            "Take care: The sap burns skin in sunlight.", "Eat and pick nothing.", "Invented demo data" })
        {
            leaflet.ShouldContain(word);
        }

        own.ShouldContain("Doubtful last time: look again");
    }

    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void An_invitation_is_one_page(PaperSize paper)
    {
        var bytes = SampleDocuments.Of("street invitation", paper);
        Keep(bytes, $"invitation-{paper}");
        var read = ReadBack.Of(bytes);
        read.Pages.Count.ShouldBe(1);
        read.Text.ShouldContain("Three of four blocks of Kiln Street run out of flowers late in the year");
        read.Text.ShouldContain("Ask ________");
    }

    private sealed class AboutEqual : IEqualityComparer<(double Width, double Height)>
    {
        public bool Equals((double Width, double Height) x, (double Width, double Height) y) => Math.Abs(x.Width - y.Width) < 1
            && Math.Abs(x.Height - y.Height) < 1;

        public int GetHashCode((double Width, double Height) obj) => 0;
    }

    /// <summary>For whoever wants to look at them: the folder that the browser tests take their pictures to.</summary>
    private static void Keep(byte[] pdf, string name)
    {
        if (Environment.GetEnvironmentVariable("COMMONGROUND_PICTURES") is { } folder)
        {
            Directory.CreateDirectory(folder);
            File.WriteAllBytes(Path.Combine(folder, $"{name}.pdf"), pdf);
        }
    }
}
