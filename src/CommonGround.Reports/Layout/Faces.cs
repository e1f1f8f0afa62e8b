using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>A way to set words: family, cut, size in points and ink.</summary>
internal sealed record Face(string Family, XFontStyleEx Cut, double Size, XColor Ink)
{
    public Face At(double size) => this with { Size = size };

    public Face In(XColor ink) => this with { Ink = ink };
}

/// <summary>Words set in one face; a paragraph is a row of runs.</summary>
/// <param name="Unbroken">Kept on one line where the line is wide enough: a scientific name.</param>
internal sealed record Run(string Text, Face Face, bool Unbroken = false);

/// <summary>The report's typography: Alegreya for headings, leads and scientific names, Source Sans 3 for everything read as
/// data.</summary>
internal static class Faces
{
    public const string Serif = "Alegreya";
    public const string SerifHeavy = "Alegreya ExtraBold";
    public const string Sans = "Source Sans 3";
    public const string SansSemi = "Source Sans 3 SemiBold";

    public static readonly Face Mark = new(SerifHeavy, XFontStyleEx.Regular, 14.5, Ink.Black);
    public static readonly Face MarkPlace = new(Serif, XFontStyleEx.Italic, 14.5, Ink.Second);
    public static readonly Face H1 = new(Serif, XFontStyleEx.Bold, 28, Ink.Black);
    public static readonly Face H2 = new(Serif, XFontStyleEx.Bold, 17, Ink.Black);
    public static readonly Face H3 = new(Serif, XFontStyleEx.Bold, 12, Ink.Black);
    public static readonly Face Lead = new(Serif, XFontStyleEx.Regular, 14, Ink.Black);
    public static readonly Face Body = new(Sans, XFontStyleEx.Regular, 9.75, Ink.Black);
    public static readonly Face Small = new(Sans, XFontStyleEx.Regular, 9.25, Ink.Second);
    public static readonly Face Data = new(Sans, XFontStyleEx.Regular, 9, Ink.Black);
    public static readonly Face DataStrong = new(SansSemi, XFontStyleEx.Regular, 9, Ink.Black);
    public static readonly Face Latin = new(Serif, XFontStyleEx.Italic, 9.25, Ink.Second);
    public static readonly Face Label = new(SansSemi, XFontStyleEx.Regular, 8.5, Ink.Second);
    public static readonly Face Figure = new(SansSemi, XFontStyleEx.Regular, 19, Ink.Black);
    public static readonly Face Foot = new(Sans, XFontStyleEx.Regular, 8.5, Ink.Second);
}
