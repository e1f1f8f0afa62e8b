using System.Globalization;
using System.Security;
using System.Text;

namespace CommonGround.Reports.Layout;

/// <summary>Adds the PDF/UA identifier (ISO 14289-1, 5) to a finished file.</summary>
/// <remarks>
/// PDFsharp writes its own metadata packet on saving and has no place for the identifier. An incremental update (ISO 32000-1, 7.5.6)
/// appends a new packet under the same object number; nothing before it changes.
/// </remarks>
internal static class UaMark
{
    public static byte[] Append(byte[] pdf, string title)
    {
        var text = Encoding.Latin1.GetString(pdf);
        var end = text.LastIndexOf("startxref", StringComparison.Ordinal);
        var start = text.LastIndexOf("trailer", StringComparison.Ordinal);
        var metadata = Number(text, text.IndexOf("/Metadata ", StringComparison.Ordinal) + "/Metadata ".Length);
        var previous = Number(text, end + "startxref".Length);
        if (start < 0 || end < start)
        {
            throw new InvalidOperationException("The PDF just written has no trailer where one was expected.");
        }

        var opening = text.IndexOf("<<", start, StringComparison.Ordinal) + 2;
        var trailer = text[opening..text.LastIndexOf(">>", end, StringComparison.Ordinal)];
        var packet = Encoding.UTF8.GetBytes(Packet(title));

        using var to = new MemoryStream();
        void Put(string words) => to.Write(Encoding.Latin1.GetBytes(words));
        to.Write(pdf);
        Put("\n");
        var at = to.Position.ToString("0000000000", CultureInfo.InvariantCulture);
        Put($"{metadata} 0 obj\n<</Type/Metadata/Subtype/XML/Length {packet.Length.ToString(CultureInfo.InvariantCulture)}>>\nstream\n");
        to.Write(packet);
        Put("\nendstream\nendobj\n");
        var table = to.Position.ToString(CultureInfo.InvariantCulture);
        Put($"xref\n{metadata} 1\n{at} 00000 n \ntrailer\n<<{trailer}/Prev {previous}>>\nstartxref\n{table}\n%%EOF\n");
        return to.ToArray();
    }

    private static string Packet(string title) => $"""
        <?xpacket begin="{'\uFEFF'}" id="W5M0MpCehiHzreSzNTczkc9d"?>
        <x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
        <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
        <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{SecurityElement.Escape(title)}</rdf:li></rdf:Alt></dc:title>
        <dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></dc:language><pdfuaid:part>1</pdfuaid:part>
        </rdf:Description></rdf:RDF></x:xmpmeta>
        <?xpacket end="w"?>
        """;

    private static string Number(string text, int at)
    {
        var digits = string.Concat(text.Skip(at).SkipWhile(char.IsWhiteSpace).TakeWhile(char.IsAsciiDigit));
        return digits.Length > 0 ? digits : throw new InvalidOperationException("The PDF just written lacks an object that was expected.");
    }
}
