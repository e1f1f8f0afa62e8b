using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using Drawn = (PdfSharp.Drawing.XForm Form, CommonGround.Drawings.Pens.Bounds Box);

namespace CommonGround.Reports.Tours;

/// <summary>Writes a tour as a leaflet: sheets on their side, printed on both sides and folded once; the first has the front and the rules
/// outside and stops inside, further ones are laid in.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class TourLeaflet
{
    private const double Margin = 30, Code = 92, Foot = 18;

    /// <summary>Writes the PDF.</summary>
    /// <param name="tour">What to say; what is the steward's alone is not printed.</param>
    /// <param name="paper">Letter or A4, before it is folded.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(TourSheet tour, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(tour);
        ArgumentNullException.ThrowIfNull(to);
        var upright = Sheet.Of(paper);
        var sheet = new Sheet(upright.Height, upright.Width);
        var (panel, height) = (sheet.Width / 2, sheet.Height - (2 * Margin) - Foot);
        var width = panel - (2 * Margin);
        var title = TourWords.Title(tour);
        using var set = new Typesetter();
        using var pdf = new PdfDocument();
        (pdf.Info.Title, pdf.Info.Author) = (title, "CommonGround, " + tour.Neighbourhood);
        var drawn = new List<Dictionary<(string, int), Drawn?>>();
        IReadOnlyList<Flow> front = Front(tour, set, width, drawn), back = Back(tour, set, width);
        List<Flow> stops = [.. tour.Stops.SelectMany(s => TourFlows.Stop(s, set, width))];
        stops.Concat(front).ToList().ForEach(f => f.Prepare?.Invoke(pdf));
        var placed = Pagination.Place(stops, height);
        var panels = Pagination.Pages(placed);
        var accessibility = UAManager.ForDocument(pdf);
        accessibility.SetDocumentLanguage("en");
        void Page(Action<Pen> draw)
        {
            var page = pdf.AddPage();
            (page.Width, page.Height) = (XUnit.FromPoint(sheet.Width), XUnit.FromPoint(sheet.Height));
            page.Elements.SetName("/Tabs", "/S");
            using var pen = new Pen(XGraphics.FromPdfPage(page), accessibility.StructureBuilder, set, sheet);
            draw(pen);
            pen.Artifact(() =>
            {
                var fold = new XPen(Ink.Rule, 0.5) { DashStyle = XDashStyle.Dot };
                pen.Graphics.DrawLine(fold, panel, 0, panel, 14);
                pen.Graphics.DrawLine(fold, panel, sheet.Height - 14, panel, sheet.Height);
                var foot = tour.Demo ? "Invented demo data: no such tour takes place." : tour.Neighbourhood;
                pen.Text(foot + " ", Faces.Foot, Margin - sheet.Left, sheet.Height - Margin + 4);
                pen.Text(foot + " ", Faces.Foot, panel + Margin - sheet.Left, sheet.Height - Margin + 4);
            });
        }

        Page(pen =>
        {
            Pour(pen.At(panel + Margin - sheet.Left), Pagination.Place(front, height), 0);
            Pour(pen.At(Margin - sheet.Left), Pagination.Place(back, height), 0);
        });
        for (var first = 0; first < panels; first += 2)
        {
            var left = first;
            Page(pen =>
            {
                Pour(pen.At(Margin - sheet.Left), placed, left);
                Pour(pen.At(panel + Margin - sheet.Left), placed, left + 1);
            });
        }

        PdfPicturePen.Press(pdf);
        using var buffer = new MemoryStream();
        pdf.Save(buffer, closeStream: false);
        to.Write(UaMark.Append(buffer.ToArray(), title));
    }

    private static void Pour(Pen pen, IReadOnlyList<Placed> placed, int panel)
    {
        Flow? open = null;
        foreach (var strip in placed.Where(p => p.Page == panel).Append(null))
        {
            if (!ReferenceEquals(open, strip?.Flow))
            {
                if (open?.Open is not null)
                {
                    pen.Close();
                }

                open = strip?.Flow;
                open?.Open?.Invoke(pen);
            }

            strip?.Slice.Draw(pen, Margin + strip.Y);
        }
    }

    private static List<Flow> Front(TourSheet tour, Typesetter set, double width, List<Dictionary<(string, int), Drawn?>> drawn)
    {
        List<Flow> flows =
        [
            Prose.Lines(set, width, [new Run(tour.Neighbourhood, Faces.MarkPlace)], 20, PdfBlockLevelElementTag.Paragraph),
            Prose.Lines(set, width, [new Run($"A walk through {Wording.Count(tour.Stops.Count, "yard", "yards")} of {tour.Place}",
                Faces.H1.At(34))], 37, PdfBlockLevelElementTag.Heading1, keepAll: true, balance: true) with { SpaceBefore = 60 },
            Prose.Lead(set, width, Wording.Date(tour.On)) with { SpaceBefore = 14 },
        ];
        if (tour.Meet.Length > 0)
        {
            flows.Add(Prose.Lines(set, width, [new Run(tour.Meet, Faces.Lead.At(13))], 18, PdfBlockLevelElementTag.Paragraph) with
            { SpaceBefore = 8 });
        }

        var left = width - Code - Columns.Gap;
        flows.Add(Columns.Lay([Prose.Body(set, left, "The same on your phone, with what to look for at each stop. It opens until the day "
            + "after the walk."), Prose.Small(set, left, tour.Address)], left,
            [Picture.Of(QrChart.Draw(tour.Address, $"the page of the tour of {tour.Place}"), Code)]) with
        { SpaceBefore = 46 });
        flows.Add(Shown(tour, width, drawn));
        return flows;
    }

    /// <summary>What guests will see, side by side at the foot of the front.</summary>
    private static Flow Shown(TourSheet tour, double width, List<Dictionary<(string, int), Drawn?>> drawn)
    {
        const double Side = 104;
        List<TourPlant> plants = [.. tour.Stops.SelectMany(s => s.Plants).DistinctBy(p => p.Latin).Take((int)(width / Side))];
        return new Flow([new Slice(Side, (pen, y) =>
        {
            for (var i = 0; i < plants.Count; i++)
            {
                PdfPicturePen.Draw(pen, drawn[i], plants[i].Likeness, new XRect(pen.Left + (i * (Side + 8)), y, Side, Side));
            }
        })])
        { SpaceBefore = 40, Prepare = document => drawn.AddRange(plants.Select(p => PdfPicturePen.Forms(document, p.Likeness))) };
    }

    private static List<Flow> Back(TourSheet tour, Typesetter set, double width) =>
    [
        Prose.Lines(set, width, [new Run("As a guest", Faces.H2)], 21, PdfBlockLevelElementTag.Heading2, keepAll: true),
        Prose.List(set, width, [.. TourWords.Rules.Select(r => (IReadOnlyList<Run>)[new Run(r, Faces.Small.In(Ink.Black))])]),
        Prose.H2(set, width, "What you see"),
        Prose.Small(set, width, TourWords.Dates),
        Prose.Small(set, width, "Stops are in walking order. Only yards whose households let guests in are named, and an address stands "
            + "here only where the household gave it."),
        Prose.H2(set, width, "Your own notes"),
        .. Enumerable.Range(0, 5).Select(_ => new Flow([new Slice(24, (pen, y) => pen.Artifact(() =>
            pen.Rule(Ink.Rule, 0.6, 0, width, y + 23)))])),
    ];
}
