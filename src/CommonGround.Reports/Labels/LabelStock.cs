using CommonGround.Reports.Layout;

namespace CommonGround.Reports.Labels;

/// <summary>A sheet of labels as it is sold, or of stakes to cut out. All lengths in points, 72 to the inch.</summary>
/// <param name="Id">In addresses.</param>
/// <param name="Words">What it is, for a list to choose from.</param>
/// <param name="Left">From the sheet's edge to the first label.</param>
/// <param name="Top">From the sheet's edge to the first row.</param>
/// <param name="Across">From the left edge of one label to that of the next.</param>
/// <param name="Down">From the top of one row to that of the next.</param>
/// <remarks>The sizes are those in which labels are commonly sold (common practice, from memory): print one on plain paper first and hold
/// it against the sheet.</remarks>
public sealed record LabelStock(string Id, string Words, PaperSize Paper, int Columns, int Rows, double Width, double Height, double Left,
    double Top, double Across, double Down, bool IsStake = false)
{
    private const double Inch = 72, Millimetre = 72 / 25.4;

    public static IReadOnlyList<LabelStock> All { get; } =
    [
        Inches("letter-10", "letter, 10 labels of 4 × 2 in", 2, 5, 4, 2, 0.15625, 0.5, 4.1875, 2),
        Inches("letter-30", "letter, 30 labels of 2⅝ × 1 in", 3, 10, 2.625, 1, 0.1875, 0.5, 2.75, 1),
        Inches("letter-stakes", "letter, 5 stakes of 1½ × 10 in to cut out", 5, 1, 1.5, 10, 0.5, 0.5, 1.5, 10) with { IsStake = true },
        Millimetres("a4-14", "A4, 14 labels of 99.1 × 38.1 mm", 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1),
        Millimetres("a4-21", "A4, 21 labels of 63.5 × 38.1 mm", 3, 7, 63.5, 38.1, 7.25, 15.15, 66, 38.1),
        Millimetres("a4-stakes", "A4, 5 stakes of 38 × 270 mm to cut out", 5, 1, 38, 270, 10, 13.5, 38, 270) with { IsStake = true },
    ];

    public int OnASheet => Columns * Rows;

    private static LabelStock Inches(string id, string words, int columns, int rows, double width, double height, double left, double top,
        double across, double down) => new(id, words, PaperSize.Letter, columns, rows, width * Inch, height * Inch, left * Inch, top * Inch,
        across * Inch, down * Inch);

    private static LabelStock Millimetres(string id, string words, int columns, int rows, double width, double height, double left,
        double top, double across, double down) => new(id, words, PaperSize.A4, columns, rows, width * Millimetre, height * Millimetre,
        left * Millimetre, top * Millimetre, across * Millimetre, down * Millimetre);
}
