namespace CommonGround.Reports.Layout;

/// <summary>The paper a report is printed on.</summary>
public enum PaperSize
{
    /// <summary>US letter, 8.5 × 11 in.</summary>
    Letter,

    /// <summary>A4, 210 × 297 mm (ISO 216).</summary>
    A4,
}

/// <summary>A sheet's sizes in points, 72 to the inch: its edges and the box that text flows in.</summary>
internal sealed record Sheet(double Width, double Height)
{
    private const double Side = 44.5;
    private const double Top = 68;
    private const double Bottom = 54;

    public double Left => Side;

    public double Right => Width - Side;

    public double TextTop => Top;

    public double TextWidth => Width - (2 * Side);

    public double TextHeight => Height - Top - Bottom;

    public static Sheet Of(PaperSize paper) => paper switch
    {
        PaperSize.Letter => new Sheet(612, 792),
        PaperSize.A4 => new Sheet(210 / 25.4 * 72, 297 / 25.4 * 72),
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "Letter or A4."),
    };
}
