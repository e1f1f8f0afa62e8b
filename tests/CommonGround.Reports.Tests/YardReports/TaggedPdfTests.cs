using System.Text;
using System.Xml.Linq;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.Layout;
using CommonGround.Reports.YardReports;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;
using PdfSharp.Pdf.IO;

namespace CommonGround.Reports.Tests.YardReports;

/// <summary>Structure of the file, by the rules of PDF/UA-1 (ISO 14289-1:2014) on ISO 32000-1:2008; clause numbers stand beside the
/// checks.</summary>
public sealed class TaggedPdfTests : IDisposable
{
    private readonly ReadBack _read = ReadBack.Of(SampleYards.Settled());
    private readonly PdfDocument _pdf;

    public TaggedPdfTests() => _pdf = PdfReader.Open(new MemoryStream(_read.Bytes), PdfDocumentOpenMode.Import);

    public void Dispose() => _pdf.Dispose();

    [Fact]
    public void The_file_is_marked_as_tagged_with_a_language_and_a_title_that_viewers_show()
    {
        // ISO 14289-1, 7.1 (Marked, title, DisplayDocTitle) and 7.2 (natural language).
        var catalog = _pdf.Internals.Catalog;
        catalog.Elements.GetDictionary("/MarkInfo")!.Elements.GetBoolean("/Marked").ShouldBeTrue();
        catalog.Elements.GetString("/Lang").ShouldBe("en");
        catalog.Elements.GetDictionary("/ViewerPreferences")!.Elements.GetBoolean("/DisplayDocTitle").ShouldBeTrue();
        _pdf.Info.Title.ShouldBe("Yard report · yard LA-07 · August 19, 2026");
    }

    [Fact]
    public void The_metadata_names_the_rules_it_was_made_to()
    {
        // ISO 14289-1, 5: pdfuaid:part is 1; the title is in Dublin Core (7.1).
        var metadata = _pdf.Internals.Catalog.Elements.GetDictionary("/Metadata")!;
        var xml = Encoding.UTF8.GetString(metadata.Stream.Value);
        var packet = XDocument.Parse(xml[xml.IndexOf("<x:xmpmeta",
            StringComparison.Ordinal)..(xml.IndexOf("</x:xmpmeta>", StringComparison.Ordinal) + 12)]);
        packet.Descendants(XName.Get("part", "http://www.aiim.org/pdfua/ns/id/")).Single().Value.ShouldBe("1");
        packet.Descendants(XName.Get("title", "http://purl.org/dc/elements/1.1/")).Single().Value.ShouldContain("Yard report · yard LA-07");
    }

    [Fact]
    public void Structure_elements_are_of_the_standard_types()
    {
        // ISO 32000-1, 14.8.4: standard structure types.
        var types = PdfStructure.Elements(_pdf).Select(PdfStructure.Type).Distinct(StringComparer.Ordinal).ToList();
        types.ShouldBeSubsetOf(["Document", "H1", "H2", "H3", "P", "Table", "TR", "TH", "TD", "Figure", "L", "LI", "Lbl", "LBody"]);
        types.ShouldContain("Document");
        PdfStructure.Elements(_pdf).Count(e => PdfStructure.Type(e) == "H1").ShouldBe(1);
        PdfStructure.Elements(_pdf).Count(e => PdfStructure.Type(e) == "H2").ShouldBeGreaterThanOrEqualTo(4);
    }

    [Fact]
    public void Headings_do_not_skip_a_level()
    {
        // ISO 14289-1, 7.4.2: the first heading is H1 and none skips downwards.
        var levels = PdfStructure.Elements(_pdf).Select(PdfStructure.Type).Where(t => t.Length == 2 && t[0] == 'H')
            .Where(t => char.IsAsciiDigit(t[1])).Select(t => t[1] - '0').ToList();
        levels[0].ShouldBe(1);
        levels.Zip(levels.Skip(1)).ShouldAllBe(pair => pair.Second <= pair.First + 1);
    }

    [Fact]
    public void Every_heading_cell_says_what_it_heads_and_every_row_has_as_many_cells()
    {
        // ISO 14289-1, 7.5: TH with Scope; ISO 32000-1, 14.8.5.7: attributes of tables.
        var heads = PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "TH").ToList();
        heads.ShouldNotBeEmpty();
        heads.Select(h => h.Elements.GetDictionary("/A")!.Elements.GetName("/Scope")).Distinct().Order(StringComparer.Ordinal)
            .ShouldBe(["/Column", "/Row"]);
        foreach (var table in PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "Table"))
        {
            PdfStructure.Children(table).Where(c => PdfStructure.Type(c) == "TR")
                .Select(r => PdfStructure.Children(r).Sum(c => Math.Max(1, c.Elements.GetDictionary("/A")?.Elements.GetInteger("/ColSpan")
                ?? 1))).Distinct().Count().ShouldBe(1);
        }
    }

    [Fact]
    public void Every_figure_has_words_and_a_box_on_the_page()
    {
        // ISO 14289-1, 7.3: alternative text; ISO 32000-1, 14.8.5.4.3: BBox of illustrations.
        var figures = PdfStructure.Elements(_pdf).Where(e => PdfStructure.Type(e) == "Figure").ToList();
        figures.Count.ShouldBeGreaterThanOrEqualTo(2);
        foreach (var figure in figures)
        {
            figure.Elements.GetString("/Alt").Length.ShouldBeGreaterThan(10);
            var box = figure.Elements.GetDictionary("/A")!.Elements.GetRectangle("/BBox");
            box.Width.ShouldBeGreaterThan(50);
            (box.X1 >= 0 && box.Y1 >= 0 && box.X2 <= 612 && box.Y2 <= 792).ShouldBeTrue($"{box}");
        }

        figures.Select(f => f.Elements.GetString("/Alt")).ShouldContain(a => a.StartsWith("Bloom strip of yard LA-07: ",
            StringComparison.Ordinal));
    }

    [Fact]
    public void All_fonts_are_embedded_subsets_of_ours()
    {
        // ISO 14289-1, 7.21.4.1: fonts are embedded; subset names begin with six letters and a plus (ISO 32000-1, 9.6.4).
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(_read.Bytes);
        var names = pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName ?? "").Distinct(StringComparer.Ordinal).ToList();
        names.ShouldAllBe(n => n.Length > 7 && n[6] == '+' && (n.Contains("Alegreya", StringComparison.Ordinal)
            || n.Contains("Source", StringComparison.Ordinal)));
        var descriptors = _pdf.Internals.GetAllObjects().OfType<PdfDictionary>()
            .Where(d => d.Elements.GetName("/Type") == "/FontDescriptor").ToList();
        descriptors.Count.ShouldBeGreaterThanOrEqualTo(6);
        descriptors.ShouldAllBe(d => d.Elements.ContainsKey("/FontFile2"));
    }

    [Fact]
    public void Pages_take_their_tab_order_from_the_structure()
    {
        // ISO 14289-1, 7.18.3.
        foreach (var page in _pdf.Pages)
        {
            page.Elements.GetName("/Tabs").ShouldBe("/S");
        }
    }

    [Fact]
    public void Lines_heads_and_feet_are_artifacts()
    {
        // ISO 14289-1, 7.1: all content is tagged or an artifact; 7.8: running heads and feet are artifacts.
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(_read.Bytes);
        foreach (var page in pdf.GetPages())
        {
            var marked = page.GetMarkedContents();
            marked.ShouldContain(m => m.IsArtifact && string.Concat(m.Letters.Select(l => l.Value)).Contains("page ",
                StringComparison.Ordinal));
            var inside = marked.SelectMany(m => m.Letters).Count();
            inside.ShouldBe(page.Letters.Count);
        }
    }
}
