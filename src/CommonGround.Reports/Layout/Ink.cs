using System.Globalization;
using CommonGround.Assets;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>The light theme's colours as they are printed: ink on white. Each has a lightness of its own, so the report reads in
/// grey.</summary>
internal static class Ink
{
    public static readonly XColor Paper = XColors.White;
    public static readonly XColor Shade = Of(0xF3F2EE);
    public static readonly XColor Now = Of(0xE4E0D2);
    public static readonly XColor Rule = Of("rule");
    public static readonly XColor RuleStrong = Of("rule-strong");
    public static readonly XColor Black = Of("ink");
    public static readonly XColor Second = Of("ink-2");
    public static readonly XColor Third = Of("ink-3");
    public static readonly XColor Covered = Of("covered");
    public static readonly XColor Gap = Of("gap");
    public static readonly XColor GapWash = Of("gap-wash");

    /// <summary>What is after the change, beside what was before in outline; dark in grey.</summary>
    public static readonly XColor After = Of(0x3A5672);
    public static readonly XColor Planting = Of(0xE4EAC9);
    public static readonly XColor Seed = Of(0x5A6B3C);
    public static readonly XColor Turf = Of(0x8D9486);

    /// <summary>A colour of the pages' light theme, by its token.</summary>
    public static XColor Of(string token) => Of(int.Parse(ColourTokens.Light[token].AsSpan(1), NumberStyles.HexNumber,
        CultureInfo.InvariantCulture));

    /// <summary>A colour from its six hexadecimal digits, for what only paper has.</summary>
    public static XColor Of(int rgb) => XColor.FromArgb((rgb >> 16) & 255, (rgb >> 8) & 255, rgb & 255);
}
