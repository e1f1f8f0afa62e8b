using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;

namespace CommonGround.Reports.Tests.Layout;

/// <summary>The structure elements of a tagged PDF (ISO 32000-1, 14.7.2).</summary>
internal static class PdfStructure
{
    /// <summary>All of them, in reading order.</summary>
    public static IEnumerable<PdfDictionary> Elements(PdfDocument pdf) =>
        Below(pdf.Internals.Catalog.Elements.GetDictionary("/StructTreeRoot").ShouldNotBeNull());

    public static IEnumerable<PdfDictionary> Children(PdfDictionary element)
    {
        var kids = element.Elements["/K"] is PdfReference reference ? reference.Value : element.Elements["/K"];
        var items = kids is PdfArray array ? array.Elements.Select(PdfItem? (i) => i is PdfReference r ? r.Value : i) : [kids];
        return items.OfType<PdfDictionary>().Where(d => d.Elements.GetName("/S").Length > 0);
    }

    public static string Type(PdfDictionary element) => element.Elements.GetName("/S").TrimStart('/');

    private static IEnumerable<PdfDictionary> Below(PdfDictionary element) => Children(element).SelectMany(c => Below(c).Prepend(c));
}
