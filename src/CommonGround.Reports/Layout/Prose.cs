using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>Headings, paragraphs and lists.</summary>
internal static class Prose
{
    public static Flow H1(Typesetter set, double width, string text) =>
        Lines(set, width, [new Run(text, Faces.H1)], 30, PdfBlockLevelElementTag.Heading1, keepAll: true,
            balance: true) with
        { SpaceBefore = 6 };

    public static Flow H2(Typesetter set, double width, string text) =>
        Lines(set, width, [new Run(text, Faces.H2)], 21, PdfBlockLevelElementTag.Heading2, keepAll: true,
            balance: true) with
        { SpaceBefore = 20 };

    /// <summary>A heading under a heavy rule; at the top of a page the masthead's rule is enough.</summary>
    public static Flow Section(Typesetter set, double width, string text)
    {
        var heading = H2(set, width, text);
        var first = heading.Slices[0];
        void WithRule(Pen pen, double y)
        {
            if (!pen.IsTop(y))
            {
                pen.Artifact(() => pen.Rule(Ink.Black, 1.5, 0, width, y - 8));
            }

            first.Draw(pen, y);
        }

        return heading with { SpaceBefore = 28, Slices = [first with { Draw = WithRule }, .. heading.Slices.Skip(1)] };
    }

    public static Flow H3(Typesetter set, double width, string text) =>
        Lines(set, width, [new Run(text, Faces.H3)], 16, PdfBlockLevelElementTag.Heading3, keepAll: true) with { SpaceBefore = 14 };

    public static Flow Lead(Typesetter set, double width, string text) =>
        Lines(set, width, [new Run(text, Faces.Lead)], 20, PdfBlockLevelElementTag.Paragraph) with { SpaceBefore = 8 };

    public static Flow Small(Typesetter set, double width, string text, bool keepWithNext = false) =>
        Lines(set, width, [new Run(text, Faces.Small)], 13, PdfBlockLevelElementTag.Paragraph, keepWithNext) with { SpaceBefore = 3 };

    public static Flow Body(Typesetter set, double width, string text) =>
        Lines(set, width, [new Run(text, Faces.Body)], 13.5, PdfBlockLevelElementTag.Paragraph) with { SpaceBefore = 5 };

    /// <summary>A bulleted list; an item never splits, and a list this short stays whole.</summary>
    public static Flow List(Typesetter set, double width, IReadOnlyList<IReadOnlyList<Run>> items)
    {
        const double Indent = 10, Leading = 12.5;
        return new Flow([.. items.Select((item, i) =>
        {
            var lines = set.Wrap(item, width - Indent);
            return new Slice((lines.Count * Leading) + 2, (pen, y) => pen.Tagged(PdfBlockLevelElementTag.ListItem, () =>
            {
                pen.Tagged(PdfBlockLevelElementTag.Label, () => pen.Text("• ", Faces.Small, 0, Baseline(y, Leading, Faces.Small.Size)));
                pen.Tagged(PdfBlockLevelElementTag.ListBody, () => Draw(pen, lines, Indent, y, Leading, Faces.Small.Size));
            }), KeepWithNext: i < items.Count - 1);
        })])
        { SpaceBefore = 4, Open = pen => pen.Open(PdfBlockLevelElementTag.List) };
    }

    /// <summary>A list of fine print: an item never splits, the list may between two, and neither its first nor its last item stands
    /// alone.</summary>
    public static Flow FineList(Typesetter set, double width, IReadOnlyList<IReadOnlyList<Run>> items)
    {
        const double Indent = 9, Leading = 10.5;
        return new Flow([.. items.Select((item, i) =>
        {
            var lines = set.Wrap(item, width - Indent);
            return new Slice((lines.Count * Leading) + 2.5, (pen, y) => pen.Tagged(PdfBlockLevelElementTag.ListItem, () =>
            {
                pen.Tagged(PdfBlockLevelElementTag.Label, () => pen.Text("• ", Faces.Foot, 0, Baseline(y, Leading, Faces.Foot.Size)));
                pen.Tagged(PdfBlockLevelElementTag.ListBody, () => Draw(pen, lines, Indent, y, Leading, Faces.Foot.Size));
            }), KeepWithNext: i < items.Count - 1 && (i == 0 || i == items.Count - 2));
        })])
        { SpaceBefore = 4, Open = pen => pen.Open(PdfBlockLevelElementTag.List) };
    }

    /// <summary>Capitals stand in the middle of their line.</summary>
    internal static double Baseline(double top, double leading, double size) => top + (leading / 2) + (size * 0.33);

    internal static void Draw(Pen pen, IReadOnlyList<TextLine> lines, double x, double y, double leading, double size)
    {
        for (var i = 0; i < lines.Count; i++)
        {
            pen.Line(lines[i], x, Baseline(y + (i * leading), leading, size));
        }
    }

    internal static Flow Lines(Typesetter set, double width, IReadOnlyList<Run> runs, double leading, PdfBlockLevelElementTag tag,
        bool keepAll = false, bool balance = false)
    {
        var lines = balance ? Balanced(set, runs, width) : set.Wrap(runs, width);
        var size = runs[0].Face.Size;
        // Never one line of a paragraph alone at the foot or the head of a page.
        return new Flow([.. lines.Select((line, i) => new Slice(
            leading,
            (pen, y) => pen.Line(line, 0, Baseline(y, leading, size)),
            keepAll || (i < lines.Count - 1 && (i == 0 || i == lines.Count - 2))))])
        { Open = pen => pen.Open(tag) };
    }

    /// <summary>A heading of several lines has them about equally long.</summary>
    private static IReadOnlyList<TextLine> Balanced(Typesetter set, IReadOnlyList<Run> runs, double width)
    {
        var lines = set.Wrap(runs, width);
        for (var narrower = width - 10; lines.Count > 1 && narrower > width / 2; narrower -= 10)
        {
            var next = set.Wrap(runs, narrower);
            if (next.Count > lines.Count)
            {
                break;
            }

            lines = next;
        }

        return lines;
    }
}
