using System.Collections.Concurrent;
using CommonGround.Assets;
using PdfSharp.Fonts;

namespace CommonGround.Reports.Layout;

/// <summary>Gives PDFsharp the seven font files we ship; no font of the machine is ever used.</summary>
internal sealed class ReportFonts : IFontResolver
{
    private static readonly Lazy<bool> s_registered = new(Register);
    private readonly ConcurrentDictionary<string, byte[]> _files = new(StringComparer.Ordinal);

    private ReportFonts()
    {
    }

    /// <summary>PDFsharp keeps one resolver per process: it is set once, before the first font is made.</summary>
    public static void EnsureRegistered() => _ = s_registered.Value;

    public byte[]? GetFont(string faceName) => _files.GetOrAdd(faceName, AssetFonts.Read);

    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => familyName switch
    {
        Faces.Serif when isItalic => new("Alegreya_500Medium_Italic.ttf"),
        Faces.Serif => new(isBold ? "Alegreya_700Bold.ttf" : "Alegreya_400Regular.ttf"),
        Faces.SerifHeavy => new("Alegreya_800ExtraBold.ttf"),
        Faces.Sans => new(isBold ? "SourceSans3_700Bold.ttf" : "SourceSans3_400Regular.ttf"),
        Faces.SansSemi => new("SourceSans3_600SemiBold.ttf"),
        _ => null,
    };

    private static bool Register()
    {
        GlobalFontSettings.FontResolver = new ReportFonts();
        return true;
    }
}
