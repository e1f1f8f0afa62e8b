using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange;

/// <summary>A file as read: its kind, its rows as plain records, and everything wrong with it.</summary>
/// <remarks>
/// Reading never throws for what a file holds. When <see cref="Errors"/> is not empty the rows that could be read are still there, so that
/// a check can go on to find more, but nothing may be stored. Rows keep the order of the file; of two sightings or infestations of the same
/// place, taxon and date the later row holds, which the importer decides because only it resolves names. What needs today's date, the
/// catalogue or the stored places is not checked here.
/// </remarks>
public sealed record ImportFile
{
    public required string FileName { get; init; }
    public ImportKind Kind { get; init; }
    public IReadOnlyList<PlaceRow> Places { get; init; } = [];
    public IReadOnlyList<BedRow> Beds { get; init; } = [];
    public IReadOnlyList<SightingRow> Sightings { get; init; } = [];
    public IReadOnlyList<InfestationRow> Infestations { get; init; } = [];
    public IReadOnlyList<RainRow> Rain { get; init; } = [];
    public IReadOnlyList<TemperatureRow> Temperatures { get; init; } = [];
    public IReadOnlyList<PlantPriceRow> Prices { get; init; } = [];
    public IReadOnlyList<PlantOverrideRow> Overrides { get; init; } = [];
    public IReadOnlyList<BlockShape> Blocks { get; init; } = [];
    public IReadOnlyList<CatalogueTaxon> Taxa { get; init; } = [];

    /// <summary>Everything wrong, in the order of the file. Empty means the file may be stored.</summary>
    public IReadOnlyList<ImportError> Errors { get; init; } = [];

    /// <summary>Accepted, but worth a look: what was read differently from what was written.</summary>
    public IReadOnlyList<ImportError> Notices { get; init; } = [];

    /// <summary>Rows or features read without error.</summary>
    public int RowCount => Places.Count + Beds.Count + Sightings.Count + Infestations.Count + Rain.Count + Temperatures.Count
        + Prices.Count + Overrides.Count + Blocks.Count + Taxa.Count;

    /// <summary>Reads a file of any kind, told apart by its header.</summary>
    /// <param name="fileName">Shown in errors; a path is cut down to its last part.</param>
    /// <param name="content">Read to its end; not disposed.</param>
    public static ImportFile Read(string fileName, Stream content)
    {
        ArgumentNullException.ThrowIfNull(content);
        using var copy = new MemoryStream();
        content.CopyTo(copy);
        return Read(fileName, copy.ToArray());
    }

    /// <inheritdoc cref="Read(string, Stream)"/>
    public static ImportFile Read(string fileName, byte[] content)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(content);
        var file = new FileText(fileName, content);
        if (file.Text is null) return new ImportFile { FileName = file.Name, Errors = file.Errors };
        return file.LooksLikeJson ? BlockShapeReader.Read(file) : CsvReading.Read(file);
    }

    /// <summary>Reads a file of any kind, or every sheet of a workbook (.xlsx), each told apart by its header.</summary>
    /// <inheritdoc cref="Read(string, Stream)"/>
    public static IReadOnlyList<ImportFile> ReadAll(string fileName, byte[] content) =>
        Spreadsheets.Workbook.IsZip(content) ? [.. UploadedTable.Open(fileName, content).Select(table => table.ReadByHeader())]
            : [Read(fileName, content)];
}
