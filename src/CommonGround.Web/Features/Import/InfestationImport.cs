using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Storage;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Infestations of a yard or, where the yard is not known, of a block.</summary>
internal sealed class InfestationImport(CommonGroundDb db, PlaceLookup book, TaxonLookup names, ImportFindings ledger)
{
    public async Task TakeAsync(IReadOnlyList<ImportFile> files, CancellationToken cancel)
    {
        var rows = files.SelectMany(f => f.Infestations.Select(r => (f.FileName, Row: r))).ToList();
        if (rows.Count == 0)
        {
            return;
        }

        var known = await db.Infestations.ToListAsync(cancel);
        var stored = new Dictionary<(long, long?, int, DateOnly), InfestationRecord>();
        foreach (var record in known)
        {
            stored[Key(record.BlockId, record.YardId, record.TaxonId, record.ObservedOn)] = record;
        }

        foreach (var (file, row) in rows)
        {
            cancel.ThrowIfCancellationRequested();
            var place = Place(file, row);
            var taxon = names.Resolve(row.Name, file, row.Line, ledger);
            var inFuture = ledger.InFuture(file, row.Line, "observed_on", row.ObservedOn);
            if (place is { } at && taxon is not null && !inFuture)
            {
                Store(stored, row, at.Block, at.Yard, taxon.Id);
            }
        }
    }

    private (long Block, long? Yard)? Place(string file, InfestationRow row)
    {
        if (row.Yard.Length > 0)
        {
            if (book.Yard(row.Yard) is not { } yard)
            {
                PlaceImport.UnknownYard(ledger, book, file, row.Line, row.Yard);
                return null;
            }

            if (row.AreaSquareMetres > yard.AreaSquareMetres)
            {
                ledger.Refuse(file, row.Line,
                    "area_m2", $"{row.AreaSquareMetres}", $"The infestation is larger than its yard, which is {yard.AreaSquareMetres} m².",
                        "Give the infested area in m², or name the block alone where it reaches over several yards.");
                return null;
            }

            return (yard.BlockId, yard.Id);
        }

        IReadOnlyList<StreetBlock> blocks = book.FindBlocks(row.Block);
        if (blocks.Count == 1)
        {
            return (blocks[0].Id, null);
        }

        ledger.Refuse(file, row.Line, "block", row.Block, blocks.Count == 0 ? "There is no block of this name."
            : "Several streets have a block of this name.",
            blocks.Count == 0 ? "Import it with places.csv or streets.geojson first, or in the same import."
                : "Write it as \"street, block\".");
        return null;
    }

    /// <summary>One record a place, taxon and day; a yard is the same place whichever block it stands on.</summary>
    private static (long Block, long? Yard, int Taxon, DateOnly Day) Key(long block, long? yard, int taxon, DateOnly day) =>
        (yard is null ? block : 0, yard, taxon, day);

    private void Store(Dictionary<(long, long?, int, DateOnly), InfestationRecord> stored, InfestationRow row, long block, long? yard,
        int taxon)
    {
        var key = Key(block, yard, taxon, row.ObservedOn);
        var added = !stored.TryGetValue(key, out var record);
        record ??= new InfestationRecord
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            BlockId = block,
            YardId = yard,
            TaxonId = taxon,
            ObservedOn = row.ObservedOn,
            RecordedAtUtc = DateTime.UtcNow
        };
        var before = (record.AreaSquareMetres, record.CoverPercent, record.GrowthStage, record.Remarks);
        (record.AreaSquareMetres, record.CoverPercent, record.GrowthStage, record.Remarks) = (row.AreaSquareMetres, row.CoverPercent ?? 0,
            row.GrowthStage, row.Remarks);
        if (added)
        {
            stored[key] = record;
            db.Infestations.Add(record);
        }

        ledger.Count("infestations", added, (record.AreaSquareMetres, record.CoverPercent, record.GrowthStage, record.Remarks) != before);
    }
}
