using CommonGround.Reports.Charts;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>A column: its heading, its share of the width, and whether figures stand right.</summary>
internal sealed record Column(string Head, double Share, bool Right = false);

/// <summary>What stands in a cell: words, and above them a small chart where there is one.</summary>
/// <param name="Tick">An empty box stands before the words, to tick.</param>
internal sealed record Cell(IReadOnlyList<Run> Runs, Chart? Chart = null, bool Tick = false)
{
    /// <summary>Room of the box to tick, points.</summary>
    public double Indent => Tick ? 13 : 0;

    /// <summary>Its lines, and the numbers of those that have a box.</summary>
    public (IReadOnlyList<TextLine> Lines, IReadOnlyList<int> Boxes) Set(Typesetter set, double room)
    {
        if (Runs.Count == 0) return ([], []);
        if (!Tick || !Apart) return (set.Wrap(Runs, room - Indent), Tick ? [0] : []);
        List<TextLine> lines = [];
        List<int> boxes = [];
        foreach (var run in Runs)
        {
            boxes.Add(lines.Count);
            lines.AddRange(set.Wrap([run], room - Indent));
        }

        return (lines, boxes);
    }

    /// <summary>Each run is a job of its own, with its box; else one box stands before all the words.</summary>
    public bool Apart { get; init; }

    public static Cell Of(string text, Face? face = null) => new([new Run(text, face ?? Faces.Data)]);
}

/// <summary>A row; its first cell heads it. A group's row has one cell and names the rows under it.</summary>
internal sealed record Row(IReadOnlyList<Cell> Cells)
{
    public bool IsGroup => Cells.Count == 1;
}

/// <summary>How close a table's rows stand, points.</summary>
/// <param name="Leading">From line to line.</param>
/// <param name="Padding">Above and below the words of a row.</param>
internal sealed record TableSpacing(double Leading, double Padding)
{
    public static readonly TableSpacing Open = new(11.5, 2.1);
    public static readonly TableSpacing Close = new(10.5, 0.9);
}

/// <summary>A table that repeats its head on every page and never splits a row. A short one stays whole.</summary>
internal sealed record Table(IReadOnlyList<Column> Columns, IReadOnlyList<Row> Rows, TableSpacing? Spacing = null)
{
    private const double Gap = 9;
    private const int ShortRows = 8;

    private double Leading => (Spacing ?? TableSpacing.Open).Leading;

    private double Padding => (Spacing ?? TableSpacing.Open).Padding;

    public Flow Lay(Typesetter set, double width)
    {
        var head = Head(set, width);
        return new Flow([head, .. Rows.Select((r, i) => r.IsGroup ? Group(set, width, r) : Body(set, width, r, KeepsNext(i)))])
        {
            SpaceBefore = 8,
            RepeatedHead = head,
            Open = pen => pen.Open(PdfBlockLevelElementTag.Table),
        };
    }

    /// <summary>Neither the first nor the last row stands alone on a page.</summary>
    private bool KeepsNext(int row) => row < Rows.Count - 1 && (Rows.Count <= ShortRows || row == 0 || row == Rows.Count - 2);

    private double[] Widths(double width)
    {
        var unit = width / Columns.Sum(c => c.Share);
        return [.. Columns.Select(c => c.Share * unit)];
    }

    private double Room(double[] widths, int column) => widths[column] - (column == widths.Length - 1 ? 0 : Gap);

    private Slice Head(Typesetter set, double width)
    {
        var widths = Widths(width);
        IReadOnlyList<TextLine>[] cells = [.. Columns.Select((c, i) => set.Wrap([new Run(c.Head, Faces.Label)], Room(widths, i)))];
        var most = cells.Max(c => c.Count);
        var height = (most * 10.5) + 6;
        return new Slice(height, (pen, y) =>
        {
            pen.Artifact(() => pen.Rule(Ink.RuleStrong, 0.75, 0, width, y + height - 1));
            pen.Tagged(PdfBlockLevelElementTag.TableRow, () =>
            {
                double x = 0;
                for (var i = 0; i < cells.Length; i++)
                {
                    var column = i;
                    var left = x;
                    // Headings of one line stand on the rule, beside those of two.
                    var top = y + ((most - cells[i].Count) * 10.5);
                    pen.Cell(CellRole.HeadsColumn, 1, () => Lines(pen, cells[column], left, top, Room(widths, column),
                        Columns[column].Right, 10.5, Faces.Label.Size));
                    x += widths[i];
                }
            });
        }, KeepWithNext: true);
    }

    private Slice Group(Typesetter set, double width, Row row)
    {
        var lines = set.Wrap(row.Cells[0].Runs, width);
        var height = (lines.Count * Leading) + Padding + 6;
        return new Slice(height, (pen, y) =>
        {
            pen.Artifact(() => pen.Rule(Ink.RuleStrong, 0.5, 0, width, y + height - 0.5));
            pen.Tagged(PdfBlockLevelElementTag.TableRow, () => pen.Cell(CellRole.HeadsRow, Columns.Count,
                () => Lines(pen, lines, 0, y + 5, width, false, Leading, Faces.Data.Size)));
        }, KeepWithNext: true);
    }

    private Slice Body(Typesetter set, double width, Row row, bool keep)
    {
        if (row.Cells.Count != Columns.Count)
        {
            throw new ArgumentException($"A row has {row.Cells.Count} cells where the table has {Columns.Count} columns.", nameof(row));
        }

        var widths = Widths(width);
        (IReadOnlyList<TextLine> Lines, IReadOnlyList<int> Boxes)[] cells = [.. row.Cells.Select((c, i) => c.Set(set, Room(widths, i)))];
        var height = cells.Select((c, i) => (c.Lines.Count * Leading) + ChartHeight(row.Cells[i], Room(widths, i))).Max() + (2 * Padding);
        return new Slice(height, (pen, y) =>
        {
            pen.Artifact(() => pen.Rule(Ink.Rule, 0.5, 0, width, y + height - 0.25));
            pen.Tagged(PdfBlockLevelElementTag.TableRow, () =>
            {
                double x = 0;
                for (var i = 0; i < cells.Length; i++)
                {
                    var column = i;
                    var left = x;
                    pen.Cell(i == 0 ? CellRole.HeadsRow : CellRole.Data, 1, () =>
                    {
                        var room = Room(widths, column);
                        var chart = ChartHeight(row.Cells[column], room);
                        if (row.Cells[column].Chart is { } small)
                        {
                            PdfChartPen.Draw(pen, small, new XRect(pen.Left + left, y + Padding + 1, room, chart - 2));
                        }

                        var indent = row.Cells[column].Indent;
                        foreach (var box in cells[column].Boxes)
                        {
                            pen.Artifact(() => Box(pen, left, y + Padding + chart + ((box + 0.5) * Leading) - 4));
                        }

                        Lines(pen, cells[column].Lines, left + indent, y + Padding + chart, room - indent, Columns[column].Right, Leading,
                            Faces.Data.Size);
                    });
                    x += widths[i];
                }
            });
        }, keep);
    }

    private static void Box(Pen pen, double x, double y) =>
        pen.Graphics.DrawRectangle(new XPen(Ink.Black, 0.8), pen.Left + x + 0.5, y, 8, 8);

    private static double ChartHeight(Cell cell, double room) => cell.Chart is { } chart ? (chart.Height * room / chart.Width) + 2 : 0;

    private static void Lines(Pen pen, IReadOnlyList<TextLine> lines, double x, double y, double room, bool right, double leading,
        double size)
    {
        for (var i = 0; i < lines.Count; i++)
        {
            pen.Line(lines[i], right ? x + room - lines[i].Width : x, Prose.Baseline(y + (i * leading), leading, size));
        }
    }
}
