using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tours;

/// <summary>Writes the steward's own sheet of a tour: every stop with its yard, what was doubtful last time, and what is unwanted
/// there.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class StewardSheet
{
    /// <summary>Writes the PDF.</summary>
    /// <param name="tour">With the steward's notes.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(TourSheet tour, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(tour);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        var width = sheet.TextWidth;
        List<Flow> flows =
        [
            Prose.H1(set, width, $"Steward’s sheet: {tour.Place}"),
            Prose.Body(set, width, $"{Wording.Capital(Wording.Count(tour.Stops.Count, "stop", "stops"))} on {Wording.Date(tour.On)}. "
                + (tour.Meet.Length > 0 ? tour.Meet : "No meeting place is set yet.")),
            Prose.Small(set, width, TourWords.Dates),
            .. tour.Stops.SelectMany(s => Stop(s, set, width)),
        ];
        TaggedDocument.Write(to, sheet, new Masthead($"Steward’s sheet · {Wording.Date(tour.On)}", tour.Neighbourhood,
            tour.Demo ? "Invented demo data: no such tour takes place." : "Names yards and households. Do not hand it on."), set, flows);
    }

    private static IEnumerable<Flow> Stop(TourStop stop, Typesetter set, double width)
    {
        foreach (var flow in TourFlows.Stop(stop, set, width))
        {
            yield return flow;
        }

        if (stop.Steward is not { } note)
        {
            yield break;
        }

        yield return Prose.Body(set, width, $"Yard {note.Code}{(note.Household.Length > 0 ? $", {note.Household}" : "")}; "
            + (note.LastSeen is { } day ? $"last recorded {Wording.Date(day)}." : "nothing recorded yet.")
            + (stop.Directions.Length == 0 ? " The household names no address: lead guests there, and do not write it down." : ""));
        if (note.Doubtful.Count > 0)
        {
            yield return Prose.H3(set, width, "Doubtful last time: look again");
            yield return Lines(note.Doubtful, set, width);
        }

        if (note.Unwanted.Count > 0)
        {
            yield return Prose.H3(set, width, "Unwanted on record here");
            yield return Lines(note.Unwanted, set, width);
        }
    }

    private static Flow Lines(IReadOnlyList<string> lines, Typesetter set, double width) =>
        Prose.FineList(set, width, [.. lines.Select(l => (IReadOnlyList<Run>)[new Run(l, Faces.Foot.In(Ink.Black))])]);
}
