namespace CommonGround.Interchange.MapFiles;

/// <summary>A pair of coordinates as a file writes it, in whatever system it uses.</summary>
/// <param name="X">The first number: longitude, or metres or feet to the east.</param>
/// <param name="Y">The second number.</param>
public readonly record struct MapPosition(double X, double Y);

/// <summary>One line or outline of a map file.</summary>
/// <param name="Number">In its file, from 1.</param>
/// <param name="Closed">An outline; only its outer ring is kept.</param>
/// <param name="Values">One for each column of the layer; empty where the file holds none.</param>
public sealed record MapFeature(int Number, bool Closed, IReadOnlyList<MapPosition> Points, IReadOnlyList<string> Values);

/// <summary>One layer of a map file.</summary>
/// <param name="Columns">Names of its properties, in the file's order.</param>
/// <param name="Features">Lines and outlines; a feature of several parts comes as several.</param>
/// <param name="LeftOut">Points and features without a shape, which are no street.</param>
/// <param name="System">The coordinate system that the file itself names, as text (WKT) or "EPSG:code"; empty where it names none.</param>
public sealed record MapLayer(string Name, IReadOnlyList<string> Columns, IReadOnlyList<MapFeature> Features, int LeftOut, string System)
{
    /// <summary>The column that most likely holds what is wanted, by its name; null where none does.</summary>
    /// <param name="words">Parts of names, the likeliest first.</param>
    public int? ColumnLike(IReadOnlyList<string> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        foreach (var word in words)
        {
            for (var i = 0; i < Columns.Count; i++)
            {
                var letters = string.Concat(Columns[i].Where(char.IsLetterOrDigit));
                if (letters.Contains(word, StringComparison.OrdinalIgnoreCase) && Features.Any(f => f.Values[i].Any(char.IsLetter)))
                {
                    return i;
                }
            }
        }

        return null;
    }
}

/// <summary>A town's own map file as read: GeoJSON, a shapefile or a GeoPackage, with its own columns and coordinates.</summary>
/// <param name="Errors">Why it cannot be read; empty when it can.</param>
public sealed record MapFile(string FileName, IReadOnlyList<MapLayer> Layers, IReadOnlyList<ImportError> Errors)
{
    /// <summary>Lines and outlines that are read of one file.</summary>
    public const int MostFeatures = 200_000;

    /// <summary>Names of columns that hold a street's name in the files of towns.</summary>
    public static readonly IReadOnlyList<string> StreetWords = ["fullname", "streetname", "stname", "roadname", "fullst", "label", "street",
        "road", "name"];

    /// <summary>Names of columns that hold a block's name, where a file has one.</summary>
    public static readonly IReadOnlyList<string> BlockWords = ["block"];

    /// <summary>Reads a file, told apart by its first bytes. Never throws for what a file holds.</summary>
    /// <param name="fileName">Shown in errors; a path is cut down to its last part.</param>
    public static MapFile Read(string fileName, byte[] content)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(content);
        var name = fileName.Split('/', '\\')[^1];
        try
        {
            var layers = StartsWith(content, "SQLite format 3\0"u8) ? GeoPackageReader.Read(content)
                : StartsWith(content, "PK"u8) ? ShapefileReader.ReadZip(content)
                : StartsWith(content, [0, 0, 0x27, 0x0A]) ? throw new MapFileException("This is one part of a shapefile alone.",
                    "Bring the zip file it came in, or put its parts (.shp, .dbf, .prj) into one zip file.")
                : LooseGeoJson.Read(name, content);
            return layers.All(l => l.Features.Count == 0)
                ? Failed(name, "No line or outline is in this file.", "Choose the file with the streets' centre lines.")
                : new MapFile(name, [.. layers.Where(l => l.Features.Count > 0)], []);
        }
        catch (MapFileException wrong)
        {
            return Failed(name, wrong.Message, wrong.HowToCorrect);
        }
    }

    private static MapFile Failed(string name, string what, string howToCorrect) => new(name, [],
        [new ImportError(name, 0, "", "", what, howToCorrect)]);

    private static bool StartsWith(byte[] content, ReadOnlySpan<byte> with) => content.AsSpan().StartsWith(with);
}

/// <summary>Why a map file cannot be read, in words for who brought it.</summary>
internal sealed class MapFileException(string what, string howToCorrect, Exception? inner = null) : Exception(what, inner)
{
    public string HowToCorrect => howToCorrect;
}
