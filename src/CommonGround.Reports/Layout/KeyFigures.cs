using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>A figure read alone: what it counts, the figure, and what it is out of.</summary>
internal sealed record KeyFigure(string Label, string Value, string Note);

/// <summary>A row of figures between two rules.</summary>
internal static class KeyFigures
{
    private const double Gap = 16;

    public static Flow Lay(Typesetter set, double width, IReadOnlyList<KeyFigure> figures)
    {
        var column = (width - (Gap * (figures.Count - 1))) / figures.Count;
        var notes = figures.Select(f => set.Wrap([new Run(f.Note, Faces.Small)], column)).ToArray();
        var height = 53 + (notes.Max(n => n.Count) * 12);
        return new Flow([new Slice(height, (pen, y) =>
        {
            pen.Artifact(() =>
            {
                pen.Rule(Ink.RuleStrong, 0.75, 0, width, y);
                pen.Rule(Ink.RuleStrong, 0.75, 0, width, y + height);
            });
            for (var i = 0; i < figures.Count; i++)
            {
                var x = i * (column + Gap);
                var at = i;
                pen.Tagged(PdfBlockLevelElementTag.Paragraph, () =>
                {
                    pen.Text(figures[at].Label + " ", Faces.Label, x, y + 17);
                    pen.Text(figures[at].Value + " ", Faces.Figure, x, y + 37);
                    Prose.Draw(pen, notes[at], x, y + 42, 12, Faces.Small.Size);
                });
            }
        })])
        { SpaceBefore = 12 };
    }
}
