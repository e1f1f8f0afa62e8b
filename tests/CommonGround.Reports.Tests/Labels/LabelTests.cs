using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Labels;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.YardReports;

namespace CommonGround.Reports.Tests.Labels;

public sealed class LabelTests
{
    private static readonly string[] s_names = ["wild bergamot", "aromatic aster", "New England aster", "showy black-eyed Susan",
        "prairie dropseed with a name that is much longer than any label has room for in one line"];

    /// <summary>Sizes of sheets: ANSI/ASME Y14.1 and ISO 216, points of 1/72 in.</summary>
    [Theory]
    [MemberData(nameof(Stocks))]
    public void Every_label_stands_inside_its_own_place_on_the_sheet(string id)
    {
        var stock = LabelStock.All.Single(s => s.Id == id);
        var read = ReadBack.Of(Written(stock, stock.OnASheet + 2));
        read.Pages.Count.ShouldBe(2);
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(read.Bytes);
        var page = pdf.GetPage(1);
        page.Width.ShouldBe(stock.Paper == PaperSize.Letter ? 612 : 595.3, 0.5);
        // The last label ends on the paper, with as much room as before the first.
        (stock.Left + ((stock.Columns - 1) * stock.Across) + stock.Width).ShouldBeLessThanOrEqualTo(page.Width - 3);
        (stock.Top + ((stock.Rows - 1) * stock.Down) + stock.Height).ShouldBeLessThanOrEqualTo(page.Height - 3);
        foreach (var word in page.GetWords())
        {
            Places(stock).ShouldContain(p => word.BoundingBox.Left >= p.Left - 0.5 && word.BoundingBox.Right <= p.Right + 0.5
                && page.Height - word.BoundingBox.Top >= p.Top - 0.5 && page.Height - word.BoundingBox.Bottom <= p.Bottom + 0.5,
                $"“{word.Text}” at {word.BoundingBox} runs over the edge");
        }
    }

    [Fact]
    public void A_label_names_the_plant_and_when_it_flowers_and_nothing_of_a_yard()
    {
        var text = ReadBack.Of(Written(LabelStock.All[0], 1)).Text;
        text.ShouldContain("Wild bergamot");
        text.ShouldContain("Monarda fistulosa");
        text.ShouldContain("flowers July to August");
    }

    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void A_sign_for_the_edge_is_one_page_and_says_what_it_is_and_whom_to_ask(PaperSize paper)
    {
        using var stream = new MemoryStream();
        new EdgeSign("Quarry Bend", "the organisers, Thursdays at the hall", [.. s_names.Take(4).Select(Drawn)], [.. s_names.Take(4)],
            "https://example.org/streets").Write(paper, stream);
        var read = ReadBack.Of(stream.ToArray());
        Keep(stream.ToArray(), $"sign-{paper}");
        read.Pages.Count.ShouldBe(1);
        read.Text.ShouldContain("This bed is planted on purpose");
        read.Text.ShouldContain("the organisers, Thursdays at the hall");
        read.Text.ShouldContain("do not mow, spray, pick or eat anything");
    }

    public static TheoryData<string> Stocks() => [.. LabelStock.All.Select(s => s.Id)];

    private static byte[] Written(LabelStock stock, int count)
    {
        using var stream = new MemoryStream();
        LabelDocument.Write([.. Enumerable.Range(0, count).Select(i => new PlantLabel(s_names[i % s_names.Length], "Monarda fistulosa",
            Drawn(s_names[i % s_names.Length]), i % 5 == 4 ? null : new BloomWindow(12, 15), i % 5 == 4 ? "a grass: no bloom for bees"
            : "flowers July to August", i % 5 == 4 ? "" : "purple", "https://quarry-bend.example.org/plants/monarda-fistulosa"))], stock,
            "Quarry Bend", stream);
        Keep(stream.ToArray(), stock.Id);
        return stream.ToArray();
    }

    private static Drawings.Pens.Picture Drawn(string name) =>
        Portrait.Small(Likeness.Plain(new CatalogueTaxon { ScientificName = "Monarda fistulosa", CommonNames = [name] }), 130);

    private static IEnumerable<(double Left, double Right, double Top, double Bottom)> Places(LabelStock stock) =>
        Enumerable.Range(0, stock.OnASheet).Select(i => (Left: stock.Left + (i % stock.Columns * stock.Across),
            Top: stock.Top + (i / stock.Columns * stock.Down))).Select(p => (p.Left, p.Left + stock.Width, p.Top, p.Top + stock.Height));

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
