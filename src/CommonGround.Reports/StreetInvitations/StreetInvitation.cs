using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Drawn = (PdfSharp.Drawing.XForm Form, CommonGround.Drawings.Pens.Bounds Box);
using LikenessPicture = CommonGround.Drawings.Pens.Picture;

namespace CommonGround.Reports.StreetInvitations;

/// <summary>An invitation to a street, made of its own late season as everybody may see it. It names no yard and no household.</summary>
public sealed record StreetInvitation
{
    /// <summary>Plants drawn on it at most.</summary>
    public const int MostPlants = 4;
    private const double CodeWidth = 88;

    public required string Neighbourhood { get; init; }
    public bool Demo { get; init; }
    public required string Street { get; init; }
    public required DateOnly AsOf { get; init; }

    /// <summary>One sentence: where the street runs out of flowers, or that it does not.</summary>
    public required string Headline { get; init; }

    /// <summary>What would help, and that a small piece of lawn does.</summary>
    public required string Lead { get; init; }

    /// <summary>The street over the year and the map; null where fewer than three yards take part.</summary>
    public Chart? Year { get; init; }
    public Chart? Map { get; init; }

    /// <summary>Plants that would close the gap: name, when they flower, drawing.</summary>
    public IReadOnlyList<(string Name, string Window, LikenessPicture Likeness)> Plants { get; init; } = [];

    /// <summary>Whom to ask, as typed; empty leaves a line to write on.</summary>
    public string Ask { get; init; } = "";

    /// <summary>The street's public page, for the code.</summary>
    public required string Address { get; init; }

    /// <summary>Writes the invitation, one page.</summary>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    /// <remarks>Safe to call from several threads at once.</remarks>
    public void Write(PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        var width = sheet.TextWidth;
        List<Flow> flows =
        [
            Prose.Lines(set, width, [new Run(Headline, Faces.H1.At(32))], 35, PdfBlockLevelElementTag.Heading1, keepAll: true,
                balance: true) with { SpaceBefore = 4 },
            Prose.Lead(set, width, Lead),
        ];
        if (Year is { } year)
        {
            flows.Add(Heading(set, width, $"{Street}: native kinds in flower, half-month by half-month"));
            flows.Add(Picture.Of(year, width) with { SpaceBefore = 2 });
        }

        if (Map is { } map)
        {
            var share = Math.Min(1, 168 * map.Width / map.Height / width);
            flows.Add(Heading(set, width, "Late in the season, block by block; your street is marked"));
            flows.Add(Picture.Of(map, width * share) with { SpaceBefore = 2 });
            flows.Add(Prose.Small(set, width, "The figure is how many of the half-months from then to the end of the season have three "
                + "native kinds in flower. Dotted blocks are not shown: fewer than three yards take part there."));
        }

        if (Plants.Count > 0)
        {
            flows.Add(Prose.H2(set, width, "These would help, and grow here"));
            flows.Add(Row(set, width));
        }

        var words = width - CodeWidth - Columns.Gap;
        flows.Add(Columns.Lay(
            [
                Prose.H2(set, words, "Would you?"),
                Prose.Body(set, words, Ask.Length > 0 ? $"Ask {Ask}" : "Ask ________________________________________"),
                Prose.Small(set, words, $"More on {Street}: {Address}. Taking part costs nothing, and you decide what others see of your "
                    + "yard. Check each plant’s cautions, and your town’s rules on plant height; before you dig, have buried lines "
                    + "marked."),
            ], words, [Picture.Of(QrChart.Draw(Address, $"the page of {Street}"), CodeWidth)]) with
        { SpaceBefore = 16 });
        TaggedDocument.Write(to, sheet, new Masthead($"Invitation to {Street} · {Wording.Date(AsOf)}", Neighbourhood,
            Demo ? "Invented demo data: no such street exists." : "Counts only yards whose households let them be counted."), set, flows);
    }

    /// <summary>Of the second level, as the text below it begins there; set small over its picture.</summary>
    private static Flow Heading(Typesetter set, double width, string text) =>
        Prose.Lines(set, width, [new Run(text, Faces.H3)], 16, PdfBlockLevelElementTag.Heading2, keepAll: true) with { SpaceBefore = 14 };

    private Flow Row(Typesetter set, double width)
    {
        var column = width / MostPlants;
        var side = Math.Min(column - 20, 84);
        var forms = new List<Dictionary<(string, int), Drawn?>>();
        var names = Plants.Take(MostPlants).Select(p => set.Wrap([new Run(Wording.Capital(p.Name), Faces.DataStrong),
            new Run(" " + p.Window, Faces.Data)], column - 12)).ToList();
        return new Flow([new Slice(side + 4 + (names.Max(n => n.Count) * 12), (pen, y) =>
        {
            foreach (var (i, lines) in names.Index())
            {
                PdfPicturePen.Draw(pen, forms[i], Plants[i].Likeness, new XRect(pen.Left + (i * column), y, side, side));
                pen.Tagged(PdfBlockLevelElementTag.Paragraph, () => Prose.Draw(pen, lines, i * column, y + side + 2, 12, 9));
            }
        })])
        {
            SpaceBefore = 4,
            Prepare = document => forms.AddRange(Plants.Take(MostPlants).Select(p => PdfPicturePen.Forms(document, p.Likeness))),
        };
    }
}
