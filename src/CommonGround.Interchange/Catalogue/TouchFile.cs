using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>touch.csv, shipped beside the catalogue: what is worth a touch on a plant that no source calls harmful.</summary>
public static class TouchFile
{
    /// <summary>What to feel or smell, by scientific name.</summary>
    /// <exception cref="FormatException">A column is missing, or a row has no words or stands twice; the message names it.</exception>
    public static IReadOnlyDictionary<string, string> Read(string fileName, byte[] content)
    {
        var table = CsvTable.ReadShipped(fileName, content);
        var (name, touch) = (table.Header.ToList().IndexOf("scientific_name"), table.Header.ToList().IndexOf("touch"));
        if (name < 0 || touch < 0)
        {
            throw new FormatException($"{fileName} has no column {(name < 0 ? "scientific_name" : "touch")}.");
        }

        var read = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var record in table.Records)
        {
            var (plant, words) = (record.Cells[name].Trim(), record.Cells[touch].Trim());
            if (plant.Length == 0 || words.Length == 0 || !read.TryAdd(plant, words))
            {
                throw new FormatException($"{fileName} line {record.Line}: give each plant once, and say what is worth a touch.");
            }
        }

        return read;
    }
}
