using CommonGround.Interchange;
using CommonGround.Interchange.Csv;

namespace CommonGround.Web.Features.Import;

/// <summary>One table that somebody brought, and how they want it read.</summary>
public sealed class UploadedFile
{
    private DateOrders days;

    public UploadedFile(UploadedTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        Table = table;
        Choices = table.Guess();
        days = table.DaysOf(Choices.Columns);
    }

    public UploadedTable Table { get; }
    public ReadingChoices Choices { get; private set; }

    /// <summary>A cell that shows how the days are written, where they are not written year first.</summary>
    public string DayExample => days.Example;

    public bool MayBeMonthFirst => days.MonthFirst;
    public bool MayBeDayFirst => days.DayFirst;

    /// <summary>Needed columns that nothing is matched to yet.</summary>
    public IReadOnlyList<string> Missing => Table.HasColumns && Choices.Kind != ImportKind.Catalogue
        ? [.. ColumnMatching.ColumnsOf(Choices.Kind).Where(c => c.Required && !Choices.Columns.ContainsKey(c.Column))
        .Select(c => c.Column)] : [];

    /// <summary>Columns of the file that are left out.</summary>
    public IReadOnlyList<string> NotTaken => Choices.Kind is ImportKind.Catalogue or ImportKind.Unrecognised ? []
        : [.. Table.Header.Select((name, i) => (name, i)).Where(c => !Table.IsOwnColumn(c.i) && !Choices.Columns.Values.Contains(c.i))
        .Select(c => c.name.Length > 0 ? c.name : $"column {c.i + 1}")];

    /// <summary>What keeps the file from being read; empty when it can be.</summary>
    public string WhyNotReady => !Table.HasColumns ? ""
        : Choices.Kind == ImportKind.Unrecognised ? "Choose what the rows are."
        : Missing.Count > 0 ? $"Match a column to {Shared.Words.List([.. Missing.Select(ImportWords.Column)])}."
        : days.MustBeAsked && Choices.Order == DateOrder.YearFirst ? $"Say what {days.Example} means."
        : "";

    public void ChangeKind(ImportKind kind)
    {
        Choices = Table.Guess(kind);
        days = Table.DaysOf(Choices.Columns);
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

        days = Table.DaysOf(columns);
        Choices = Choices with { Columns = columns, Order = days.MustBeAsked ? Choices.Order : days.Only };
    }

    public void WriteDays(DateOrder order) => Choices = Choices with { Order = order };

    public ImportFile Read(IReadOnlyDictionary<string, string> names) => Table.Read(Choices with { Names = names });

    public string? ToCorrect(IReadOnlyDictionary<string, string> names, IEnumerable<ImportError> errors) =>
        Table.ToCorrect(Choices with { Names = names }, errors);
}
