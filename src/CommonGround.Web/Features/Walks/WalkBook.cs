using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Walks;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>The part of the record that a batch of notes touches, while they are stored in it.</summary>
internal sealed class WalkBook(CommonGroundDb db, int neighbourhoodId, CurrentUser by, GroupClock clock, LoadedCommunity loaded)
{
    private readonly Dictionary<(long Yard, long Bed, int Taxon, string Patch), PlantingDays> plantings = [];
    private readonly Dictionary<long, Bed> beds = [];
    private readonly Dictionary<int, CatalogueTaxon> taxa = loaded.TaxonIndex.ToDictionary(t => t.Key, t => loaded.Matrix.Taxa[t.Value]);
    private readonly Dictionary<string, int> taxonIds = loaded.TaxonIndex.GroupBy(t => loaded.Matrix.Taxa[t.Value].ScientificName,
        StringComparer.OrdinalIgnoreCase)
        .ToDictionary(g => g.Key, g => g.Min(t => t.Key), StringComparer.OrdinalIgnoreCase);
    private readonly List<(Yard Yard, PlantingDays Planting, Sighting Row)> touched = [];
    private List<Sighting> seen = [];
    private List<ReceivedNote> received = [];

    public CommonGroundDb Db => db;

    public CurrentUser By => by;

    public GroupClock Clock => clock;

    public int NeighbourhoodId => neighbourhoodId;

    public List<Guid> Stored { get; } = [];

    public HashSet<string> Yards { get; } = [];

    /// <summary>The taxon of a name; null where the record has none of it.</summary>
    public int? TaxonId(string name) => taxonIds.TryGetValue(name, out var id) ? id : null;

    public CatalogueTaxon Taxon(int id) => taxa[id];

    public Bed? BedOf(long id) => beds.GetValueOrDefault(id);

    /// <summary>Reads what the notes of a yard are about.</summary>
    public async Task OpenAsync(Yard yard, IReadOnlyList<WalkNote> notes, CancellationToken cancel)
    {
        foreach (var bed in await db.Beds.Where(b => b.YardId == yard.Id).ToListAsync(cancel))
        {
            beds[bed.Id] = bed;
        }

        var looks = notes.Where(n => n.Kind == WalkNoteKind.Look).ToList();
        var last = looks.Where(n => n.LastSightingId is not null).Select(n => n.LastSightingId!.Value).ToHashSet();
        var named = looks.Select(n => TaxonId(n.Taxon)).OfType<int>().ToHashSet();
        // A planting that was renamed since is found by the sighting it was last seen in.
        named.UnionWith(await db.Sightings.Where(s => s.YardId == yard.Id && last.Contains(s.Id)).Select(s => s.TaxonId)
            .ToListAsync(cancel));
        var back = notes.SelectMany(n => n.Over).ToHashSet();
        var backRows = await db.ReceivedNotes.Where(r => r.YardId == yard.Id && back.Contains(r.ClientId)).Select(r => r.RowId)
            .ToListAsync(cancel);
        named.UnionWith(await db.Sightings.Where(s => s.YardId == yard.Id && backRows.Contains(s.Id)).Select(s => s.TaxonId)
            .ToListAsync(cancel));
        seen = await db.Sightings.Where(s => s.YardId == yard.Id && named.Contains(s.TaxonId)).ToListAsync(cancel);
        var rows = seen.ConvertAll(s => (long?)s.Id);
        received = await db.ReceivedNotes.Where(r => r.YardId == yard.Id
            && (r.RowId == null || rows.Contains(r.RowId) || back.Contains(r.ClientId))).ToListAsync(cancel);
    }

    /// <summary>Stores one note; what stands against it, or null.</summary>
    public async Task<string?> StoreAsync(Yard yard, WalkNote note, WalkDay when, CancellationToken cancel)
    {
        var receipt = Received.Of(note with { SaidAtUtc = when.AtUtc }, yard.Id, null, when.AtUtc, clock.UtcNow);
        var refusal = note switch
        {
            { Kind: WalkNoteKind.Look } => await LookAsync(yard, note, receipt, when, cancel),
            _ => await new WalkSideNotes(this).StoreAsync(yard, note, receipt, when, received, cancel),
        };
        if (refusal is null)
        {
            Stored.Add(note.Id);
            Yards.Add(yard.Code);
        }

        return refusal;
    }

    private async Task<string?> LookAsync(Yard yard, WalkNote note, ReceivedNote receipt, WalkDay when, CancellationToken cancel)
    {
        if (note.Look is not { } said)
        {
            return await TakeBackAsync(yard, note, receipt, cancel);
        }

        var last = note.LastSightingId is { } id ? seen.Find(s => s.Id == id) : null;
        var bedId = last?.BedId ?? note.BedId;
        if (!beds.TryGetValue(bedId, out var bed))
        {
            return "This bed is no longer in the record. What you saw stays on this phone: record it anew in another bed, then let this go.";
        }

        if ((last?.TaxonId ?? TaxonId(note.Taxon)) is not { } taxonId)
        {
            return $"The record has no plant called “{note.Taxon}”. Record it under another name; this stays on the phone until you let "
                + $"it go.";
        }

        var patch = last?.Patch ?? note.Patch.Trim();
        var planting = PlantingOf(yard.Id, bedId, taxonId, patch);
        if (LookRules.Check(said, taxa[taxonId], planting.Before(when.Day) ?? planting.Of(when.Day), patch, when.Day, clock.Today, bed,
            yard) is { } wrong)
        {
            return wrong;
        }

        if (received.Exists(r => r.RowId is null && JsonSerializer.Deserialize(r.Said, WalkJson.Default.WalkNote)!.Over.Contains(note.Id)))
        {
            // It was taken back before it came.
            db.ReceivedNotes.Add(receipt);
            return null;
        }

        await planting.AddAsync(receipt, note, when.Day, () => NewRow(yard.Id, bedId, taxonId, patch, when), cancel);
        if (planting.Of(when.Day) is { } row)
        {
            Sign(row);
            touched.Add((yard, planting, row));
        }

        db.Entry(bed).State = EntityState.Modified;
        return null;
    }

    /// <summary>A note that only takes others back.</summary>
    private async Task<string?> TakeBackAsync(Yard yard, WalkNote note, ReceivedNote receipt, CancellationToken cancel)
    {
        var rowId = received.Find(r => note.Over.Contains(r.ClientId) && r.RowId is not null)?.RowId;
        if (seen.Find(s => s.Id == rowId) is not { } row)
        {
            db.ReceivedNotes.Add(receipt);
            received.Add(receipt);
            return null;
        }

        await PlantingOf(yard.Id, row.BedId, row.TaxonId, row.Patch)
            .AddAsync(receipt, note with { Look = null }, row.ObservedOn, () => row, cancel);
        db.Entry(beds[row.BedId]).State = EntityState.Modified;
        return null;
    }

    private PlantingDays PlantingOf(long yard, long bed, int taxon, string patch)
    {
        if (!plantings.TryGetValue((yard, bed, taxon, patch), out var planting))
        {
            var rows = seen.Where(s => s.BedId == bed && s.TaxonId == taxon && s.Patch == patch).ToList();
            var ids = rows.ConvertAll(r => (long?)r.Id).ToHashSet();
            plantings[(yard, bed, taxon, patch)] = planting = new(db, neighbourhoodId, taxa[taxon], rows,
                received.FindAll(r => r.RowId is not null && ids.Contains(r.RowId)));
        }

        return planting;
    }

    private Sighting NewRow(long yard, long bed, int taxon, string patch, WalkDay when)
    {
        var row = new Sighting
        {
            NeighbourhoodId = neighbourhoodId,
            Id = RowIds.Next(),
            YardId = yard,
            BedId = bed,
            TaxonId = taxon,
            Patch = patch,
            ObservedOn = when.Day
        };
        seen.Add(row);
        return row;
    }

    private void Sign(Sighting row)
    {
        // By the alphabet: who sends first is chance.
        var names = string.Join(", ", row.Observer.Split(", ", StringSplitOptions.RemoveEmptyEntries).Append(by.Name)
            .Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        row.Observer = names.Length <= 200 ? names : row.Observer;
        row.RecordedAtUtc = clock.UtcNow;
    }

    /// <summary>What two people said differently of the days that were touched.</summary>
    public Task<List<WalkDispute>> DisputesAsync(CancellationToken cancel) => WalkDisputes.ToldAsync(db,
        [.. touched.DistinctBy(t => t.Row.Id).Select(t => (t.Yard, t.Row, Dispute: t.Planting.DisputeOf(t.Row)))
            .Where(t => t.Dispute is not null)
            .Select(t => (t.Yard.Code, beds[t.Row.BedId].Name, taxa[t.Row.TaxonId], t.Row, t.Dispute!))], by, cancel);
}
