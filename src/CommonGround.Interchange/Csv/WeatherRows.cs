namespace CommonGround.Interchange.Csv;

/// <summary>rain.csv and temperature.csv.</summary>
public static class WeatherRows
{
    /// <summary>Above the largest fall measured in one day (1,825 mm, Foc-Foc, Réunion, 1966; from memory).</summary>
    private const double MostRain = 2_000;

    /// <summary>Wider than the lowest and highest temperatures measured at the ground (−89.2 °C and 56.7 °C; from memory).</summary>
    private const double Coldest = -90, Hottest = 60;

    /// <summary>rain.csv, ready to be read again.</summary>
    public static string Write(IEnumerable<RainRow> rows) =>
        CsvText.Write(CsvKind.Rain.Columns, rows.Select(r => (string[])[CsvText.Day(r.Date), CsvText.Number(r.RainMillimetres)]));

    /// <summary>temperature.csv, ready to be read again.</summary>
    public static string Write(IEnumerable<TemperatureRow> rows) =>
        CsvText.Write(CsvKind.Temperature.Columns, rows.Select(r => (string[])[CsvText.Day(r.Date), CsvText.Number(r.MinimumCelsius),
            CsvText.Number(r.MaximumCelsius)]));

    internal static List<RainRow> ReadRain(CsvTable table, RowCells cells) => Read(table, cells,
        line => new RainRow(line, cells.Day("date"), cells.Number("rain_mm", 0, MostRain,
            "of millimetres from 0 to 2000; leave a day that was not measured out altogether")),
        row => row.Date, (a, b) => a.RainMillimetres == b.RainMillimetres);

    internal static List<TemperatureRow> ReadTemperatures(CsvTable table, RowCells cells) => Read(table, cells,
        line =>
        {
            const string Range = "of degrees Celsius from -90 to 60; leave a day that was not measured out altogether";
            var row = new TemperatureRow(line, cells.Day("date"), cells.Number("tmin_c", Coldest, Hottest, Range),
                cells.Number("tmax_c", Coldest, Hottest, Range));
            if (cells.Fine && row.MinimumCelsius > row.MaximumCelsius)
                cells.Refuse("tmin_c", "The lowest temperature is above the highest.", "Exchange the two, or correct the wrong one.");
            return row;
        },
        row => row.Date, (a, b) => a.MinimumCelsius == b.MinimumCelsius && a.MaximumCelsius == b.MaximumCelsius);

    /// <summary>One row a day: the same day twice with the same values is taken once, with other values it is refused.</summary>
    private static List<T> Read<T>(CsvTable table, RowCells cells, Func<int, T> read, Func<T, DateOnly> dayOf, Func<T, T, bool> agree)
    {
        var rows = new List<T>();
        var seen = new Dictionary<DateOnly, (T Row, int Line)>();
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = read(record.Line);
            if (!cells.Fine) continue;
            if (seen.TryAdd(dayOf(row), (row, record.Line))) rows.Add(row);
            else if (!agree(seen[dayOf(row)].Row, row))
                cells.Refuse("date", $"The day is already on line {seen[dayOf(row)].Line} with other values.", "Keep one of the rows.");
        }
        return rows;
    }
}
