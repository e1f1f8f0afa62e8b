using System.IO.Compression;
using System.Text.Json;
using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Everything the site holds about one person, as files a person and a program can read.</summary>
public sealed class PersonalData(IDbContextFactory<CommonGroundDb> database, Neighbourhoods neighbourhoods, SiteOptions options)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter() }
    };

    public async Task WriteAsync(long accountId, Stream to, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var account = await db.Users.AsNoTracking().SingleAsync(a => a.Id == accountId, cancel);
        using var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true);
        await AddAsync(zip, "account.json", new
        {
            account.Name,
            account.UserName,
            account.Email,
            account.EmailConfirmed,
            account.CreatedAtUtc,
            account.TwoFactorEnabled,
            account.DeletionAskedAtUtc,
            sessions = await db.Sessions.Where(s => s.AccountId == accountId)
            .Select(s => new { s.StartedAtUtc, s.SeenAtUtc, s.Device, s.From }).ToListAsync(cancel),
        }, cancel);
        foreach (var member in await db.Members.AcrossNeighbourhoods().AsNoTracking().Where(m => m.AccountId == accountId)
            .ToListAsync(cancel))
        {
            db.In(member.NeighbourhoodId);
            var folder = $"{member.NeighbourhoodId}-{FileName(neighbourhoods.Find(member.NeighbourhoodId)?.Neighbourhood.Name ?? "")}/";
            var taxa = await db.Taxa.ToDictionaryAsync(t => t.Id, t => t.ScientificName, cancel);
            var changes = await db.Changes.Where(c => c.MemberId == member.Id).OrderBy(c => c.Id)
                .Select(c => new { c.AtUtc, c.What, c.From }).ToListAsync(cancel);
            var notes = await db.PlantNotes.AsNoTracking().Where(n => n.WrittenById == member.Id).OrderBy(n => n.WrittenAtUtc)
                .ToListAsync(cancel);
            var values = await db.PlantOverrides.AsNoTracking().Where(o => o.SetById == member.Id).OrderBy(o => o.SetAtUtc)
                .ToListAsync(cancel);
            await AddAsync(zip, folder + "membership.json", new
            {
                member.Name,
                member.Role,
                changes,
                plantNotes = notes.Select(n => new
                {
                    scientificName = taxa[n.TaxonId],
                    n.Trait,
                    n.Text,
                    n.WrittenAtUtc,
                    n.ClosedAtUtc,
                    n.Answer
                }),
                plantValues = values.Select(o => new { scientificName = taxa[o.TaxonId], o.Trait, o.Value, o.Reason, o.SetAtUtc }),
            }, cancel);
            foreach (var yard in await db.Yards.AsNoTracking().Where(y => y.OwnerId == member.Id).ToListAsync(cancel))
            {
                var beds = await db.Beds.AsNoTracking().Where(b => b.YardId == yard.Id).ToDictionaryAsync(b => b.Id, cancel);
                var sightings = await db.Sightings.AsNoTracking().Where(s => s.YardId == yard.Id).OrderBy(s => s.ObservedOn)
                    .ToListAsync(cancel);
                var infestations = await db.Infestations.AsNoTracking().Where(i => i.YardId == yard.Id).OrderBy(i => i.ObservedOn)
                    .ToListAsync(cancel);
                var treatments = await db.Treatments.AsNoTracking().Where(t => t.YardId == yard.Id).OrderBy(t => t.TreatedOn)
                    .ToListAsync(cancel);
                var steps = await db.CaseSteps.AsNoTracking().Where(s => s.YardId == yard.Id).OrderBy(s => s.SaidOn).ToListAsync(cancel);
                var wildlife = await db.Wildlife.AsNoTracking().Where(w => w.YardId == yard.Id).OrderBy(w => w.ObservedOn)
                    .ToListAsync(cancel);
                var photos = await db.Photos.AsNoTracking().Where(p => p.YardId == yard.Id).ToListAsync(cancel);
                await AddAsync(zip, $"{folder}yard-{FileName(yard.Code)}.json", new
                {
                    yard.Code,
                    yard.Household,
                    yard.Latitude,
                    yard.Longitude,
                    yard.AreaSquareMetres,
                    yard.LawnSquareMetres,
                    yard.Light,
                    yard.Moisture,
                    yard.SoilGroup,
                    yard.RegisteredOn,
                    consents = new { yard.Shared, yard.OnMap, yard.PhotosShared, yard.OnTour, yard.WouldPlant },
                    yard.Directions,
                    yard.TourLine,
                    beds = beds.Values.Select(b => new { b.Name, b.AreaSquareMetres, b.EstablishedOn, b.Light, b.Moisture }),
                    sightings = sightings.Select(s => new
                    {
                        bed = beds[s.BedId].Name,
                        scientificName = taxa[s.TaxonId],
                        s.ObservedOn,
                        s.CoverSquareMetres,
                        s.Count,
                        s.Origin,
                        s.Certainty,
                        s.Qualifier,
                        s.GrowthStage,
                        s.Observer,
                        s.Remarks,
                        s.Patch,
                        s.Finding,
                        s.VerifiedBy,
                        s.PlaceInBed,
                        s.SeedCollectedGrams
                    }),
                    infestations = infestations.Select(i => new
                    {
                        scientificName = taxa[i.TaxonId],
                        i.ObservedOn,
                        i.AreaSquareMetres,
                        i.CoverPercent,
                        i.GrowthStage,
                        i.Remarks
                    }),
                    treatments = treatments.Select(t => new
                    {
                        scientificName = taxa[t.TaxonId],
                        t.TreatedOn,
                        t.Method,
                        t.AreaSquareMetres,
                        t.PersonHours,
                        t.Who,
                        t.LabelFollowed,
                        t.Qualification,
                        t.Remarks
                    }),
                    caseSteps = steps.Select(s => new { scientificName = taxa[s.TaxonId], s.Kind, s.SaidOn, s.Until, s.Reason, s.Who }),
                    walks = await db.Walks.Where(w => w.YardId == yard.Id).OrderBy(w => w.WalkedOn)
                        .Select(w => new { w.WalkedOn, w.Minutes, w.Looked, w.Observer }).ToListAsync(cancel),
                    wildlife = wildlife.Select(w => new
                    {
                        w.ObservedOn,
                        w.Kind,
                        w.CountClass,
                        w.Name,
                        scientificName = w.TaxonId is { } t
                        ? taxa[t] : null,
                        w.Observer
                    }),
                    plans = await db.Plans.Where(p => p.YardId == yard.Id).Select(p => new { p.Number, p.MadeOn, p.Request, p.Shares })
                    .ToListAsync(cancel),
                    photos = photos.Select(p => new { p.FileName, p.Caption, p.TakenOn }),
                }, cancel);
                foreach (var path in photos.Select(p => Path.Combine(options.PhotoFolder, p.FileName)).Where(File.Exists))
                {
                    await zip.CreateEntryFromFileAsync(path, $"{folder}photos/{Path.GetFileName(path)}", cancel);
                }
            }
        }
    }

    private static async Task AddAsync(ZipArchive zip, string name, object what, CancellationToken cancel)
    {
        await using var entry = await zip.CreateEntry(name).OpenAsync(cancel);
        await JsonSerializer.SerializeAsync(entry, what, Json, cancel);
    }

    private static string FileName(string name) => new([.. name.Select(c => char.IsLetterOrDigit(c) || c == '-' ? c : '-')]);
}
