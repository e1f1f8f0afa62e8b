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
    private const double CodeWidth = 80, MapWidth = 208;

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
        var forms = new List<Dictionary<(string, int), Drawn?>>();
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        var width = sheet.TextWidth;
        List<Flow> flows =
        [
            Prose.Lines(set, width, [new Run(Headline, Faces.H1.At(30))], 33, PdfBlockLevelElementTag.Heading1, keepAll: true,
                balance: true) with { SpaceBefore = 4 },
            Prose.Lead(set, width, Lead),
        ];
        if (Year is { } year)
        {
            flows.Add(Heading(set, width, $"{Street}: native kinds in flower, half-month by half-month"));
            flows.Add(Picture.Of(year, width) with { SpaceBefore = 2 });
        }

        var right = width - MapWidth - Columns.Gap;
        IReadOnlyList<Flow> helps = Plants.Count == 0 ? []
            : [Heading(set, right, "These would help"), .. Plants.Take(MostPlants).Select((_, i) => Plant(i, set, right, forms))];
        IReadOnlyList<Flow> place = Map is not { } map ? []
            : [Heading(set, MapWidth, "Late in the season; your street is marked"), Picture.Of(map, MapWidth) with { SpaceBefore = 2 },
                Prose.Small(set, MapWidth, "How many late half-months have three native kinds in flower. Striped blocks are not shown: "
                    + "fewer than three yards take part there.")];
        if (place.Count + helps.Count > 0)
        {
            flows.Add((place.Count > 0 ? Columns.Lay(place, MapWidth, helps) : Columns.Lay(helps, MapWidth, [])) with
            {
                SpaceBefore = 14,
                Prepare = document => forms.AddRange(Plants.Take(MostPlants).Select(p => PdfPicturePen.Forms(document, p.Likeness))),
            });
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
        { SpaceBefore = 8 });
        TaggedDocument.Write(to, sheet, new Masthead($"Invitation to {Street} · {Wording.Date(AsOf)}", Neighbourhood,
            Demo ? "Invented demo data: no such street exists." : "Counts only yards whose households let them be counted."), set, flows);
    }

    /// <summary>Of the second level, as the text below it begins there; set small over its picture.</summary>
    private static Flow Heading(Typesetter set, double width, string text) =>
        Prose.Lines(set, width, [new Run(text, Faces.H3)], 16, PdfBlockLevelElementTag.Heading2, keepAll: true) with { SpaceBefore = 14 };

    private Flow Plant(int i, Typesetter set, double width, List<Dictionary<(string, int), Drawn?>> forms)
    {
        const double Side = 54, Gap = 10;
        var lines = set.Wrap([new Run(Wording.Capital(Plants[i].Name), Faces.DataStrong.At(11)),
            new Run(" " + Wording.Unbroken(Plants[i].Window), Faces.Data)], width - Side - Gap);
        return new Flow([new Slice(Side, (pen, y) =>
        {
            PdfPicturePen.Draw(pen, forms[i], Plants[i].Likeness, new XRect(pen.Left, y, Side, Side));
            var top = y + ((Side - (lines.Count * 13)) / 2);
            pen.Tagged(PdfBlockLevelElementTag.Paragraph, () => Prose.Draw(pen, lines, Side + Gap, top, 13, 10));
        })])
        { SpaceBefore = 6 };
    }
}
