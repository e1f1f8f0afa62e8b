using CommonGround.Reports.Tests.Layout;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;
using PdfSharp.Pdf.IO;

namespace CommonGround.Reports.Tests.ConversionReports;

/// <summary>Structure of the file, by the rules of PDF/UA-1 (ISO 14289-1:2014) on ISO 32000-1:2008; clause numbers stand beside the
/// checks.</summary>
public sealed class ConversionReportTagsTests : IDisposable
{
    private readonly byte[] _bytes = ConversionReportPagesTests.Write(SamplePlans.Ordinary());
    private readonly PdfDocument _pdf;

    public ConversionReportTagsTests() => _pdf = PdfReader.Open(new MemoryStream(_bytes), PdfDocumentOpenMode.Import);

    public void Dispose() => _pdf.Dispose();

    [Fact]
    public void It_has_a_language_a_title_and_one_first_heading_and_no_level_is_skipped()
    {
        // 7.1, 7.2 and 7.4.2.
        _pdf.Internals.Catalog.Elements.GetString("/Lang").ShouldBe("en");
        _pdf.Info.Title.ShouldBe("Conversion plan · yard KI-12 · August 19, 2026");
        var levels = PdfStructure.Elements(_pdf).Select(PdfStructure.Type).Where(t => t is "H1" or "H2" or "H3").Select(t => t[1] - '0')
            .ToList();
        levels.Count(l => l == 1).ShouldBe(1);
        levels.Count(l => l == 2).ShouldBeGreaterThanOrEqualTo(10);
        levels[0].ShouldBe(1);
        levels.Zip(levels.Skip(1)).ShouldAllBe(pair => pair.Second <= pair.First + 1);
    }

    [Fact]
    public void Every_figure_has_words_and_lies_on_its_page()
    {
        // 7.3; ISO 32000-1, 14.8.5.4.3.
        var figures = PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "Figure").ToList();
        foreach (var figure in figures)
        {
            figure.Elements.GetString("/Alt").Length.ShouldBeGreaterThanOrEqualTo(3);
            var box = figure.Elements.GetDictionary("/A")!.Elements.GetRectangle("/BBox");
            (box.Width > 20 && box.X1 >= 0 && box.Y1 >= 0 && box.X2 <= 612 && box.Y2 <= 792).ShouldBeTrue($"{box}");
        }

        var words = figures.Select(f => f.Elements.GetString("/Alt")).ToList();
        foreach (var start in new[] { "Sketch of yard KI-12, to scale: ", "QR code of https://quarrybend.example/yards/KI-12/plan/3",
            "Yard KI-12 today", "Money of 10 years in notes", "Watering in a year: ", "Runoff in m³: ", "Hours of work: ",
            "Hours of your own work: ", "Running off in 76",
                "Best mix at each cost", "Nov–Feb" })
        {
            words.ShouldContain(w => w.StartsWith(start, StringComparison.Ordinal), start);
        }
    }

    [Fact]
    public void Heading_cells_say_what_they_head_and_rows_of_a_table_have_as_many_cells()
    {
        // 7.5.
        PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "TH")
            .Select(h => h.Elements.GetDictionary("/A")!.Elements.GetName("/Scope")).Distinct().Order(StringComparer.Ordinal)
            .ShouldBe(["/Column", "/Row"]);
        var tables = PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "Table").ToList();
        tables.Count.ShouldBeGreaterThanOrEqualTo(6);
        foreach (var table in tables)
        {
            PdfStructure.Children(table).Where(c => PdfStructure.Type(c) == "TR")
                .Select(r => PdfStructure.Children(r).Sum(c => Math.Max(1, c.Elements.GetDictionary("/A")?.Elements.GetInteger("/ColSpan")
                ?? 1))).Distinct().Count().ShouldBe(1);
        }
    }

    [Fact]
    public void All_words_are_tagged_or_artifacts_and_all_fonts_are_embedded()
    {
        // 7.1 and 7.21.4.1.
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(_bytes);
        foreach (var page in pdf.GetPages())
        {
            page.GetMarkedContents().SelectMany(m => m.Letters).Count().ShouldBe(page.Letters.Count);
        }

        var descriptors = _pdf.Internals.GetAllObjects().OfType<PdfDictionary>()
            .Where(d => d.Elements.GetName("/Type") == "/FontDescriptor").ToList();
        descriptors.ShouldNotBeEmpty();
        descriptors.ShouldAllBe(d => d.Elements.ContainsKey("/FontFile2"));
    }
}
