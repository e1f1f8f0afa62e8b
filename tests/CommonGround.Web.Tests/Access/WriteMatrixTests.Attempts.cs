using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Invasives;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>How each write is asked for.</summary>
public sealed partial class WriteMatrixTests
{
    private static async Task<IReadOnlyList<Problem>> RecordAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var bed = await db.Beds.FirstAsync(b => b.YardId == target.Yard.Id && b.Name != "Seen bed");
        var taxon = (await db.Taxa.FirstAsync(t => t.ScientificName == "Monarda fistulosa")).Traits;
        var sheet = new RecordSheet(target.Yard.Id, bed.Id, bed.Version, scope.Get<GroupClock>().Today, "walker 1",
            [new PlantingDraft { Typed = taxon.ScientificName, Taxon = taxon, CoverSquareMetres = 1 }]);
        return (await scope.Get<RecordPlantings>().SaveAsync(sheet, by)).Problems;
    }

    private static async Task<IReadOnlyList<Problem>> SheetAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        var beds = (await scope.Get<YardQueries>().BedsAsync(target.Yard.Code,
            new CurrentUser(Role.Organiser, null, "an organiser", false)))!;
        var empty = SheetDraft.Order(beds).First(r => r.Planting is null && r.Bed.Name != "Seen bed");
        var draft = new SheetDraft
        {
            Day = "2026-07-01",
            Observer = "walker 1",
            Rows = [new SheetRow { Key = empty.Key, Name = "Monarda fistulosa", Cover = "1", Stage = "6" }]
        };
        return await scope.Get<RecordSheetRows>().SaveAsync(target.Yard.Code, beds, draft, by);
    }

    /// <summary>A sighting in a bed that no other write is about.</summary>
    internal static async Task<long> SightingAsync(AsyncServiceScope scope, long yardId, CurrentUser owner)
    {
        (await scope.Get<AddBed>().SaveAsync(yardId, "Seen bed", "", owner)).ShouldBeEmpty();
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var bed = await db.Beds.SingleAsync(b => b.YardId == yardId && b.Name == "Seen bed");
        var taxon = (await db.Taxa.FirstAsync(t => t.ScientificName == "Symphyotrichum laeve")).Traits;
        (await scope.Get<RecordPlantings>().SaveAsync(new RecordSheet(yardId, bed.Id, bed.Version, scope.Get<GroupClock>().Today,
            "walker 1", [new PlantingDraft { Taxon = taxon, CoverSquareMetres = 1 }]), owner)).Problems.ShouldBeEmpty();
        return await db.Sightings.Where(s => s.BedId == bed.Id).Select(s => s.Id).SingleAsync();
    }

    private static CaseAt Mustard(Target target) => new(target.Yard.Code, 0, "Alliaria petiolata");

    private static CaseAt Thistle(Target target) => new(target.Yard.Code, 0, "Cirsium arvense");

    /// <summary>An open case of garlic mustard and a closed one of Canada thistle.</summary>
    private static async Task InfestAsync(AsyncServiceScope scope, Registered yard, CurrentUser owner)
    {
        foreach (var plant in new[] { "Alliaria petiolata", "Cirsium arvense" })
        {
            (await scope.Get<ReportInfestation>().SaveAsync(new(yard.Code, 0, plant),
                new() { SeenOn = new(2026, 5, 1), AreaSquareMetres = 2 }, owner)).ShouldBeEmpty();
        }

        (await scope.Get<CaseSteps>().CloseAsync(new(yard.Code, 0, "Cirsium arvense"), "paved over", owner)).ShouldBeEmpty();
    }

    private static async Task<Guid> VersionAsync(AsyncServiceScope scope, Target target)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        return await db.Sightings.Where(s => s.Id == target.Sighting).Join(db.Beds, s => s.BedId, b => b.Id, (s, b) => b.Version)
            .SingleAsync();
    }

    private static async Task<IReadOnlyList<Problem>> CorrectAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var sighting = await db.Sightings.AsNoTracking().SingleAsync(s => s.Id == target.Sighting);
        return await scope.Get<CorrectSighting>().SaveAsync(target.Sighting, await VersionAsync(scope, target),
            Correction.Of(sighting, "Symphyotrichum laeve") with { CoverSquareMetres = 2 }, by);
    }

    private static async Task<IReadOnlyList<Problem>> CloseNoteAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var note = await db.PlantNotes.Where(n => n.ClosedAtUtc == null).OrderBy(n => n.Id).Select(n => n.Id).LastAsync();
        return await scope.Get<PlantNotes>().CloseAsync(note, "Looked up.", by);
    }

    private static async Task<OverrideLine?> OverriddenAsync(AsyncServiceScope scope, string trait) =>
        (await scope.Get<PlantOverrides>().OfAsync("Monarda fistulosa")).FirstOrDefault(o => o.Trait == trait);

    private static async Task<IReadOnlyList<Problem>> OverrideAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        var stands = await OverriddenAsync(scope, "height_max_m");
        return await scope.Get<PlantOverrides>().SetAsync("Monarda fistulosa", "height_max_m", "1.3", "measured in five yards",
            stands?.Version, by);
    }

    private static async Task<IReadOnlyList<Problem>> FactsAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var yard = await db.Yards.AsNoTracking().SingleAsync(y => y.Id == target.Yard.Id);
        var draft = Neighbours.Draft(yard.BlockId, yard.Code);
        draft.LawnSquareMetres = 150;
        return await scope.Get<YardSettings>().SaveAsync(yard.Id, yard.Version, draft, by);
    }

    private static async Task<IReadOnlyList<Problem>> DrawAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        var drawing = new StreetDrawing(await scope.Get<DrawingQueries>().LoadAsync(by));
        var place = new Interchange.GeoJson.GeoPoint(41.5, -88.5 + (Random.Shared.NextDouble() / 100));
        drawing.Press(place, 1, "Street " + Guid.NewGuid().ToString("N"));
        drawing.Press(place with { Latitude = 41.501 }, 1, "");
        return await scope.Get<KeepDrawing>().SaveAsync(drawing.Now, null, by);
    }
}
