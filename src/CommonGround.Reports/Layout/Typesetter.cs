using System.Runtime.InteropServices;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>A stretch of one face on a line, from <paramref name="X"/> points after the line's start.</summary>
internal sealed record Piece(string Text, Face Face, double X);

/// <summary>One line of set words.</summary>
/// <param name="Width">Points, without the space that ends a wrapped line.</param>
internal sealed record TextLine(IReadOnlyList<Piece> Pieces, double Width);

/// <summary>Measures and breaks words. One per document: PDFsharp's fonts are kept here, not shared between threads.</summary>
internal sealed class Typesetter : IDisposable
{
    private readonly XGraphics _ruler;
    private readonly Dictionary<(string Family, XFontStyleEx Cut, double Size), XFont> _fonts = [];
    private readonly Dictionary<(string Text, string Family, XFontStyleEx Cut, double Size), double> _widths = [];

    public Typesetter()
    {
        ReportFonts.EnsureRegistered();
        _ruler = XGraphics.CreateMeasureContext(new XSize(1000, 1000), XGraphicsUnit.Point, XPageDirection.Downwards);
    }

    public XFont Font(Face face)
    {
        var key = (face.Family, face.Cut, face.Size);
        if (!_fonts.TryGetValue(key, out var font))
        {
            _fonts[key] = font = new XFont(face.Family, face.Size, face.Cut);
        }

        return font;
    }

    public double Width(string text, Face face)
    {
        if (text.Length == 0)
        {
            return 0;
        }

        // Most words come again: in the next row, and when the pages are tried at another spacing.
        ref var width = ref CollectionsMarshal.GetValueRefOrAddDefault(_widths, (text, face.Family, face.Cut, face.Size), out var known);
        if (!known)
        {
            width = _ruler.MeasureString(text, Font(face)).Width;
        }

        return width;
    }

    /// <summary>Breaks runs at spaces. Every line but the last ends with a space, so that words read back from the file never
    /// join.</summary>
    public IReadOnlyList<TextLine> Wrap(IReadOnlyList<Run> runs, double width)
    {
        var lines = new List<TextLine>();
        var line = new List<Piece>();
        double x = 0;
        foreach (var atom in Atoms(runs).SelectMany(a => Fit(a, width)))
        {
            var wide = atom.Parts.Sum(p => Width(p.Text, p.Face));
            var gap = line.Count == 0 || atom.Glued ? 0 : Width(" ", line[^1].Face);
            if (line.Count > 0 && x + gap + wide > width + 0.01)
            {
                lines.Add(Ended(line, x, atom.Glued));
                line = [];
                (x, gap) = (0, 0);
            }

            if (gap > 0)
            {
                line[^1] = line[^1] with { Text = line[^1].Text + " " };
                x += gap;
            }

            foreach (var part in atom.Parts)
            {
                Append(line, part, x);
                x += Width(part.Text, part.Face);
            }
        }

        lines.Add(new TextLine(line, x));
        return lines;
    }

    public void Dispose() => _ruler.Dispose();

    private static TextLine Ended(List<Piece> line, double width, bool insideWord)
    {
        if (!insideWord)
        {
            line[^1] = line[^1] with { Text = line[^1].Text + " " };
        }

        return new TextLine(line, width);
    }

    private static void Append(List<Piece> line, Run part, double x)
    {
        if (line.Count > 0 && line[^1].Face == part.Face)
        {
            line[^1] = line[^1] with { Text = line[^1].Text + part.Text };
        }
        else
        {
            line.Add(new Piece(part.Text, part.Face, x));
        }
    }

    /// <summary>Words without a break inside: parts of several faces where no space parts them.</summary>
    private static IEnumerable<Atom> Atoms(IReadOnlyList<Run> runs)
    {
        var parts = new List<Run>();
        foreach (var run in runs)
        {
            string[] words = run.Unbroken ? [run.Text] : run.Text.Split(' ');
            for (var i = 0; i < words.Length; i++)
            {
                if (i > 0 && parts.Count > 0)
                {
                    yield return new Atom([.. parts], Glued: false);
                    parts.Clear();
                }

                if (words[i].Length > 0)
                {
                    parts.Add(run with { Text = words[i] });
                }
            }
        }

        if (parts.Count > 0)
        {
            yield return new Atom([.. parts], Glued: false);
        }
    }

    /// <summary>A word wider than its column is cut where it must be; nothing is ever drawn outside its box.</summary>
    private List<Atom> Fit(Atom atom, double width)
    {
        if (atom.Parts.Sum(p => Width(p.Text, p.Face)) <= width)
        {
            return [atom];
        }

        if (atom.Parts.Any(p => p.Text.Contains(' ', StringComparison.Ordinal)))
        {
            return [.. Atoms([.. atom.Parts.Select(p => p with { Unbroken = false })]).SelectMany(a => Fit(a, width))];
        }

        var cut = new List<Atom>();
        foreach (var part in atom.Parts)
        {
            var from = 0;
            while (from < part.Text.Length)
            {
                var length = 1;
                while (from + length < part.Text.Length && Width(part.Text.Substring(from, length + 1), part.Face) <= width)
                {
                    length++;
                }

                cut.Add(new Atom([part with { Text = part.Text.Substring(from, length) }], Glued: cut.Count > 0));
                from += length;
            }
        }

        return cut;
    }

    private sealed record Atom(IReadOnlyList<Run> Parts, bool Glued);
}
