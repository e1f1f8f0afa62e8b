using System.Globalization;
using System.Text.Json;

namespace CommonGround.Ecology.Tests.Published;

/// <summary>Published values and hand-worked examples under shared/, found from wherever the tests run.</summary>
internal static class CheckFile
{
    /// <summary>The inputs and expected answers of one check, e.g. FQ-003 of 02_floristic_quality.json.</summary>
    public static (JsonElement Inputs, JsonElement Expected) Check(string file, string id)
    {
        using var document = JsonDocument.Parse(Read("checks", file));
        var check = document.RootElement.GetProperty("checks").EnumerateArray().Single(c => c.GetProperty("id").GetString() == id);
        return (check.GetProperty("inputs").Clone(), check.GetProperty("expected").Clone());
    }

    /// <summary>A worked example: what goes in and what comes out.</summary>
    public static (JsonElement Input, JsonElement Expected) WorkedExample(string name)
    {
        using var document = JsonDocument.Parse(Read("worked-examples", name + ".json"));
        return (document.RootElement.GetProperty("input").Clone(), document.RootElement.GetProperty("expected").Clone());
    }

    /// <summary>The rows of a CSV file of numbers as dictionaries by column.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Table(string file)
    {
        var lines = Read("checks", file).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Cells).ToList();
        return [.. lines.Skip(1).Select(cells => lines[0].Zip(cells).ToDictionary(p => p.First, p => p.Second, StringComparer.Ordinal))];
    }

    /// <summary>A community: site name and abundances per row.</summary>
    public static IReadOnlyList<(string Site, double[] Abundances)> Community(string dataset)
    {
        var lines = Read("checks", $"01_matrix_{dataset.ToLowerInvariant()}.csv").Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1)
            .Select(Cells);
        return [.. lines.Select(cells => (cells[0], cells[1..].Select(Number).ToArray()))];
    }

    public static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);

    public static double[] Numbers(this JsonElement element, string name) =>
        [.. element.GetProperty(name).EnumerateArray().Select(e => e.GetDouble())];

    public static double Number(this JsonElement element, string name) => element.GetProperty(name).GetDouble();

    public static double? Optional(this JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static string[] Cells(string line) => [.. line.TrimEnd('\r').Split(',').Select(cell => cell.Trim('"'))];

    /// <summary>The folder that holds CommonGround.sln, found by walking up.</summary>
    public static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CommonGround.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("CommonGround.sln is above none of the folders.");
    }

    private static string Read(string folder, string file) => File.ReadAllText(Path.Combine(Root(), "shared", folder, file));
}
