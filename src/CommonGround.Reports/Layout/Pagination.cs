namespace CommonGround.Reports.Layout;

/// <summary>An unsplittable strip across the column.</summary>
/// <param name="Height">Points.</param>
/// <param name="Draw">Draws it with its top at the given y.</param>
/// <param name="KeepWithNext">It may not be the last strip of a page: headings, a table's head, the first line of a paragraph.</param>
internal sealed record Slice(double Height, Action<Pen, double> Draw, bool KeepWithNext = false);

/// <summary>What flows down the pages as one: a paragraph, a table, a figure.</summary>
/// <param name="Slices">Top to bottom.</param>
internal sealed record Flow(IReadOnlyList<Slice> Slices)
{
    /// <summary>Points above it; dropped at the top of a page.</summary>
    public double SpaceBefore { get; init; }

    /// <summary>What must be in the file before its pages are tagged.</summary>
    public Action<PdfSharp.Pdf.PdfDocument>? Prepare { get; init; }

    /// <summary>Drawn again before the first slice that lands on a further page: a table's head.</summary>
    public Slice? RepeatedHead { get; init; }

    /// <summary>It begins at the top of a page.</summary>
    public bool StartsPage { get; init; }

    /// <summary>Opens its tag, on each page that it touches.</summary>
    public Action<Pen>? Open { get; init; }

    public double Height => Slices.Sum(s => s.Height);
}

/// <summary>Where a slice lands.</summary>
/// <param name="Page">From 0.</param>
/// <param name="Y">Points below the top of the text box.</param>
internal sealed record Placed(int Page, double Y, Flow Flow, Slice Slice);

/// <summary>Packs slices into pages. Pure: nothing is drawn, so the number of pages is known before the first is.</summary>
internal static class Pagination
{
    /// <summary>Places every slice, in order.</summary>
    /// <param name="flows">Reading order.</param>
    /// <param name="height">Height of the text box, points.</param>
    /// <remarks>
    /// A run of slices kept together moves to the next page as a whole. What is taller than a page on its own is placed at the top of one:
    /// better too low than lost.
    /// </remarks>
    public static IReadOnlyList<Placed> Place(IReadOnlyList<Flow> flows, double height)
    {
        var placed = new List<Placed>();
        List<(Flow Flow, Slice Slice, bool First)> strips = [.. flows.SelectMany(f => f.Slices.Select((s, i) => (f, s, i == 0)))];
        var page = 0;
        double y = 0;
        for (var i = 0; i < strips.Count; i++)
        {
            var (flow, slice, first) = strips[i];
            var space = first && y > 0 ? flow.SpaceBefore : 0;
            // A chain is checked where it starts: its later strips are known to fit.
            var chained = i > 0 && strips[i - 1].Slice.KeepWithNext;
            var need = chained ? slice.Height : Together(strips, i);
            if (y > 0 && ((first && flow.StartsPage) || y + space + need > height + 0.01))
            {
                page++;
                (y, space) = (0, 0);
                if (!first && flow.RepeatedHead is { } head)
                {
                    placed.Add(new Placed(page, y, flow, head));
                    y += head.Height;
                }
            }

            placed.Add(new Placed(page, y + space, flow, slice));
            y += space + slice.Height;
        }

        return placed;
    }

    /// <summary>Pages used; none for nothing.</summary>
    public static int Pages(IReadOnlyList<Placed> placed) => placed.Count == 0 ? 0 : placed[^1].Page + 1;

    private static double Together(List<(Flow Flow, Slice Slice, bool First)> strips, int from)
    {
        var need = strips[from].Slice.Height;
        for (var i = from; strips[i].Slice.KeepWithNext && i + 1 < strips.Count; i++)
        {
            need += (strips[i + 1].First ? strips[i + 1].Flow.SpaceBefore : 0) + strips[i + 1].Slice.Height;
        }

        return need;
    }
}
