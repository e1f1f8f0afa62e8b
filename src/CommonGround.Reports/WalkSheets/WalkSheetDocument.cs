using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.WalkSheets;

/// <summary>Writes a walk sheet as a tagged PDF: one row a planting with boxes for what is seen, empty rows, and the marks of what is
/// doubtful.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class WalkSheetDocument
{
    private const double CodeWidth = 78;

    /// <summary>Writes the PDF.</summary>
    /// <param name="walk">What to say.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(WalkSheet walk, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(walk);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        TaggedDocument.Write(to, sheet, MastheadOf(walk), set, Flows(walk, set, sheet.TextWidth));
    }

    internal static IReadOnlyList<Flow> Flows(WalkSheet walk, Typesetter set, double width)
    {
        var rows = walk.Beds.SelectMany(b => b.Rows).ToList();
        var flows = new List<Flow> { Head(walk, set, width, rows.Count) };
        var number = 0;
        foreach (var bed in walk.Beds)
        {
            var from = number;
            number += bed.Rows.Count + WalkSheet.BlankRows;
            flows.Add(new Table(ColumnsOf(walk.Units),
                [new Row([new Cell([new Run(Wording.Capital(bed.Name), Faces.DataStrong),
                    new Run($"  {Wording.Count(bed.Rows.Count, "planting", "plantings")}", Faces.Data.In(Ink.Second))])]),
                .. bed.Rows.Select((r, i) => Line(from + i + 1, r, walk)),
                    .. Enumerable.Range(1, WalkSheet.BlankRows).Select(i => Blank(from + bed.Rows.Count + i))],
                        TableSpacing.Close).Lay(set, width));
        }

        var doubtful = rows.Where(r => r.IsDoubtful).DistinctBy(r => r.Taxon.ScientificName).ToList();
        if (doubtful.Count > 0)
        {
            flows.Add(Prose.H2(set, width, $"Look twice at {Wording.Count(doubtful.Count, "plant", "plants")}"));
            flows.Add(Prose.FineList(set, width, [.. doubtful.Select(Marks)]));
            flows.Add(Prose.Small(set, width,
                "Marks of a usual grown plant. Nobody should name a plant by one mark, and nothing here says that a plant is safe to "
                    + "touch or eat. Leave a name tentative rather than guess."));
        }

        return flows;
    }

    private static Flow Head(WalkSheet walk, Typesetter set, double width, int plantings)
    {
        var left = walk.EntryAddress.Length > 0 ? width - CodeWidth - Columns.Gap : width;
        IReadOnlyList<Flow> words =
        [
            Prose.H1(set, left, $"Walk sheet, yard {walk.YardCode}"),
            Prose.Body(set, left, "Day ____________   Walker ______________________   From ________ to ________"),
            Prose.Small(set,
                left, $"{Wording.Capital(Wording.Count(plantings, "planting", "plantings"))} as last known on {Wording.Date(walk.AsOf)}, "
                    + $"in the order of the page where the sheet is typed in. Leave a row empty where you did not look."),
            Prose.Small(set, left,
                "Here: 1 growing, 0 looked and not found, 2 dead, 3 taken out. Stage: 1–4 leaves, 5 in bud, 6 in flower, 7 fruit forming, "
                    + "8 ripe seed, 9 dying back."),
            Prose.Small(set,
                left, $"Cover in {Wording.AreaUnit(walk.Units)}, only where it changed. Sure: 1 certain, 2 probable, 3 tentative, only "
                    + $"where it changed. Empty rows: write the plant’s name in full."),
        ];
        if (walk.EntryAddress.Length == 0)
        {
            return Columns.Lay(words, left, []);
        }

        return Columns.Lay(words, left,
            [Picture.Of(QrChart.Draw(walk.EntryAddress, $"the page where the walk sheet of yard {walk.YardCode} is typed in"), CodeWidth),
                Prose.Small(set, CodeWidth, "Type it in here")]);
    }

    private static IReadOnlyList<Column> ColumnsOf(Units units) =>
    [
        new("", 5, Right: true), new("Plant", 36), new("As last known", 25), new("Here", 6.5), new("Stage", 7),
            new($"Cover, {Wording.AreaUnit(units)}", 10), new("Sure", 6.5), new("Remark", 17),
    ];

    private static Row Line(int number, WalkRow row, WalkSheet walk) => new([
        Number(number),
        new Cell([.. Plantings.Name(row.Taxon, row.Qualifier, sayIntroduced: false), .. row.Patch.Length > 0
            ? [new Run(", " + row.Patch, Faces.Data)] : Array.Empty<Run>()]),
        Cell.Of($"{Wording.AreaFigure(row.CoverSquareMetres, walk.Units)} "
            + $"{Wording.AreaUnit(walk.Units)}{(row.LastStage.Length > 0 ? ", " + row.LastStage : "")}, "
            + $"{row.LastSeen.ToString("MMM yyyy", CultureInfo.InvariantCulture)}{(row.IsDoubtful ? ", " + Wording.Of(row.Certainty) : "")}", row.IsDoubtful ? Faces.DataStrong : Faces.Data),
        .. Boxes()]);

    private static Row Blank(int number) => new([Number(number), new Cell([new Run(" ", Faces.Data)], Ruled(200)), new Cell([]),
        .. Boxes()]);

    private static Cell Number(int number) => Cell.Of(number.ToString(CultureInfo.InvariantCulture), Faces.Data.In(Ink.Second));

    private static IEnumerable<Cell> Boxes() => [new Cell([], Box(36)), new Cell([], Box(36)), new Cell([], Box(72)),
        new Cell([], Box(36)), new Cell([])];

    private static Chart Box(double width) => new(width, 26, "to fill in", [new RectMark("before", 1, 2, width - 2, 23)]);

    private static Chart Ruled(double width) => new(width, 30, "to fill in", [new LineMark("g-tick", 0, 28, width, 28)]);

    private static List<Run> Marks(WalkRow row)
    {
        var runs = new List<Run> { new($"{Wording.Capital(row.Taxon.DisplayName)} ", Faces.Foot with { Family = Faces.SansSemi }),
            new($"({Wording.Latin(row.Taxon.ScientificName, row.Qualifier)}, {Wording.Of(row.Certainty)}): ", Faces.Foot) };
        runs.Add(new Run(row.Marks.Count > 0 ? string.Join(" ", row.Marks) : "nobody has described its marks here yet.",
            Faces.Foot.In(Ink.Black)));
        if (row.Taxon.Caution.Length > 0)
        {
            runs.Add(new Run(" " + row.Taxon.Caution, Faces.Foot with { Family = Faces.SansSemi }));
        }

        return runs;
    }

    private static Masthead MastheadOf(WalkSheet walk) => new(
        $"Walk sheet · yard {walk.YardCode} · {Wording.Date(walk.AsOf)}", walk.Neighbourhood,
        walk.Demo ? "Invented demo data: no such yard exists."
            : $"Made for a walk through yard {walk.YardCode}. Do not leave it lying about.");
}
