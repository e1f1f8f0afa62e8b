using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.CrewSheets;

/// <summary>Writes a crew sheet as a tagged PDF: the map, how to know each plant and what it is taken for, one row a stop with boxes,
/// what to
/// bring, who came.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class CrewSheetDocument
{
    private const int MostNames = 20, BothSides = 2;

    /// <summary>Width of a point of the map, pt, names in a row, and space over a heading where it is closer: the widest spacing with which
    /// a crew's sheet fits on both sides of one leaf.</summary>
    private static readonly (double Map, int Names, double? Over)[] s_spacings = [(0.75, 2, null), (0.62, 3, 10), (0.62, 4, 5)];

    /// <summary>Writes the PDF.</summary>
    /// <param name="crew">What to say.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(CrewSheet crew, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(crew);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        var made = s_spacings.Select(s => Flows(crew, set, sheet.TextWidth, s));
        var fits = made.FirstOrDefault(f => Pagination.Pages(Pagination.Place(f, sheet.TextHeight)) <= BothSides);
        TaggedDocument.Write(to, sheet, MastheadOf(crew), set, fits ?? made.First());
    }

    private static List<Flow> Flows(CrewSheet crew, Typesetter set, double width, (double Map, int Names, double? Over) spacing)
    {
        var (mapScale, namesInARow, over) = spacing;
        Flow Heading(string words)
        {
            var flow = Prose.H2(set, width, words);
            return over is { } space ? flow with { SpaceBefore = space } : flow;
        }

        var flows = new List<Flow>
        {
            Prose.H1(set, width, $"{crew.On.ToString("dddd", CultureInfo.InvariantCulture)}, {DayWords.Date(crew.On)}"),
            Prose.Body(set, width, $"{Wording.Capital(Wording.Count(crew.People, "person", "people"))}, "
                + $"{crew.Hours.ToString("0.#", CultureInfo.InvariantCulture)} {(crew.Hours == 1 ? "hour" : "hours")}, "
                + $"{Wording.Count(crew.Stops.Count, "stop", "stops")}, a "
                + $"walk of {crew.Walk}. From ________ to ________"),
        };
        if (crew.Map is { } map)
        {
            flows.Add(Picture.Of(map, Math.Min(width, map.Width * mapScale)));
        }

        flows.Add(new Table([new("", 4), new("", 4, Right: true), new("Place", 24), new("What to do", 31), new("Hours", 7, Right: true),
            new($"{crew.AreaUnit} done", 11), new("Left over", 11), new("Hours taken", 11)],
            [.. crew.Stops.Select((s, i) => Line(i + 1, s))], TableSpacing.Close).Lay(set, width));
        flows.Add(Prose.Small(set, width, $"{crew.Consent} No yes, no work: go on to the next place."));
        foreach (var plant in crew.Plants)
        {
            flows.Add(Heading($"Is it {plant.Name}?"));
            flows.Add(Prose.FineList(set, width, [.. About(plant)]));
        }

        flows.Add(Heading("For everybody"));
        flows.Add(Prose.FineList(set, width,
        [
            Plain("In doubt leave it, flag it and send a photo. Nothing here says that a plant is safe to touch or eat."),
            Plain("Call 811 before any digging and wait for its answer. Only a licensed applicator handles herbicide: the label "
                + "is the law."),
            Plain("Ticks, heat, wasps, traffic: stop when somebody is unwell. In an emergency call 911 or your poison centre."),
            Plain(crew.Waste),
        ]));
        flows.Add(Heading("Bring"));
        flows.Add(Prose.Body(set, width,
            "__ gloves for all   __ bags   __ loppers, saws   __ spades   __ flags   __ water   __ first aid"));
        flows.Add(Heading("Who came"));
        flows.Add(new Table([.. Enumerable.Range(0, namesInARow).SelectMany(_ => new Column[]
            { new("", 4, Right: true), new("Name", (100.0 / namesInARow) - 4) })],
            [.. Enumerable.Range(0, (Math.Min(crew.People, MostNames) + namesInARow - 1) / namesInARow)
                .Select(r => Names(r, namesInARow))], TableSpacing.Close).Lay(set, width));
        flows.Add(Prose.Small(set, width, "Afterwards write each stop down on its case’s page, with its hours, and destroy this sheet: it "
            + "names places."));
        return flows;
    }

    private static Row Line(int number, CrewStop stop) => new([
        new Cell([], Box(22)),
        Cell.Of(number.ToString(CultureInfo.InvariantCulture), Faces.DataStrong),
        new Cell([new Run(stop.Place, Faces.DataStrong), new Run(stop.Block.Length > 0 ? $"  {stop.Block}" : "", Faces.Foot)]),
        new Cell([new Run($"{stop.Method}: {stop.Plant}. ", Faces.DataStrong), new Run(stop.Amount + (stop.IsFollowUp
            ? "; follow-up that is due" : ""), Faces.Data)]),
        Cell.Of(stop.PersonHours.ToString("0.#", CultureInfo.InvariantCulture), Faces.Data),
        new Cell([], Ruled(70)), new Cell([], Ruled(70)), new Cell([], Ruled(70))]);

    private static IEnumerable<IReadOnlyList<Run>> About(CrewPlant plant)
    {
        if (plant.Marks.Length > 0)
        {
            yield return [new Run($"{Wording.Capital(plant.Name)} ", Faces.Foot with { Family = Faces.SansSemi }),
                new Run($"({plant.ScientificName}): {plant.Marks}", Faces.Foot)];
        }

        foreach (var other in plant.LookAlikes)
        {
            yield return [new Run($"Not {other.Name}: ", Faces.Foot with { Family = Faces.SansSemi }), new Run(other.Marks + ".",
                Faces.Foot)];
        }

        if (plant.LookAlikes.Count == 0)
        {
            yield return Plain("No look-alike is held here; that does not mean there is none. A second person looks first.");
        }

        foreach (var words in plant.MustNot)
        {
            yield return [new Run("Mind: ", Faces.Foot with { Family = Faces.SansSemi }), new Run(words, Faces.Foot)];
        }

        foreach (var words in plant.Care)
        {
            yield return Plain(words.EndsWith('.') ? words : words + ".");
        }
    }

    private static IReadOnlyList<Run> Plain(string words) => [new Run(words, Faces.Foot)];

    private static Row Names(int row, int inARow) => new([.. Enumerable.Range(1, inARow).SelectMany(i => new[]
        { Number((row * inARow) + i), new Cell([], Ruled(560.0 / inARow)) })]);

    private static Cell Number(int number) => Cell.Of(number.ToString(CultureInfo.InvariantCulture), Faces.Data.In(Ink.Second));

    private static Chart Box(double width) => new(width, 22, "to tick", [new RectMark("before", 1, 2, 18, 18)]);

    private static Chart Ruled(double width) => new(width, 26, "to fill in", [new LineMark("g-tick", 0, 23, width, 23)]);

    private static Masthead MastheadOf(CrewSheet crew) => new($"Crew sheet · {DayWords.Date(crew.On)}", crew.Neighbourhood,
        crew.Demo ? "Invented demo data: no such yard exists." :
            "Made for one crew and one day. It names places: do not leave it lying about.");
}
