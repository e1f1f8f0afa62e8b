using System.Text;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace CommonGround.Reports.Tests.Layout;

/// <summary>Every kind of paper, read with a library that did not write it, against the points of ISO 14289-1:2014 that a program can
/// check. docs/pdf-ua.md lists them all, with those that nobody has checked.</summary>
public sealed class PdfUaTests
{
    private static readonly string[] s_types = ["Document", "H1", "H2", "H3", "P", "Table", "TR", "TH", "TD", "Figure", "L", "LI", "Lbl",
        "LBody"];

    public static TheoryData<string> Kinds() => [.. SampleDocuments.Kinds];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_catalogue_says_tagged_language_title_and_part(string kind)
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind));
        var catalogue = pdf.Structure.Catalog.CatalogDictionary;
        // 7.1: Marked, and the title shown; 7.2: the language; 5: the identifier in the metadata.
        Get<BooleanToken>(pdf, Get<DictionaryToken>(pdf, catalogue, "MarkInfo")!, "Marked")!.Data.ShouldBeTrue();
        Get<BooleanToken>(pdf, Get<DictionaryToken>(pdf, catalogue, "ViewerPreferences")!, "DisplayDocTitle")!.Data.ShouldBeTrue();
        Text(Get<IToken>(pdf, catalogue, "Lang")).ShouldBe("en");
        pdf.Information.Title.ShouldNotBeNullOrWhiteSpace();
        pdf.TryGetXmpMetadata(out var metadata).ShouldBeTrue();
        Encoding.UTF8.GetString(metadata!.GetXmlBytes()).ShouldContain("<pdfuaid:part>1</pdfuaid:part>");
        // 7.1 and 7.16: nothing keeps assistive programs out; 7.19, 7.20: no form of another kind, no script.
        pdf.IsEncrypted.ShouldBeFalse();
        catalogue.Data.Keys.ShouldNotContain("AcroForm");
        catalogue.Data.Keys.ShouldNotContain("OpenAction");
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_tree_is_of_standard_types_headings_go_down_by_one_and_pictures_and_heading_cells_are_told(string kind)
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind));
        var elements = Elements(pdf).ToList();
        // 7.1 and ISO 32000-1, 14.8.4: standard types.
        elements.Select(e => e.Type).Distinct(StringComparer.Ordinal).ShouldBeSubsetOf(s_types);
        // 7.4.2: the first heading is the first level, and none is skipped. A sheet of labels has none.
        var levels = elements.Where(e => e.Type is "H1" or "H2" or "H3").Select(e => e.Type[1] - '0').ToList();
        if (kind is not ("labels" or "stakes" or "invitation slips"))
        {
            levels[0].ShouldBe(1);
            levels.Count(l => l == 1).ShouldBe(1);
        }

        levels.Zip(levels.Skip(1)).ShouldAllBe(pair => pair.Second <= pair.First + 1);
        foreach (var (type, element) in elements)
        {
            switch (type)
            {
                case "Figure": // 7.3
                    Text(Get<IToken>(pdf, element, "Alt")).Length.ShouldBeGreaterThanOrEqualTo(3);
                    Get<ArrayToken>(pdf, Get<DictionaryToken>(pdf, element, "A")!, "BBox")!.Length.ShouldBe(4);
                    break;
                case "TH": // 7.5
                    Get<NameToken>(pdf, Get<DictionaryToken>(pdf, element, "A")!, "Scope")!.Data.ShouldBeOneOf("Column", "Row");
                    break;
                case "LI": // ISO 32000-1, 14.8.4.3.3
                    Children(pdf, element).Select(c => c.Type).ShouldBe(["Lbl", "LBody"]);
                    break;
            }
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_letter_is_tagged_or_an_artifact_and_every_tag_leads_to_the_tree(string kind)
    {
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind));
        var told = Elements(pdf).SelectMany(e => Marks(pdf, e.Element)).ToList();
        // 7.1: no piece of content belongs to two elements.
        told.Distinct().Count().ShouldBe(told.Count);
        var byPage = told.ToLookup(t => t.Page, t => t.Mark);
        foreach (var page in pdf.GetPages())
        {
            var marked = page.GetMarkedContents();
            marked.SelectMany(m => m.Letters).Count().ShouldBe(page.Letters.Count, $"{kind}, page {page.Number}");
            var inTree = byPage[page.Dictionary].ToHashSet();
            foreach (var content in marked.Where(m => !m.IsArtifact && m.MarkedContentIdentifier >= 0))
            {
                inTree.ShouldContain(content.MarkedContentIdentifier, $"{kind}, page {page.Number}");
            }

            // 7.18.3: tab order follows the structure.
            Get<NameToken>(pdf, page.Dictionary, "Tabs")!.Data.ShouldBe("S");
            // 7.21.7: every letter has a meaning beyond its shape.
            page.Letters.ShouldAllBe(l => l.Value.Length > 0 && l.Value != "\uFFFD");
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_font_is_embedded(string kind)
    {
        // 7.21.4.1; subset names begin with six letters and a plus (ISO 32000-1, 9.6.4).
        using var pdf = PdfDocument.Open(SampleDocuments.Of(kind));
        pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName ?? "").Distinct(StringComparer.Ordinal)
            .ShouldAllBe(n => n.Length > 7 && n[6] == '+');
    }

    /// <summary>Boxes of the pictures whose words begin so.</summary>
    internal static IEnumerable<double[]> BoxesOf(PdfDocument pdf, Page page, string words) => Elements(pdf)
        .Where(e => e.Type == "Figure" && Text(Get<IToken>(pdf, e.Element, "Alt")).StartsWith(words, StringComparison.Ordinal)
            && Marks(pdf, e.Element).Any(m => m.Page.Equals(page.Dictionary)))
        .Select(e => Get<ArrayToken>(pdf, Get<DictionaryToken>(pdf, e.Element, "A")!, "BBox")!.Data.Cast<NumericToken>()
            .Select(n => n.Double).ToArray());

    private static IEnumerable<(string Type, DictionaryToken Element)> Elements(PdfDocument pdf)
    {
        var root = Get<DictionaryToken>(pdf, pdf.Structure.Catalog.CatalogDictionary, "StructTreeRoot");
        return Below(pdf, root.ShouldNotBeNull());
    }

    private static IEnumerable<(string Type, DictionaryToken Element)> Below(PdfDocument pdf, DictionaryToken element) =>
        Children(pdf, element).SelectMany(c => Below(pdf, c.Element).Prepend(c));

    private static IEnumerable<(string Type, DictionaryToken Element)> Children(PdfDocument pdf, DictionaryToken element) =>
        Kids(pdf, element).OfType<DictionaryToken>().Where(d => d.Data.ContainsKey("S"))
            .Select(d => (Get<NameToken>(pdf, d, "S")!.Data, d));

    /// <summary>Pieces of content that an element holds: a number on its own page, or a reference that names another.</summary>
    private static IEnumerable<(DictionaryToken Page, int Mark)> Marks(PdfDocument pdf, DictionaryToken element)
    {
        var own = Get<DictionaryToken>(pdf, element, "Pg");
        foreach (var kid in Kids(pdf, element))
        {
            if (kid is NumericToken number)
            {
                yield return (own!, number.Int);
            }
            else if (kid is DictionaryToken reference && reference.Data.ContainsKey("MCID"))
            {
                yield return (Get<DictionaryToken>(pdf, reference, "Pg") ?? own!, Get<NumericToken>(pdf, reference, "MCID")!.Int);
            }
        }
    }

    private static IEnumerable<IToken> Kids(PdfDocument pdf, DictionaryToken element) => Get<IToken>(pdf, element, "K") switch
    {
        null => [],
        ArrayToken array => array.Data.Select(k => Resolved(pdf, k)),
        var one => [one],
    };

    private static T? Get<T>(PdfDocument pdf, DictionaryToken of, string key)
        where T : class, IToken => of.Data.TryGetValue(key, out var token) ? Resolved(pdf, token) as T : null;

    private static IToken Resolved(PdfDocument pdf, IToken token) => token is IndirectReferenceToken reference
        ? Resolved(pdf, pdf.Structure.GetObject(reference.Data).Data) : token;

    private static string Text(IToken? token) => token switch
    {
        StringToken text => text.Data,
        HexToken hex => hex.Data,
        _ => "",
    };
}
