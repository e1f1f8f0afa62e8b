using System.Globalization;
using CommonGround.Ecology.Pollinators;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>The record of flower visitors: visitors/visitors.csv and visitors/plants.csv.</summary>
public static class VisitorFile
{
    private const int Most = 100_000;

    /// <summary>Reads both files; rows with an error are left out and said.</summary>
    /// <param name="visitors">number, visitor, name_1929, group, family.</param>
    /// <param name="plants">name_1929, current_name, mapping, visitor_numbers with | between.</param>
    public static (VisitorRecords Records, IReadOnlyList<ImportError> Errors) Read(byte[] visitors, byte[] plants)
    {
        ArgumentNullException.ThrowIfNull(visitors);
        ArgumentNullException.ThrowIfNull(plants);
        var errors = new List<ImportError>();
        var kinds = new List<Visitor>();
        var positions = new Dictionary<int, int>();
        foreach (var cells in Rows("visitors.csv", visitors, errors))
        {
            var number = cells.OptionalWhole("number", 1, Most, "from 1 up") ?? 0;
            var visitor = new Visitor(cells.Code("visitor"), cells.OptionalCode("name_1929"), cells.Code("group"), cells.Text("family"));
            if (!cells.Has("number")) cells.Refuse("number", "The cell is blank.", "Give each visitor a number of its own.");
            else if (positions.ContainsKey(number)) cells.Refuse("number", "Two visitors have this number.", "Give each its own.");
            if (!cells.Fine) continue;
            positions.Add(number, kinds.FindIndex(k => string.Equals(k.Name, visitor.Name, StringComparison.Ordinal)) is var known and >= 0
                ? known : kinds.Count);
            if (positions[number] == kinds.Count) kinds.Add(visitor);
        }

        var visited = new List<VisitedPlant>();
        foreach (var cells in Rows("plants.csv", plants, errors))
        {
            var numbers = new List<int>();
            foreach (var word in cells.Raw("visitor_numbers").Split('|', StringSplitOptions.RemoveEmptyEntries))
            {
                if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                    && positions.TryGetValue(number, out var position))
                    numbers.Add(position);
                else cells.Refuse("visitor_numbers", $"There is no visitor {word}.", "Write numbers of visitors.csv with | between.");
            }

            var plant = new VisitedPlant(cells.Code("name_1929"), cells.OptionalCode("current_name"), cells.Text("mapping"),
                [.. numbers.Distinct()]);
            if (cells.Fine) visited.Add(plant);
        }

        return (new(kinds, visited), errors);
    }

    private static IEnumerable<RowCells> Rows(string name, byte[] content, List<ImportError> errors)
    {
        var file = new FileText(name, content);
        if (file.Text is null)
        {
            errors.AddRange(file.Errors);
            yield break;
        }

        var table = CsvTable.Read(file);
        var cells = new RowCells(table, table.Header.Index().ToDictionary(c => c.Item, c => c.Index, StringComparer.Ordinal));
        foreach (var record in table.Records)
        {
            cells.Open(record);
            yield return cells;
        }

        errors.AddRange(table.Errors);
    }
}
