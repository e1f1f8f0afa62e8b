using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>A worry: what people say, the honest answer, and a word on how likely it is.</summary>
internal sealed record NumberedNote(string Heading, string Text, string Likely);

/// <summary>Worries under each other, each with its number before it and its likelihood at the right. One never splits.</summary>
internal static class NumberedNotes
{
    private const double Indent = 26, Aside = 74, HeadLeading = 15, Leading = 12.25, After = 6.5, Before = 4.5;

    public static IReadOnlyList<Flow> Lay(Typesetter set, double width, IReadOnlyList<NumberedNote> notes) =>
        [.. notes.Select((note, i) => One(set, width, note, i + 1))];

    private static Flow One(Typesetter set, double width, NumberedNote note, int number)
    {
        var lines = set.Wrap([new Run(note.Text, Faces.Body)], width - Indent - Aside);
        var height = Before + HeadLeading + (lines.Count * Leading) + After;
        return new Flow([new Slice(height, (pen, y) =>
        {
            pen.Artifact(() =>
            {
                pen.Rule(Ink.RuleStrong, 0.5, 0, width, y);
                pen.Text(number.ToString(System.Globalization.CultureInfo.InvariantCulture) + " ", Faces.H2, 0, y + Before + 14);
            });
            pen.Tagged(PdfBlockLevelElementTag.Heading3, () => pen.Text(note.Heading + " ", Faces.H3, Indent, y + Before + 11));
            pen.Tagged(PdfBlockLevelElementTag.Paragraph, () =>
            {
                pen.Text(note.Likely + " ", Faces.Label, width - set.Width(note.Likely, Faces.Label), y + Before + 11);
                Prose.Draw(pen, lines, Indent, y + Before + HeadLeading, Leading, Faces.Body.Size);
            });
        })]);
    }
}
