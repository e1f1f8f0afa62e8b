using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>The light theme's colours as they are printed: ink on white. Each has a lightness of its own, so the report reads in grey.</summary>
internal static class Ink
{
    public static readonly XColor Paper = XColors.White;
    public static readonly XColor Shade = Of(0xF3F2EE);
    public static readonly XColor Now = Of(0xE4E0D2);
    public static readonly XColor Rule = Of(0xCEC8BC);
    public static readonly XColor RuleStrong = Of(0x777569);
    public static readonly XColor Black = Of(0x1A231C);
    public static readonly XColor Second = Of(0x464F44);
    public static readonly XColor Third = Of(0x5D6357);
    public static readonly XColor Covered = Of(0x165F38);
    public static readonly XColor Gap = Of(0x973E16);
    public static readonly XColor GapWash = Of(0xFAECDE);

    /// <summary>What is after the change, beside what was before in outline; dark in grey.</summary>
    public static readonly XColor After = Of(0x3A5672);
    public static readonly XColor Planting = Of(0xE4EAC9);
    public static readonly XColor Seed = Of(0x5A6B3C);
    public static readonly XColor Turf = Of(0x8D9486);

    /// <summary>A colour from its six hexadecimal digits.</summary>
    public static XColor Of(int rgb) => XColor.FromArgb((rgb >> 16) & 255, (rgb >> 8) & 255, rgb & 255);
}
