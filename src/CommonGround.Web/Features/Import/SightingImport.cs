using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Record;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Sightings: one record of a bed, taxon, patch and day; a later row of the same four holds.</summary>
internal sealed class SightingImport(CommonGroundDb db, PlaceLookup book, TaxonLookup names, ImportFindings ledger, ImportedSince since)
{
    private const int LongestObserver = 200, ReportEvery = 500;
    private Dictionary<(long Bed, int Taxon, string Patch, DateOnly Day), Sighting> stored = [];

    public async Task TakeAsync(IReadOnlyList<ImportFile> files, Action<double> progress, CancellationToken cancel)
    {
        var rows = files.SelectMany(f => f.Sightings.Select(s => (f.FileName, Row: s))).ToList();
        if (rows.Count == 0)
        {
            return;
        }

        var yardIds = rows.Select(r => book.Yard(r.Row.Yard)?.Id).OfType<long>().Distinct().ToList();
        var known = await db.Sightings.Where(s => yardIds.Contains(s.YardId)).ToListAsync(cancel);
        stored = known.ToDictionary(s => (s.BedId, s.TaxonId, s.Patch, s.ObservedOn));
        // Where the places or beds file itself has errors, its yards are missing here through no fault of these rows.
        var placesBroken = files.Any(f => f.Errors.Count > 0 && f.Kind is ImportKind.Places or ImportKind.Beds);
        foreach (var (index, (file, row)) in rows.Index())
        {
            cancel.ThrowIfCancellationRequested();
            Take(file, row, placesBroken);
            if (index % ReportEvery == 0)
            {
                progress((double)index / rows.Count);
            }
        }
    }

    private void Take(string file, SightingRow row, bool placesBroken)
    {
        var yard = book.Yard(row.Yard);
        if (yard is null && !placesBroken)
        {
            PlaceImport.UnknownYard(ledger, book, file, row.Line, row.Yard);
        }

        var taxon = names.Resolve(row.Name, file, row.Line, ledger);
        var inFuture = ledger.InFuture(file, row.Line, "observed_on", row.ObservedOn);
        var observerTooLong = ledger.TooLong(file, row.Line, "observer", row.Observer, LongestObserver);
        var labelTooLong = ledger.TooLong(file, row.Line, "patch", row.Patch, Sighting.LongestPatch) | ledger.TooLong(file, row.Line,
            "verified_by", row.VerifiedBy, LongestObserver)
            | ledger.TooLong(file, row.Line, "place_in_bed", row.PlaceInBed, Sighting.LongestPlace);
        if (yard is null || taxon is null || inFuture || observerTooLong || labelTooLong
            || Cover(file, row, yard, names.TraitsOf(taxon)) is not { } cover)
        {
            return;
        }

        Store(row, yard, Bed(yard, row.Bed), taxon, cover);
    }

    /// <summary>The cover as given, or from the count; null after an error.</summary>
    private double? Cover(string file, SightingRow row, Yard yard, CatalogueTaxon taxon)
    {
        var cover = row.CoverSquareMetres ?? PlantingDraft.CoverFromCount(row.Count ?? 0, taxon);
        if (cover is null)
        {
            ledger.Refuse(file, row.Line,
                "count", $"{row.Count}", $"The catalogue has no spacing for {taxon.ScientificName}, so a count does not tell its cover.",
                    "Give cover_m2 as well.");
            return null;
        }

        var bed = book.Bed(yard, row.Bed);
        var room = bed?.AreaSquareMetres ?? yard.AreaSquareMetres;
        if (cover > room)
        {
            var column = row.CoverSquareMetres is null ? "count" : "cover_m2";
            var what = bed?.AreaSquareMetres is null ? $"the yard, which is {room} m²" : $"the bed, which is {room} m²";
            ledger.Refuse(file, row.Line, column, $"{row.CoverSquareMetres ?? row.Count}", $"{cover:0.##} m² is more than {what}.",
                "Give the ground this plant covers in m², or correct the bed's area in beds.csv.");
            return null;
        }

        return cover;
    }

    private Bed Bed(Yard yard, string name)
    {
        if (book.Bed(yard, name) is { } known)
        {
            return known;
        }

        var bed = new Bed { NeighbourhoodId = book.NeighbourhoodId, Id = RowIds.Next(), YardId = yard.Id, Name = name.Trim() };
        book.Add(bed);
        ledger.Count("beds", added: true, changed: false);
        return bed;
    }

    private void Store(SightingRow row, Yard yard, Bed bed, Taxon taxon, double cover)
    {
        var key = (bed.Id, taxon.Id, row.Patch, row.ObservedOn);
        var added = !stored.TryGetValue(key, out var sighting);
        sighting ??= new Sighting
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            YardId = yard.Id,
            BedId = bed.Id,
            TaxonId = taxon.Id,
            Patch = row.Patch,
            ObservedOn = row.ObservedOn
        };
        var before = Facts(sighting);
        sighting.CoverSquareMetres = cover;
        sighting.Count = row.Count;
        sighting.CoverDerived = row.CoverSquareMetres is null;
        sighting.Qualifier = row.Name.Qualifier;
        sighting.Finding = row.Finding;
        // What the file does not tell stays as it is known.
        bool Told(string column) => added || !row.Untold.Contains(column);
        sighting.Origin = Told("origin") ? row.Origin : sighting.Origin;
        sighting.Certainty = Told("certainty") || row.Name.Qualifier.Length > 0 ? row.Certainty : sighting.Certainty;
        sighting.GrowthStage = Told("growth_stage") ? row.GrowthStage : sighting.GrowthStage;
        sighting.Observer = Told("observer") ? row.Observer : sighting.Observer;
        sighting.Remarks = Told("remarks") ? row.Remarks : sighting.Remarks;
        sighting.VerifiedBy = Told("verified_by") ? row.VerifiedBy : sighting.VerifiedBy;
        sighting.PlaceInBed = Told("place_in_bed") ? row.PlaceInBed : sighting.PlaceInBed;
        sighting.SeedCollectedGrams = Told("seed_g") ? row.SeedGrams : sighting.SeedCollectedGrams;
        var changed = Facts(sighting) != before;
        if (added)
        {
            stored[key] = sighting;
            sighting.RecordedAtUtc = DateTime.UtcNow;
            db.Sightings.Add(sighting);
        }
        else if (changed && db.Entry(sighting).State != EntityState.Added)
        {
            sighting.RecordedAtUtc = DateTime.UtcNow;
        }

        since.Brought(sighting);
        if ((added || changed) && db.Entry(bed).State == EntityState.Unchanged)
        {
            since.Renew(bed.Id);
        }

        ledger.Count("sightings", added, changed);
    }

    private static (double, int?, bool, Origin, Certainty, string, int?, string, string, Finding, string, string, double?) Facts(
        Sighting s) => (s.CoverSquareMetres, s.Count, s.CoverDerived, s.Origin, s.Certainty, s.Qualifier, s.GrowthStage, s.Observer,
            s.Remarks, s.Finding, s.VerifiedBy, s.PlaceInBed, s.SeedCollectedGrams);
}
