using System.Globalization;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>A correction file: every row of a file that was refused, the bad ones first with their reason, ready to be corrected and
/// imported again.</summary>
internal static class CorrectionFile
{
    /// <summary>Why a row was refused; reading skips the column.</summary>
    public const string ReasonColumn = "reason";

    /// <summary>Where a row stood in the file, so that order still counts where it matters; reading skips the column where
    /// <see cref="ReasonColumn"/> stands too.</summary>
    public const string LineColumn = "line";

    /// <summary>Whether a column was put there by a correction file and holds nothing of the record.</summary>
    public static bool IsOwn(string[] header, string column) => column == ReasonColumn
        || (column == LineColumn && Array.IndexOf(header, ReasonColumn) >= 0);

    /// <summary>The file as text, under our own column names.</summary>
    /// <param name="table">The refused file.</param>
    /// <param name="choices">How it was read: days are written year first, names as they were chosen.</param>
    /// <param name="errors">Everything wrong with its rows.</param>
    public static string Write(CsvTable table, ReadingChoices choices, IEnumerable<ImportError> errors)
    {
        var ours = choices.Columns.ToDictionary(c => c.Value, c => c.Key);
        var kept = Enumerable.Range(0, table.Header.Length).Where(i => !IsOwn(table.Header, table.Header[i])).ToArray();
        var header = kept.Select(i => ours.GetValueOrDefault(i) ?? Unmatched(table, i, choices)).ToList();
        var reasons = errors.Where(e => e.Line > table.HeaderLine).GroupBy(e => e.Line)
            .ToDictionary(g => g.Key, g => string.Join(" ", g.Select(e => e.Column.Length > 0 ? $"{e.Column}: {e.What} {e.HowToCorrect}"
            : $"{e.What} {e.HowToCorrect}").Distinct(StringComparer.Ordinal)));
        var order = Array.IndexOf(table.Header, LineColumn) is var at && at >= 0 && IsOwn(table.Header, LineColumn) ? at : -1;
        var bad = table.Refused.Select(r => (r.Line, r.Cells, r.Reason))
            .Concat(table.Records.Where(r => reasons.ContainsKey(r.Line)).Select(r => (r.Line, r.Cells, Reason: reasons[r.Line])))
            .OrderBy(r => r.Line);
        var good = table.Records.Where(r => !reasons.ContainsKey(r.Line)).Select(r => (r.Line, r.Cells, Reason: ""));
        return CsvText.Write([ReasonColumn, LineColumn, .. header], bad.Concat(good).Select(r => (string[])
        [
            CsvText.Guard(r.Reason), order >= 0 && order < r.Cells.Length ? r.Cells[order] : r.Line.ToString(CultureInfo.InvariantCulture),
            .. CellsOf(r.Cells, kept, table.Header.Length).Select(c => Cell(c.Text, ours.GetValueOrDefault(c.Column) ?? "", choices)),
        ]));
    }

    /// <summary>A row's cells without the columns of an earlier correction file; cells beyond the header stay at its end.</summary>
    private static IEnumerable<(int Column, string Text)> CellsOf(string[] cells, int[] kept, int width) =>
        kept.Where(i => i < cells.Length).Concat(Enumerable.Range(width, Math.Max(0, cells.Length - width))).Select(i => (i, cells[i]));

    private static string Unmatched(CsvTable table, int column, ReadingChoices choices)
    {
        var name = table.WrittenHeader[column];
        // Under our name it would be taken next time.
        return choices.Columns.ContainsKey(table.Header[column]) || CsvKind.Of(choices.Kind)?.Knows(table.Header[column]) == true
            ? $"{name} (not taken)" : CsvText.Guard(name);
    }

    private static string Cell(string text, string column, ReadingChoices choices)
    {
        if (CsvKind.IsDay(column) && CellFormats.TryDay(text, choices.Order, out var day)) return CellFormats.Write(day);
        if (column == CsvKind.ScientificName && TaxonName.Parse(CsvText.Unguard(text)) is var name
            && choices.Names.TryGetValue(name.Name, out var chosen))
            return CsvText.Guard((name with { Name = chosen }).ToString());
        return CellFormats.TryNumber(text, out _) ? text : CsvText.Guard(CsvText.Unguard(text));
    }
}
