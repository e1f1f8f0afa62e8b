using System.Collections.Frozen;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.Csv;

/// <summary>places.csv and beds.csv.</summary>
public static class PlaceRows
{
    private const double LargestYard = 1_000_000;

    private static readonly string[] InOrder = ["street", "block", "yard", "latitude", "longitude", "yard_m2", "lawn_m2", "light",
        "moisture", "soil_group", "household", "shared"];

    /// <summary>places.csv with every column, ready to be read again.</summary>
    public static string Write(IEnumerable<PlaceRow> rows) => CsvText.Write(InOrder, rows.Select(r => (string[])
    [
        CsvText.Guard(r.Street), CsvText.Guard(r.Block), CsvText.Guard(r.Yard), r.HasPoint ? CsvText.Number(r.Latitude) : "",
        r.HasPoint ? CsvText.Number(r.Longitude) : "",
        CsvText.Number(r.YardSquareMetres), CsvText.Number(r.LawnSquareMetres), Words.Light.Write(r.Light),
            Words.Moisture.Write(r.Moisture),
        Words.SoilGroup.Write(r.SoilGroup), CsvText.Guard(r.Household), r.Shared ? "yes" : "no",
    ]));

    /// <summary>beds.csv with every column, ready to be read again.</summary>
    public static string Write(IEnumerable<BedRow> rows) => CsvText.Write(CsvKind.Beds.Columns, rows.Select(r => (string[])
    [
        CsvText.Guard(r.Yard), CsvText.Guard(r.Bed), CsvText.Number(r.AreaSquareMetres), CsvText.Day(r.EstablishedOn),
            Words.Light.Write(r.Light),
        Words.Moisture.Write(r.Moisture),
    ]));

    internal static List<PlaceRow> Read(CsvTable table, RowCells cells)
    {
        var rows = new List<PlaceRow>();
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var untold = Untold(CsvKind.Places, cells);
        foreach (var record in table.Records)
        {
            cells.Open(record);
            // Without both of them the yard is put in the middle of its block.
            var pointed = cells.Has("latitude") || cells.Has("longitude");
            var row = new PlaceRow(record.Line, cells.Code("street"), cells.Code("block"), cells.Knows("yard") ? cells.Code("yard") : "",
                pointed ? cells.Number("latitude", -90, 90, "from -90 to 90, in degrees north") : 0,
                    pointed ? cells.Number("longitude", -180, 180, "from -180 to 180, in degrees east") : 0,
                AboveZero(cells, "yard_m2") ?? 0, cells.OptionalNumber("lawn_m2", 0, LargestYard, "of square metres, 0 or more"),
                cells.OptionalWord("light", Words.Light), cells.OptionalWord("moisture", Words.Moisture),
                    cells.OptionalWord("soil_group", Words.SoilGroup),
                cells.Text("household"), cells.YesOrNo("shared"))
            {
                HasPoint = pointed,
                Untold = untold
            };
            if (!cells.Has("yard_m2")) cells.Refuse("yard_m2", "The cell is blank.", "Write the area of the whole yard in square metres.");
            if (cells.Fine && row.LawnSquareMetres > row.YardSquareMetres)
                cells.Refuse("lawn_m2",
                    "The lawn is larger than the yard.", $"Write at most {CsvText.Number(row.YardSquareMetres)}, or correct yard_m2.");
            if (cells.Fine && GeoPoints.LooksSwapped(row.Latitude, row.Longitude))
                cells.Refuse("latitude", "Latitude and longitude look swapped: this lies near a pole.", "Exchange the two columns.");
            if (row.Yard.Length == 0 && row.Household.Length == 0 && !cells.Knows("yard"))
                cells.Refuse("household", "Neither a code nor a household tells which yard this is.", "Write one of them.");
            if (cells.Fine && row.Latitude < 0) cells.Refuse("latitude", GeoPoints.South, GeoPoints.MendSouth);
            if (row.Yard.Length > 0 && !seen.TryAdd(row.Yard, record.Line))
                cells.Refuse("yard", $"The yard is already on line {seen[row.Yard]}.",
                    "Give every yard its own code, or keep one of the rows.");
            if (cells.Fine) rows.Add(row);
        }
        return rows;
    }

    internal static List<BedRow> ReadBeds(CsvTable table, RowCells cells)
    {
        var rows = new List<BedRow>();
        var seen = new Dictionary<(string Yard, string Bed), int>();
        var untold = Untold(CsvKind.Beds, cells);
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = new BedRow(record.Line, cells.Code("yard"), cells.Code("bed"), AboveZero(cells, "area_m2"),
                cells.OptionalDay("established_on"),
                cells.OptionalWord("light", Words.Light), cells.OptionalWord("moisture", Words.Moisture))
            {
                Untold = untold
            };
            var key = (row.Yard.ToUpperInvariant(), row.Bed.ToUpperInvariant());
            if (!seen.TryAdd(key, record.Line))
                cells.Refuse("bed", $"The bed is already on line {seen[key]}.",
                    "Give every bed of a yard its own name, or keep one of the rows.");
            if (cells.Fine) rows.Add(row);
        }
        return rows;
    }

    internal static FrozenSet<string> Untold(CsvKind kind, RowCells cells) =>
        kind.Columns.Where(c => !cells.Knows(c)).ToFrozenSet(StringComparer.Ordinal) is { Count: > 0 } some ? some
            : FrozenSet<string>.Empty;

    private static double? AboveZero(RowCells cells, string column)
    {
        if (cells.OptionalNumber(column, 0, LargestYard, "of square metres above 0, up to 1000000") is not { } area) return null;
        if (area > 0) return area;
        cells.Refuse(column, "The area is 0.", "Write an area above 0 in square metres.");
        return null;
    }
}
