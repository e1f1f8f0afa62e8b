using System.IO.Compression;
using CommonGround.Interchange.Csv;
using MiniExcelLibs;
using MiniExcelLibs.OpenXml;

namespace CommonGround.Interchange.Spreadsheets;

/// <summary>Reads a workbook (.xlsx, ECMA-376) as the CSV file it would be: line is the sheet's row, days and numbers are written as our
/// CSV writes them.</summary>
internal static class Workbook
{
    /// <summary>Far above 100,000 rows of every column, far below what a machine of a group can hold.</summary>
    private const long MostUnpacked = 256L * 1024 * 1024;

    private const int MostParts = 1_000, MostColumns = 256, MostRows = 1_048_576;

    public static bool IsZip(byte[] content) => content is [(byte)'P', (byte)'K', 3, 4, ..] or [(byte)'P', (byte)'K', 5, 6, ..];

    /// <summary>A table for each sheet that holds anything; one table with the reason where the file cannot be read.</summary>
    public static IReadOnlyList<CsvTable> Read(string name, byte[] content)
    {
        if (WhyNot(content) is { } reason) return [Refused(name, reason.What, reason.HowToCorrect)];
        try
        {
            using var stream = new MemoryStream(content, writable: false);
            var sheets = stream.GetSheetNames();
            var tables = sheets.Select(sheet => ReadSheet(sheets.Count == 1 ? name : $"{name}, {sheet}", sheet, content))
                .Where(t => t.HeaderLine != 0 || t.Errors.Count > 0).ToList();
            return tables.Count > 0 ? tables
                : [Refused(name, "The workbook holds blank cells only.", "Save it again with at least a header row.")];
        }
        catch (Exception broken) when (broken is not OutOfMemoryException)
        {
            // The reader of workbooks throws many kinds of exception at a damaged file; each means the same to its writer.
            return [Refused(name, "The workbook is damaged: its parts do not fit together.",
                "Open it in the spreadsheet, save it again as .xlsx or as \"CSV UTF-8\", and import that.")];
        }
    }

    private static CsvTable ReadSheet(string name, string sheet, byte[] content)
    {
        var errors = new List<ImportError>();
        using var stream = new MemoryStream(content, writable: false);
        var rows = stream.Query(useHeaderRow: false, sheetName: sheet,
            configuration: new OpenXmlConfiguration { EnableSharedStringCache = false, FillMergedCells = true });
        return CsvTable.Of(name, errors, Records(rows.Cast<IDictionary<string, object?>>(), name, errors));
    }

    private static IEnumerable<CsvRecord> Records(IEnumerable<IDictionary<string, object?>> rows, string name, List<ImportError> errors)
    {
        var line = 0;
        foreach (var row in rows)
        {
            line++;
            if (row.Count > MostColumns)
            {
                errors.Add(new ImportError(name, line, "", "", $"The sheet has {row.Count} columns.",
                    "Delete the columns to the right of the table, also those that look blank, and save it again."));
                yield break;
            }
            if (line > MostRows)
            {
                errors.Add(new ImportError(name, line, "", "", $"The sheet has more than {MostRows} rows.",
                    "Split it and import the parts one after the other."));
                yield break;
            }
            if (row.Values.Any(value => value is not null)) yield return new CsvRecord(line, [.. row.Values.Select(Cell)]);
        }
    }

    /// <summary>A cell as our CSV would write it.</summary>
    internal static string Cell(object? value) => value switch
    {
        null => "",
        string text => text,
        bool yes => yes ? "yes" : "no",
        DateTime moment when moment.TimeOfDay == TimeSpan.Zero => CsvText.Day(DateOnly.FromDateTime(moment)),
        DateTime moment => moment.ToString("yyyy-MM-ddTHH:mm:ss", System.Globalization.CultureInfo.InvariantCulture),
        double number => CsvText.Number(number),
        IFormattable other => other.ToString(null, System.Globalization.CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };

    /// <summary>Looks at the archive before anything of it is read as a workbook: how many parts, and how large they are unpacked, counted
    /// and not believed.</summary>
    private static (string What, string HowToCorrect)? WhyNot(byte[] content)
    {
        const string Again = "Open it in the spreadsheet, save it again as .xlsx or as \"CSV UTF-8\", and import that.";
        try
        {
            using var zip = new ZipArchive(new MemoryStream(content, writable: false), ZipArchiveMode.Read);
            if (zip.Entries.Count > MostParts) return ($"The archive has {zip.Entries.Count} parts, more than any spreadsheet.", Again);
            if (zip.GetEntry("xl/workbook.xml") is null)
                return ("The file is a zip archive, but no spreadsheet.", "Unpack it and import the CSV, XLSX or GeoJSON files in it.");
            var (left, piece) = (MostUnpacked, new byte[81_920]);
            foreach (var entry in zip.Entries)
            {
                using var part = entry.Open();
                for (var read = part.Read(piece); read > 0; read = part.Read(piece))
                {
                    if ((left -= read) < 0) return ($"Unpacked the spreadsheet is larger than {MostUnpacked / 1024 / 1024} MB.",
                        "Split it, or delete pictures and blank rows below the table, and save it again.");
                }
            }
            return null;
        }
        catch (Exception broken) when (broken is InvalidDataException or IOException or NotSupportedException or ArgumentException)
        {
            return ("The spreadsheet is damaged: it cannot be unpacked.", Again);
        }
    }

    private static CsvTable Refused(string name, string what, string howToCorrect) =>
        CsvTable.Of(name, [new ImportError(name, 0, "", "", what, howToCorrect)], []);
}
