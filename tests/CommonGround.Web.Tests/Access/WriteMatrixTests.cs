using System.Reflection;
using CommonGround.Interchange;
using CommonGround.Interchange.Walks;
using CommonGround.Planning.Conversion;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Invasives;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.More;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Regions;
using CommonGround.Web.Features.Tours;
using CommonGround.Web.Features.Walks;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Every write, called past all pages as every role on one's own yard and another's, refuses exactly as the table says, and then
/// writes nothing (ASVS 5.0, 8.3.1).</summary>
public sealed partial class WriteMatrixTests(FreshSite site) : IClassFixture<FreshSite>
{
    private static readonly Role[] Roles = [Role.Visitor, Role.Member, Role.Organiser, Role.Administrator];

    /// <summary>What a write is done to: a yard just registered, a change its household just made, a fellow member, an open
    /// invitation.</summary>
    internal sealed record Target(Registered Yard, long Change, long Member, long Invitation, ConversionPlan Plan, long Photo,
        long Sighting, long Tour);

    /// <summary>A write: what it is for, and its call with input that is right; the problems, where it was refused.</summary>
    internal sealed record Write(string Name, Permission Permission, bool OfAYard,
        Func<AsyncServiceScope, Target, CurrentUser, Task<IReadOnlyList<Problem>>> Problems);

    internal static readonly Write[] Writes =
    [
        new("RecordPlantings.SaveAsync", Permission.RecordInYard, true, RecordAsync),
        new("RecordSheetRows.SaveAsync", Permission.RecordInYard, true, SheetAsync),
        new("CorrectSighting.SaveAsync", Permission.RecordInYard, true, CorrectAsync),
        new("CorrectSighting.NeverWasAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<CorrectSighting>()
            .NeverWasAsync(t.Sighting, await VersionAsync(s, t), wholePlanting: true, by)),
        new("AddBed.SaveAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<AddBed>().SaveAsync(t.Yard.Id, "Side bed",
            "", by)),
        new("ReceiveWalk.SaveAsync", Permission.RecordInYard, true, async (s, t, by) =>
            Refusals(await s.Get<ReceiveWalk>().SaveAsync(new(DateTime.UtcNow, [await LookAsync(s, t, by)]), by))),
        new("WalkDisputes.ChooseAsync", Permission.RecordInYard, true, async (s, t, by) =>
        {
            var look = await LookAsync(s, t, by);
            DisputeSide side = new(by.Name, true, [look.Id], look.Look!);
            return await s.Get<WalkDisputes>().ChooseAsync(new(t.Yard.Code, look.BedId, "", look.Taxon, "", "",
                DateOnly.FromDateTime(DateTime.UtcNow), t.Sighting, [side]), side, by);
        }),
        new("ReceivePhoto.SaveAsync", Permission.RecordInYard, true, async (s, t, by) =>
            Refusals(new([await s.Get<ReceivePhoto>().SaveAsync(await LookAsync(s, t, by) with { Kind = WalkNoteKind.Photo, Look = null,
            Photo = new(new(2026, 8, 1), "") }, DateTime.UtcNow, File(Neighbours.Picture), by)], []))),
        new("ReportInfestation.SaveAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<ReportInfestation>()
            .SaveAsync(Mustard(t), new() { SeenOn = new(2026, 5, 2), AreaSquareMetres = 1 }, by)),
        new("LogTreatment.SaveAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<LogTreatment>()
            .SaveAsync(Mustard(t), new() { TreatedOn = new(2026, 5, 3) }, by)),
        new("CaseSteps.MoveAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<CaseSteps>()
            .MoveAsync(Mustard(t), s.Get<GroupClock>().Today.AddDays(9), "", by)),
        new("CaseSteps.CloseAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<CaseSteps>()
            .CloseAsync(Mustard(t), "paved over", by)),
        new("CaseSteps.OpenAsync", Permission.RecordInYard, true, async (s, t, by) => await s.Get<CaseSteps>()
            .OpenAsync(Thistle(t), "", by)),
        new("SavedPlans.KeepAsync", Permission.RecordInYard, true,
            async (s, t, by) => (await s.Get<SavedPlans>().KeepAsync(t.Yard.Id, t.Plan, by)).Problems),
        new("YardSettings.ConsentAsync", Permission.KeepYard, true, async (s, t, by) => await s.Get<YardSettings>().ConsentAsync(t.Yard.Id,
            new Consents(false, false, false), by)),
        new("YardSettings.TourWordsAsync", Permission.KeepYard, true, async (s, t, by) => await s.Get<YardSettings>()
            .TourWordsAsync(t.Yard.Id, "", "It began with one bergamot.", by)),
        new("YardSettings.SaveAsync", Permission.KeepYard, true, FactsAsync),
        new("YardSettings.TakeOutAsync", Permission.KeepYard, true, async (s, t, by) => await s.Get<YardSettings>().TakeOutAsync(t.Yard.Id,
            by)),
        new("YardPhotos.AddAsync", Permission.KeepYard, true, async (s, t, by) => await s.Get<YardPhotos>().AddAsync(t.Yard.Id,
            new PhotoDraft { TakenOn = new(2026, 8, 1) }, Neighbours.Picture, by)),
        new("YardPhotos.RemoveAsync", Permission.KeepYard, true, async (s, t, by) => await s.Get<YardPhotos>().RemoveAsync(t.Photo, by)),
        new("UndoChange.UndoAsync", Permission.SeeHistory, true, async (s, t, by) => await s.Get<UndoChange>().UndoAsync(t.Change, by)),
        new("RegisterYard.SaveAsync", Permission.RegisterYard, false,
            async (s, t, by) => await s.Get<RegisterYard>().SaveAsync(Neighbours.Draft((await s.Get<RegisterYard>().BlocksAsync())[0].Id,
                "N-" + Guid.NewGuid().ToString("N")[..8]), by)),
        new("PlantNotes.WriteAsync", Permission.DoubtPlant, false,
            async (s, t, by) => await s.Get<PlantNotes>().WriteAsync("Monarda fistulosa", "light", "It grows in shade here.", by)),
        new("PlantNotes.CloseAsync", Permission.OverridePlant, false, CloseNoteAsync),
        new("PlantOverrides.SetAsync", Permission.OverridePlant, false, OverrideAsync),
        new("PlantOverrides.RemoveAsync", Permission.OverridePlant, false,
            async (s, t, by) => await s.Get<PlantOverrides>().RemoveAsync("Monarda fistulosa", "spacing_m", by)),
        new("SaveRules.SaveAsync", Permission.Organise, false,
            async (s, t, by) => await s.Get<SaveRules>().SaveAsync((await s.Get<LiveCommunity>().LoadedAsync()).Rules, by)),
        new("GroupPrices.SaveAsync", Permission.Organise, false,
            async (s, t, by) => await s.Get<GroupPrices>().SaveAsync(await s.Get<GroupPrices>().ReadAsync(), [], by)),
        new("People.GiveYardAsync", Permission.Organise, false, async (s, t, by) => await s.Get<People>().GiveYardAsync(t.Yard.Code,
            t.Member, by)),
        new("GroupSettings.AddBlockAsync", Permission.Organise, false,
            async (s, t, by) => await s.Get<GroupSettings>().AddBlockAsync("Kiln Street", Guid.NewGuid().ToString(), 41, -88, by)),
        new("KeepTour.SaveAsync", Permission.Organise, false, async (s, t, by) => (await s.Get<KeepTour>().SaveAsync(
            new() { On = s.Get<GroupClock>().Today, Place = "Lathe Street" }, by)).Problems),
        new("KeepTour.EndAsync", Permission.Organise, false, async (s, t, by) => await s.Get<KeepTour>().EndAsync(t.Tour, by)),
        new("KeepDrawing.SaveAsync", Permission.Organise, false, DrawAsync),
        new("Invitations.MakeAsync", Permission.Invite, false,
            async (s, t, by) => (await s.Get<Invitations>().MakeAsync(Role.Member, "a neighbour", by)).Problems),
        new("Invitations.MakeManyAsync", Permission.Invite, false,
            async (s, t, by) => (await s.Get<Invitations>().MakeManyAsync(Role.Member, ["a neighbour", "another"], by)).Problems),
        new("Invitations.WithdrawAsync", Permission.Invite, false,
            async (s, t, by) => await s.Get<Invitations>().WithdrawAsync(t.Invitation, by)),
        new("People.SetRoleAsync", Permission.Administer, false,
            async (s, t, by) => await s.Get<People>().SetRoleAsync(t.Member, Role.Visitor, by)),
        new("GroupSettings.SaveAsync", Permission.Administer, false,
            async (s, t, by) => await s.Get<GroupSettings>()
                .SaveAsync(await s.Get<GroupSettings>().FactsAsync() with { Name = "Group " + Guid.NewGuid().ToString("N") }, by)),
        new("RegionSettings.SaveAsync", Permission.Administer, false,
            async (s, t, by) => await s.Get<RegionSettings>().SaveAsync(new PlaceDraft { State = "MO", Latitude = "37.21",
                Longitude = "-93.29", PlaceName = Guid.NewGuid().ToString("N") }, by)),
        new("GroupSettings.AddNeighbourhoodAsync", Permission.Administer, false,
            async (s, t, by) => await s.Get<GroupSettings>().AddNeighbourhoodAsync("Further off", "America/Chicago", by)),
    ];

    [Fact]
    public void Every_write_that_asks_who_does_it_is_in_this_test()
    {
        var found = typeof(AccessTable).Assembly.GetTypes().Where(t => t.Namespace?.StartsWith("CommonGround.Web.Features",
            StringComparison.Ordinal) == true && t is { IsClass: true, IsPublic: true })
            .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
            .Where(m => m.GetParameters().Any(p => p.ParameterType == typeof(CurrentUser) && p.Name == "by"))
            .Select(m => $"{m.DeclaringType!.Name}.{m.Name}");
        found.ShouldBe(Writes.Select(w => w.Name), ignoreOrder: true);
    }

    [Fact]
    public async Task Every_write_refuses_every_role_as_the_table_says_and_writes_nothing_then()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        var household = await site.ViewerAsync(fellow.Email);
        var actors = new List<CurrentUser>();
        foreach (var role in Roles)
        {
            using var who = role == Role.Visitor ? null : await site.JoinAsync(role);
            actors.Add(who is null ? new CurrentUser(Role.Visitor, null, "a visitor", false) : await site.ViewerAsync(who.Email));
        }

        var plan = await site.PlanAsync(await site.RegisterAsync(household), household);
        var wrong = new List<string>();
        foreach (var write in Writes)
        {
            foreach (var (by, own) in actors.SelectMany(a => write.OfAYard && a.MemberId is not null ? new[] { (a, true), (a, false) }
                : [(a, false)]))
            {
                var target = await TargetAsync(site, own ? by : household, plan);
                var before = await WrittenAsync();
                await using var scope = site.Stand();
                var refused = (await write.Problems(scope, target, by)).Count > 0;
                var allowed = AccessTable.Allows(write.Permission, by.Role, own);
                if (refused == allowed || (refused && before != await WrittenAsync()))
                {
                    wrong.Add($"{write.Name} as {by.Role} on {(own ? "their own" : "another's")}: {(refused ? "refused" : "done")}");
                }
            }
        }

        wrong.ShouldBeEmpty();
    }

    [Fact]
    public async Task Files_are_brought_by_organisers_alone()
    {
        foreach (var role in Roles)
        {
            using var who = role == Role.Visitor ? null : await site.JoinAsync(role);
            var by = who is null ? new CurrentUser(Role.Visitor, null, "a visitor", false) : await site.ViewerAsync(who.Email);
            await using var scope = site.Stand();
            var before = await WrittenAsync();
            var file = ImportFile.Read("places.csv",
                System.Text.Encoding.UTF8
                    .GetBytes($"street,block,yard,latitude,longitude,yard_m2\nMill Street,A to B,M-{role},41.5,-88.5,100\n"));
            var outcome = await scope.Get<ImportFiles>().RunAsync([file],
                new ImportChoices(false, false, new DateOnly(2026, 8, 19)) { By = by.Note("brought a file") }, null,
                    CancellationToken.None);
            (outcome.Errors.Count == 0).ShouldBe(AccessTable.Allows(Permission.Organise, role, own: false), role.ToString());
            (before != await WrittenAsync()).ShouldBe(outcome.Errors.Count == 0, role.ToString());
        }
    }

    [Fact]
    public async Task Consent_is_given_by_the_household_itself_and_withdrawn_by_organisers_too()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var helper = await site.JoinAsync(Role.Organiser);
        var (household, organiser) = (await site.ViewerAsync(fellow.Email), await site.ViewerAsync(helper.Email));
        var yard = await site.RegisterAsync(household);
        await using var scope = site.Stand();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new Consents(true, true, true), organiser)).ShouldNotBeEmpty();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new Consents(true, true, true), household)).ShouldBeEmpty();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new Consents(false, true, true), organiser)).ShouldBeEmpty();
    }

    [Theory]
    [InlineData(Role.Organiser)]
    [InlineData(Role.Administrator)]
    public async Task An_organiser_makes_nobody_more_than_a_member(Role wanted)
    {
        using var who = await site.JoinAsync(Role.Organiser);
        var by = await site.ViewerAsync(who.Email);
        await using var scope = site.Stand();
        (await scope.Get<Invitations>().MakeAsync(wanted, "a friend", by)).Made.ShouldBeNull();
        (await scope.Get<People>().SetRoleAsync(by.MemberId!.Value, wanted == Role.Organiser ? Role.Member : wanted,
            by)).ShouldNotBeEmpty();
    }

    internal static async Task<Target> TargetAsync(Site site, CurrentUser owner, ConversionPlan plan)
    {
        var yard = await site.RegisterAsync(owner);
        await using var scope = site.Stand();
        (await scope.Get<AddBed>().SaveAsync(yard.Id, "Back bed", "", owner)).ShouldBeEmpty();
        var change = await site.AskAsync(db => db.Changes.OrderByDescending(c => c.Id).FirstAsync(c => c.MemberId == owner.MemberId));
        using var other = await site.JoinAsync(Role.Member);
        var member = (await site.ViewerAsync(other.Email)).MemberId!.Value;
        var administrator = await site.AskAsync(db => db.Members.FirstAsync(m => m.Role == Role.Administrator));
        (await scope.Get<Invitations>().MakeAsync(Role.Member, "somebody else",
            new CurrentUser(Role.Administrator, administrator.Id, "Ada", false))).Made.ShouldNotBeNull();
        var invitation = await site.AskAsync(db => db.Invitations.OrderByDescending(i => i.Id).FirstAsync(i => i.UsedAtUtc == null));
        // An open note to close, and a value of the group to take back.
        var organiser = new CurrentUser(Role.Administrator, administrator.Id, "Ada", false);
        if ((await scope.Get<PlantNotes>().OpenAsync(organiser)).Count == 0)
        {
            (await scope.Get<PlantNotes>().WriteAsync("Monarda fistulosa", "light", "It grows in shade here.", organiser)).ShouldBeEmpty();
        }

        if (await OverriddenAsync(scope, "spacing_m") is null)
        {
            (await scope.Get<PlantOverrides>().SetAsync("Monarda fistulosa", "spacing_m", "0.5", "measured in five yards", null,
                organiser)).ShouldBeEmpty();
        }

        await InfestAsync(scope, yard, owner);
        return new Target(yard, change.Id, member, invitation.Id, plan, await site.AddPhotoAsync(yard, owner),
            await SightingAsync(scope, yard.Id, owner), await TourAsync(scope, organiser));
    }

    /// <summary>A tour of the street that every registered yard stands on.</summary>
    private static async Task<long> TourAsync(AsyncServiceScope scope, CurrentUser organiser)
    {
        var (key, problems) = await scope.Get<KeepTour>().SaveAsync(new() { On = scope.Get<GroupClock>().Today, Place = "Lathe Street" },
            organiser);
        problems.ShouldBeEmpty();
        return (await scope.Get<TourQueries>().ListAsync()).Single(t => t.Key == key).Id;
    }

    /// <summary>A look at the planting that no other write is about, as a phone of theirs would send it.</summary>
    private static async Task<WalkNote> LookAsync(AsyncServiceScope scope, Target target, CurrentUser by)
    {
        await using var db = await scope.Get<IDbContextFactory<Storage.CommonGroundDb>>().In(1).CreateDbContextAsync();
        var bed = await db.Sightings.Where(s => s.Id == target.Sighting).Select(s => s.BedId).SingleAsync();
        return new(Guid.NewGuid(), Guid.NewGuid(), WalkNoteKind.Look, by.MemberId, 1, DateTime.UtcNow, DateTime.UtcNow,
            target.Yard.Code)
        { BedId = bed, Taxon = "Symphyotrichum laeve", Look = new() { GrowthStage = 6 } };
    }

    private static IReadOnlyList<Problem> Refusals(WalkAnswer answer) =>
        [.. answer.Receipts.Where(r => r.State == ReceiptState.Refused).Select(r => new Problem("", r.Message))];

    private static Microsoft.AspNetCore.Http.FormFile File(byte[] bytes) =>
        new(new MemoryStream(bytes), 0, bytes.Length, "photo", "photo.jpg");

    private Task<int> WrittenAsync() => site.AskAsync(db => db.Changes.CountAsync());
}
