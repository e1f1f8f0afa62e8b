using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CommonGround.Interchange.Csv;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using X = DocumentFormat.OpenXml.Spreadsheet;

namespace CommonGround.Interchange.Spreadsheets;

/// <summary>Writes a workbook (.xlsx, ECMA-376). A text stands in its own cell and is never a formula.</summary>
internal static partial class WorkbookWriter
{
    /// <summary>Places in the list of cell formats that <see cref="Styles"/> writes.</summary>
    private const uint Plain = 0, Day = 1;

    public static void Write(Stream target, IEnumerable<Sheet> sheets)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(sheets);
        // The library reads back what it wrote, which an answer on its way to a browser cannot do.
        using var held = new MemoryStream();
        using (var document = SpreadsheetDocument.Create(held, SpreadsheetDocumentType.Workbook))
        {
            var book = document.AddWorkbookPart();
            book.AddNewPart<WorkbookStylesPart>().Stylesheet = Styles();
            var list = new X.Sheets();
            foreach (var sheet in sheets)
            {
                var part = book.AddNewPart<WorksheetPart>();
                WriteRows(part, sheet);
                var number = (uint)list.ChildElements.Count + 1;
                list.AppendChild(new X.Sheet { Name = sheet.Name, SheetId = number, Id = book.GetIdOfPart(part) });
            }
            book.Workbook = new X.Workbook(list);
        }
        held.WriteTo(target);
    }

    private static void WriteRows(WorksheetPart part, Sheet sheet)
    {
        using var writer = OpenXmlWriter.Create(part);
        writer.WriteStartElement(new X.Worksheet());
        writer.WriteStartElement(new X.SheetData());
        var line = 0u;
        writer.WriteElement(Row(++line, sheet.Columns.Select(Text)));
        foreach (var row in sheet.Rows) writer.WriteElement(Row(++line, row.Select(Cell)));
        writer.WriteEndElement();
        writer.WriteEndElement();
    }

    /// <summary>Blank cells are left out, so each of the others says where it stands.</summary>
    private static X.Row Row(uint line, IEnumerable<X.Cell?> cells)
    {
        var row = new X.Row { RowIndex = line };
        foreach (var (column, cell) in cells.Index())
        {
            if (cell is null) continue;
            cell.CellReference = string.Create(CultureInfo.InvariantCulture, $"{Letters(column)}{line}");
            row.AppendChild(cell);
        }
        return row;
    }

    private static X.Cell? Cell(object? value) => value switch
    {
        null => null,
        string text => Text(CsvText.Guard(text)),
        bool yes => new X.Cell { DataType = X.CellValues.Boolean, CellValue = new X.CellValue(yes) },
        DateTime day => Number(day.ToOADate(), Day),
        IFormattable figure => Number(Convert.ToDouble(figure, CultureInfo.InvariantCulture), Plain),
        _ => Text(CsvText.Guard(value.ToString() ?? "")),
    };

    private static X.Cell Number(double value, uint style) => new() { StyleIndex = style, CellValue = new X.CellValue(value) };

    private static X.Cell Text(string text) =>
        new(new X.InlineString(new X.Text(Written(text)) { Space = SpaceProcessingModeValues.Preserve }))
        {
            DataType =
            X.CellValues.InlineString
        };

    /// <summary>A text as ST_Xstring (ECMA-376 part 1, 22.9.2.19): what XML cannot hold, or would alter, stands as _xHHHH_.</summary>
    private static string Written(string text)
    {
        var written = new StringBuilder(text.Length);
        var whole = Escape().Replace(text, "_x005F_");
        for (var i = 0; i < whole.Length; i++)
        {
            var c = whole[i];
            if (i + 1 < whole.Length && char.IsSurrogatePair(c, whole[i + 1])) written.Append(c).Append(whole[++i]);
            else if (c == '\r' || !System.Xml.XmlConvert.IsXmlChar(c)) written.Append(CultureInfo.InvariantCulture, $"_x{(int)c:X4}_");
            else written.Append(c);
        }
        return written.ToString();
    }

    /// <summary>A, B … Z, AA …: the name of a column counted from 0.</summary>
    private static string Letters(int column) =>
        column < 26 ? ((char)('A' + column)).ToString() : Letters((column / 26) - 1) + (char)('A' + (column % 26));

    /// <summary>
    /// The smallest set of formats that every reader takes: both fills that the standard asks for, one font, and a format for days.
    /// </summary>
    private static X.Stylesheet Styles() => new(
        new X.NumberingFormats(new X.NumberingFormat { NumberFormatId = 164, FormatCode = "yyyy-mm-dd" }),
        new X.Fonts(new X.Font(new X.FontSize { Val = 11 }, new X.FontName { Val = "Calibri" })),
        new X.Fills(
            new X.Fill(new X.PatternFill { PatternType = X.PatternValues.None }),
            new X.Fill(new X.PatternFill { PatternType = X.PatternValues.Gray125 })),
        new X.Borders(new X.Border()),
        new X.CellStyleFormats(new X.CellFormat()),
        new X.CellFormats(
            new X.CellFormat { FormatId = 0 },
            new X.CellFormat { FormatId = 0, NumberFormatId = 164, ApplyNumberFormat = true }),
        new X.CellStyles(new X.CellStyle { Name = "Normal", FormatId = 0, BuiltinId = 0 }));

    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Escape();
}
