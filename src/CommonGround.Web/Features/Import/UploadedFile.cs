using CommonGround.Interchange;
using CommonGround.Interchange.Csv;

namespace CommonGround.Web.Features.Import;

/// <summary>How it is known in which unit a column's figures are.</summary>
public enum UnitSource { Heading, Guess, Chosen }

/// <summary>One table that somebody brought, and how they want it read.</summary>
public sealed class UploadedFile
{
    /// <summary>Town lots have some 200 to 2,000 m²; above it a column without a unit is taken for square feet (common practice: a lot of
    /// a fifth of an acre has 8,700 sq ft or 810 m²).</summary>
    private const double LargestLot = 2_000, SmallestLot = 150;

    /// <summary>The bed of a file that names none.</summary>
    public const string WholeYard = "Whole yard";

    private readonly Dictionary<string, (MeasureUnit Unit, UnitSource Source)> units = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> same = new(StringComparer.Ordinal);
    private readonly string sheet;
    private DateOrders days;

    /// <param name="table">What was brought.</param>
    /// <param name="sheet">Name of the sheet where the workbook has several; else empty.</param>
    public UploadedFile(UploadedTable table, string sheet = "")
    {
        ArgumentNullException.ThrowIfNull(table);
        (Table, this.sheet) = (table, sheet);
        Choices = table.Guess();
        days = table.DaysOf(Choices.Columns);
        // A sheet of one column is notes beside the rows of the others.
        LeftOut = sheet.Length > 0 && table.HasColumns && Choices.Kind == ImportKind.Unrecognised
            && table.Header.Count(name => name.Length > 0) < 2;
        GuessRest();
    }

    public UploadedTable Table { get; private set; }
    public ReadingChoices Choices { get; private set; }

    /// <summary>Not imported: a sheet of notes beside sheets of rows.</summary>
    public bool LeftOut { get; set; }

    /// <summary>A cell that shows how the days are written, where they are not written year first.</summary>
    public string DayExample => days.Example;

    /// <summary>A day written without its year; empty where there is none.</summary>
    public string DayWithoutYear { get; private set; } = "";

    public bool MayBeMonthFirst => days.MonthFirst;
    public bool MayBeDayFirst => days.DayFirst;

    /// <summary>Columns whose figures need a unit, with the unit where it is known.</summary>
    public IReadOnlyList<(string Column, MeasureUnit? Unit, UnitSource Source)> Units => Measured() is var columns
        ? [.. columns.Select(c => units.TryGetValue(c, out var known) ? (c, known.Unit, known.Source)
            : (c, (MeasureUnit?)null, UnitSource.Guess))] : [];

    /// <summary>Needed columns that the file has not and that may be the same in every row, with what that is.</summary>
    public IReadOnlyList<(string Column, string Value)> Same => !Table.HasColumns || Choices.Kind is ImportKind.Catalogue ? []
        : [.. ColumnMatching.ColumnsOf(Choices.Kind).Where(c => c.Required && !Choices.Columns.ContainsKey(c.Column)
            && ImportWords.MayBeSame(c.Column) && !(c.Column == "yard" && Choices.MakeCodes))
            .Select(c => (c.Column, same.GetValueOrDefault(c.Column, "")))];

    /// <summary>Needed columns that nothing is matched to yet.</summary>
    public IReadOnlyList<string> Missing => Table.HasColumns && Choices.Kind != ImportKind.Catalogue
        ? [.. ColumnMatching.ColumnsOf(Choices.Kind).Where(c => c.Required && !Choices.Columns.ContainsKey(c.Column)
            && same.GetValueOrDefault(c.Column, "").Length == 0 && !(c.Column == "yard" && Choices.MakeCodes))
        .Select(c => c.Column)] : [];

    /// <summary>Columns of the file that are left out.</summary>
    public IReadOnlyList<string> NotTaken => Choices.Kind is ImportKind.Catalogue or ImportKind.Unrecognised ? []
        : [.. Table.Header.Select((name, i) => (name, i)).Where(c => !Table.IsOwnColumn(c.i) && !Choices.Columns.Values.Contains(c.i))
        .Where(c => c.name.Length > 0 || Table.FirstRows(50).Any(r => r[c.i].Length > 0))
        .Select(c => c.name.Length > 0 ? c.name : $"column {c.i + 1}")];

    /// <summary>What keeps the file from being read, one sentence each; empty when it can be.</summary>
    public IReadOnlyList<string> Open => [.. Asked()];

    /// <summary>The same as one text.</summary>
    public string WhyNotReady => string.Join(" ", Open);

    public void ChangeKind(ImportKind kind)
    {
        (Choices, LeftOut) = (Table.Guess(kind), false);
        GuessRest();
    }

    /// <summary>Takes another row for the headings.</summary>
    public void ChangeHeading(int line)
    {
        var kind = Choices.Kind;
        Table = Table.WithHeader(line);
        Choices = Table.Guess();
        if (Choices.Kind == ImportKind.Unrecognised && kind != ImportKind.Unrecognised)
        {
            Choices = Table.Guess(kind);
        }

        GuessRest();
    }

    /// <summary>Matches a column of ours to one of the file's, or to none; no column is used twice.</summary>
    public void Match(string ours, int? theirs)
    {
        var columns = Choices.Columns.Where(c => c.Key != ours && c.Value != theirs).ToDictionary(c => c.Key, c => c.Value,
            StringComparer.Ordinal);
        if (theirs is { } column)
        {
            columns[ours] = column;
        }

        var order = Table.DaysOf(columns);
        Choices = Choices with
        {
            Columns = columns,
            Order = order.MustBeAsked ? Choices.Order : order.Only
        };
        units.Remove(ours);
        GuessRest();
    }

    public void WriteDays(DateOrder order) => Choices = Choices with { Order = order };

    public void SayYear(int? year) => Choices = Choices with { Year = year };

    public void SayBlanks(bool asAbove) => Choices = Choices with { BlankAsAbove = asAbove };

    /// <summary>Says in which unit a column is; columns of which nothing is known follow, they are likely written alike.</summary>
    public void SayUnit(string ours, MeasureUnit unit)
    {
        units[ours] = (unit, UnitSource.Chosen);
        foreach (var other in Measured().Where(c => c != ours && MeasureUnit.Of(c) == unit.Quantity
            && (!units.TryGetValue(c, out var known) || known.Source == UnitSource.Guess)))
        {
            units[other] = (unit, UnitSource.Guess);
        }

        TakeUnits();
    }

    /// <summary>Says what a column that the file has not is in every row.</summary>
    public void SaySame(string ours, string value)
    {
        ArgumentNullException.ThrowIfNull(value);
        same[ours] = value.Trim();
        Choices = Choices with { Same = new Dictionary<string, string>(same, StringComparer.Ordinal) };
    }

    public ImportFile Read(IReadOnlyDictionary<string, string> names) => Table.Read(Choices with { Names = names });

    public string? ToCorrect(IReadOnlyDictionary<string, string> names, IEnumerable<ImportError> errors) =>
        Table.ToCorrect(Choices with { Names = names }, errors);

    private IEnumerable<string> Asked()
    {
        if (!Table.HasColumns || LeftOut)
        {
            yield break;
        }

        if (Choices.Kind == ImportKind.Unrecognised)
        {
            yield return "Choose what the rows are.";
            yield break;
        }

        var (typed, matched) = (Missing.Where(ImportWords.MayBeSame).ToList(), Missing.Where(c => !ImportWords.MayBeSame(c)).ToList());
        if (matched.Count > 0)
        {
            yield return $"Match a column to {Shared.Words.List([.. matched.Select(ImportWords.Column)])}.";
        }

        if (typed.Count > 0)
        {
            yield return $"Match a column to {Shared.Words.List([.. typed.Select(ImportWords.Column)])}, or say what it is in every row.";
        }

        if (days.MustBeAsked && Choices.Order == DateOrder.YearFirst)
        {
            yield return $"Say what {days.Example} means.";
        }

        if (DayWithoutYear.Length > 0 && Choices.Year is null)
        {
            yield return $"Say of which year {DayWithoutYear} is.";
        }

        foreach (var (column, _, _) in Units.Where(u => u.Unit is null))
        {
            yield return $"Say in which unit “{Heading(column)}” is.";
        }
    }

    /// <summary>The file's own name of a column.</summary>
    public string Heading(string ours) => !Choices.Columns.TryGetValue(ours, out var at) ? ImportWords.Column(ours)
        : Table.Header[at].Length > 0 ? Table.Header[at] : $"column {at + 1}";

    private List<string> Measured() => Table.HasColumns && Choices.Kind != ImportKind.Catalogue
        ? [.. Choices.Columns.Where(c => MeasureUnit.Of(c.Key) != Quantity.None && (Table.UnitOf(c.Key, c.Value) is not null
            || Table.Figures(c.Value).Any(f => f != 0))).OrderBy(c => c.Value).Select(c => c.Key)] : [];

    /// <summary>Everything that can be guessed once kind and columns stand.</summary>
    private void GuessRest()
    {
        days = Table.DaysOf(Choices.Columns);
        DayWithoutYear = Table.DayWithoutYear(Choices.Columns, Choices.Order);
        if (DayWithoutYear.Length > 0 && Choices.Year is null)
        {
            Choices = Choices with { Year = Table.YearSpokenOf() };
        }

        if (Choices.Kind == ImportKind.Places)
        {
            Choices = Choices with { MakeCodes = !Choices.Columns.ContainsKey("yard") && Choices.Columns.ContainsKey("household") };
        }

        foreach (var (column, guess) in new[] { ("bed", WholeYard), ("yard", sheet.Any(char.IsAsciiDigit)
            && !sheet.StartsWith("Sheet", StringComparison.OrdinalIgnoreCase) ? sheet : "") })
        {
            if (guess.Length > 0 && Same.Any(s => s.Column == column && s.Value.Length == 0))
            {
                SaySame(column, guess);
            }
        }

        GuessUnits();
    }

    private void GuessUnits()
    {
        foreach (var column in Measured())
        {
            if (Table.UnitOf(column, Choices.Columns[column]) is { } said)
            {
                units[column] = (said, UnitSource.Heading);
            }
        }

        // The size of a lot gives its unit away, and the other areas of a file are likely written alike.
        var lots = Choices.Columns.TryGetValue("yard_m2", out var at) && !units.ContainsKey("yard_m2") ? Table.Figures(at).Order().ToList()
            : [];
        if (lots.Count > 0 && lots[lots.Count / 2] is var middle and >= SmallestLot)
        {
            units["yard_m2"] = (middle > LargestLot ? MeasureUnit.SquareFeet : MeasureUnit.SquareMetres, UnitSource.Guess);
        }

        foreach (var column in Measured().Where(c => !units.ContainsKey(c)))
        {
            if (units.Where(u => u.Value.Unit.Quantity == MeasureUnit.Of(column)).Select(u => u.Value.Unit).Distinct().ToList() is [var one]
                && one != MeasureUnit.Acres)
            {
                units[column] = (one, UnitSource.Guess);
            }
        }

        TakeUnits();
    }

    private void TakeUnits() => Choices = Choices with
    {
        Units = Measured().Where(units.ContainsKey).ToDictionary(c => c, c => units[c].Unit.Key, StringComparer.Ordinal)
    };
}
