using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Drawn = (PdfSharp.Drawing.XForm Form, CommonGround.Drawings.Pens.Bounds Box);

namespace CommonGround.Reports.Tours;

/// <summary>A stop as it is set, in the leaflet and on the steward's sheet.</summary>
internal static class TourFlows
{
    private const double Likeness = 40, Gap = 8, Leading = 11.5;

    public static IReadOnlyList<Flow> Stop(TourStop stop, Typesetter set, double width)
    {
        var flows = new List<Flow>
        {
            Prose.Lines(set, width, [new Run($"{stop.Number}  ", Faces.H2.At(15)), new Run(stop.Block, Faces.H2.At(15))], 19,
                PdfBlockLevelElementTag.Heading2, keepAll: true) with { SpaceBefore = 16 },
        };
        if (stop.Directions.Length > 0)
        {
            flows.Add(Kept(Prose.Lines(set, width, [new Run(stop.Directions, Faces.DataStrong)], 12.5, PdfBlockLevelElementTag.Paragraph)));
        }

        if (stop.Line.Length > 0)
        {
            flows.Add(Kept(Prose.Lines(set, width, [new Run(stop.Line, Faces.Lead.At(11))], 14.5, PdfBlockLevelElementTag.Paragraph) with
            { SpaceBefore = 3 }));
        }

        if (stop.Plants.Count == 0)
        {
            flows.Add(Prose.Small(set, width, "Nothing on record flowers, fruits or is worth a touch on this day."));
        }

        flows.AddRange(stop.Plants.Select(p => Plant(p, set, width)));
        if (stop.LeaveAlone.Count > 0)
        {
            flows.Add(Prose.Lines(set, width, [new Run("Leave alone here: ", Faces.DataStrong),
                new Run(string.Join("; ", stop.LeaveAlone) + ".", Faces.Data)], 12, PdfBlockLevelElementTag.Paragraph) with
            { SpaceBefore = 6 });
        }

        return flows;
    }

    /// <summary>The drawing at the left, what to say at its right.</summary>
    private static Flow Plant(TourPlant plant, Typesetter set, double width)
    {
        List<Run> runs =
        [
            new(Wording.Capital(plant.Name), Faces.DataStrong), new(" ", Faces.Data), new(plant.Latin, Faces.Latin),
            new($" {plant.State}. {plant.Mark}", Faces.Data),
        ];
        if (plant.Touch.Length > 0)
        {
            runs.AddRange([new(" Touch: ", Faces.DataStrong), new(plant.Touch, Faces.Data)]);
        }

        if (plant.Visitors.Length > 0)
        {
            runs.Add(new($" Visited by {plant.Visitors}.", Faces.Data.In(Ink.Second)));
        }

        if (plant.Caution.Length > 0)
        {
            runs.AddRange([new(" Take care: ", Faces.DataStrong), new(plant.Caution, Faces.DataStrong)]);
        }

        var lines = set.Wrap(runs, width - Likeness - Gap);
        Dictionary<(string, int), Drawn?>? forms = null;
        return new Flow([new Slice(Math.Max(Likeness, (lines.Count * Leading) + 2), (pen, y) =>
        {
            PdfPicturePen.Draw(pen, forms!, plant.Likeness, new XRect(pen.Left, y, Likeness, Likeness));
            pen.Tagged(PdfBlockLevelElementTag.Paragraph, () => Prose.Draw(pen, lines, Likeness + Gap, y, Leading, Faces.Data.Size));
        })])
        {
            SpaceBefore = 7,
            Prepare = document => forms = PdfPicturePen.Forms(document, plant.Likeness),
        };
    }

    private static Flow Kept(Flow flow) => flow with { Slices = [.. flow.Slices.Select(s => s with { KeepWithNext = true })] };
}
