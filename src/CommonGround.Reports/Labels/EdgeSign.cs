using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;
using LikenessPicture = CommonGround.Drawings.Pens.Picture;

namespace CommonGround.Reports.Labels;

/// <summary>A sign for the mown edge of a planting: what this is, and whom to ask. It names no yard and no household.</summary>
/// <param name="Neighbourhood">Name of the group.</param>
/// <param name="Ask">Whom to ask, as the household or the group wrote it; empty leaves a line to write on.</param>
/// <param name="Likenesses">Some of its plants, at most five.</param>
/// <param name="Names">Their common names, in the same order.</param>
/// <param name="Address">A public page, for the code.</param>
public sealed record EdgeSign(string Neighbourhood, string Ask, IReadOnlyList<LikenessPicture> Likenesses, IReadOnlyList<string> Names,
    string Address)
{
    private const double CodeWidth = 96;

    /// <summary>The group is an invented one.</summary>
    public bool Demo { get; init; }

    /// <summary>Writes the sign, one page.</summary>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public void Write(PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        var width = sheet.TextWidth;
        var left = width - CodeWidth - Columns.Gap;
        List<Flow> flows =
        [
            Prose.Lines(set, width, [new Run("This bed is planted on purpose", Faces.H1.At(46))], 50,
                PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag.Heading1, keepAll: true, balance: true) with { SpaceBefore = 18 },
            Row(width),
            Big(set, width, "Plants native to this place grow here. They feed bees, butterflies and birds, take up rain, and stand "
                + "through winter because animals live in their stems and seeds."),
            Big(set, width, "The edge is kept mown so that the way stays free and seen."),
            Big(set, width, "Please do not mow, spray, pick or eat anything. Some plants are poisonous or make the skin itch."),
            Columns.Lay([Prose.H2(set, left, "Whom to ask"),
                Big(set, left, Ask.Length > 0 ? Ask : "______________________________"),
                Prose.Body(set, left, $"More on what grows in {Neighbourhood}: {Address}")], left,
                [Picture.Of(QrChart.Draw(Address, $"what grows in {Neighbourhood}"), CodeWidth)]) with { SpaceBefore = 26 },
        ];
        TaggedDocument.Write(to, sheet, new Masthead("Sign for the mown edge", Neighbourhood,
            (Demo ? "Invented demo data. " : "") + "Check your town’s rules on plant height and signs."), set, flows);
    }

    private static Flow Big(Typesetter set, double width, string text) =>
        Prose.Lines(set, width, [new Run(text, Faces.Lead.At(21))], 28, PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag.Paragraph)
        with
        { SpaceBefore = 14 };

    /// <summary>The plants side by side, their names below.</summary>
    private Flow Row(double width)
    {
        var side = Math.Min(width / Math.Max(1, Likenesses.Count), 130);
        var forms = new List<Dictionary<(string, int), (XForm Form, CommonGround.Drawings.Pens.Bounds Box)?>>();
        return new Flow([new Slice(side + 22, (pen, y) =>
        {
            for (var i = 0; i < Likenesses.Count; i++)
            {
                var x = i * width / Likenesses.Count;
                PdfPicturePen.Draw(pen, forms[i], Likenesses[i], new XRect(pen.Left + x, y, side, side));
                var name = YardReports.Wording.Capital(Names[i]);
                pen.Tagged(PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag.Paragraph,
                    () => pen.Text(name + " ", Faces.Data, x, y + side + 13));
            }
        })])
        {
            SpaceBefore = 16,
            Prepare = document => forms.AddRange(Likenesses.Select(l => PdfPicturePen.Forms(document, l))),
        };
    }
}
