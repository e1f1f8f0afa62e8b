using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Invasives;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Hosting;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>A real group's site of a test class's own.</summary>
public sealed class FreshSite() : SetSite;

/// <summary>A real group's site with settings of a test's own.</summary>
public class SetSite(params (string Name, string Value)[] settings) : Site(demo: settings.Contains(("no-demo", "false")))
{
    /// <summary>A test of what a start writes begins with an empty folder, and so does one on PostgreSQL.</summary>
    public bool FromNothing { get; init; }

    protected override bool Prepared => !FromNothing && !settings.Any(s => s.Name.StartsWith("Database:", StringComparison.Ordinal));

    public string Data => Services.GetRequiredService<SiteOptions>().DataFolder;

    /// <summary>What the log files say by now; the site may go on writing.</summary>
    public IEnumerable<string> ReadLogs()
    {
        foreach (var file in Directory.GetFiles(Path.Combine(Data, "logs")))
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var reader = new StreamReader(stream);
            yield return reader.ReadToEnd();
        }
    }

    public static async Task<SetSite> StartAsync(params (string Name, string Value)[] settings)
    {
        var site = new SetSite(settings);
        await site.InitializeAsync();
        return site;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        foreach (var (name, value) in settings)
        {
            builder.UseSetting(name, value);
        }
    }
}

/// <summary>A yard that somebody registered.</summary>
internal sealed record Registered(string Code, long Id);

/// <summary>People and yards of a real group, made by the product's own writes.</summary>
internal static class Neighbours
{
    private static int s_yards;

    public static AsyncServiceScope Stand(this Site site, int neighbourhood = 1)
    {
        var scope = site.Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(neighbourhood);
        return scope;
    }

    public static T Get<T>(this AsyncServiceScope scope) where T : notnull => scope.ServiceProvider.GetRequiredService<T>();

    public static async Task<T> AskAsync<T>(this Site site, Func<CommonGroundDb, Task<T>> ask, int neighbourhood = 1)
    {
        await using var db = await site.Services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(neighbourhood)
            .CreateDbContextAsync();
        return await ask(db);
    }

    /// <summary>Somebody as a live page knows them: role, member, account and the session they signed in with last.</summary>
    public static Task<CurrentUser> ViewerAsync(this Site site, string email, int neighbourhood = 1) => site.AskAsync(async db =>
    {
        var account = await db.Users.SingleAsync(a => a.Email == email);
        var session = await db.Sessions.Where(s => s.AccountId == account.Id).OrderByDescending(s => s.StartedAtUtc).Select(s => s.Id)
            .FirstAsync();
        var member = await db.Members.SingleOrDefaultAsync(m => m.AccountId == account.Id);
        return new CurrentUser(member?.Role ?? Role.Visitor, member?.Id, account.Name, false)
        {
            AccountId = account.Id,
            SessionId = session,
            NeighbourhoodId = neighbourhood,
            From = "192.0.2.0/24"
        };
    }, neighbourhood);

    public static async Task<Registered> RegisterAsync(this Site site, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        var number = Interlocked.Increment(ref s_yards);
        var organiser = by with { Role = Role.Organiser, SessionId = null };
        (await scope.Get<GroupSettings>().AddBlockAsync("Lathe Street", $"block {number}", 41.5, -88.5, organiser)).ShouldBeEmpty();
        var block = (await scope.Get<RegisterYard>().BlocksAsync()).Single(b => b.Block == $"block {number}").Id;
        (await scope.Get<RegisterYard>().SaveAsync(Draft(block, $"YA-{number}"), by)).ShouldBeEmpty();
        return await site.AskAsync(db => db.Yards.Where(y => y.Code == $"YA-{number}").Select(y => new Registered(y.Code, y.Id))
            .SingleAsync(), by.NeighbourhoodId);
    }

    public static YardDraft Draft(long block, string code) => new()
    {
        BlockId = block,
        Code = code,
        AreaSquareMetres = 600,
        LawnSquareMetres = 200,
        Light = Light.FullSun,
        Moisture = Moisture.Medium,
        SoilGroup = SoilGroup.C,
        Beds = [new() { Name = "Front bed", AreaSquareMetres = 20 }],
    };

    /// <summary>The smallest picture there is, of one point.</summary>
    public static byte[] Picture =>
        Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==");

    /// <summary>A photo of a yard that its household lets everybody see.</summary>
    public static async Task<long> AddPhotoAsync(this Site site, Registered yard, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        (await scope.Get<YardPhotos>().AddAsync(yard.Id, new PhotoDraft { TakenOn = new(2026, 8, 1) }, Picture, by)).ShouldBeEmpty();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new Consents(true, true, true), by)).ShouldBeEmpty();
        return await site.AskAsync(db => db.Photos.Where(p => p.YardId == yard.Id).Select(p => p.Id).SingleAsync());
    }

    /// <summary>A plan as the page would make it.</summary>
    public static async Task<Planning.Conversion.ConversionPlan> PlanAsync(this Site site, Registered yard, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        var plans = scope.Get<PlanQueries>();
        var ground = (await plans.GroundAsync(yard.Code, by))!;
        return plans.Make(ground, PlanDraft.For(ground.Facts).ToRequest(ground.Figures.Season), curve: false).Plan.ShouldNotBeNull();
    }

    /// <summary>A plant recorded in a bed of its own.</summary>
    public static async Task<long> SightingAsync(this Site site, Registered yard, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        return await WriteMatrixTests.SightingAsync(scope, yard.Id, by);
    }

    /// <summary>A case of the plant that addresses of plants are tried with, in the yard and on its block; the block.</summary>
    public static async Task<long> InfestAsync(this Site site, Registered yard, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        var block = await site.AskAsync(db => db.Yards.Where(y => y.Id == yard.Id).Select(y => y.BlockId).SingleAsync());
        var seen = new InfestationDraft { SeenOn = new(2026, 5, 1), AreaSquareMetres = 2 };
        var report = scope.Get<ReportInfestation>();
        (await report.SaveAsync(new(yard.Code, 0, "Monarda fistulosa"), seen, by)).ShouldBeEmpty();
        var keeper = await site.AskAsync(db => db.Members.FirstAsync(m => m.Role == Role.Administrator));
        (await report.SaveAsync(new("", block, "Monarda fistulosa"), seen, new(Role.Administrator, keeper.Id, "Ada", false)))
            .ShouldBeEmpty();
        return block;
    }

    /// <summary>The key of a tour through a yard whose household lets guests in.</summary>
    public static async Task<string> TourAsync(this Site site, Registered yard, CurrentUser by)
    {
        await using var scope = site.Stand(by.NeighbourhoodId);
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new(false, false, true, OnTour: true), by)).ShouldBeEmpty();
        return (await scope.Get<Web.Features.Tours.KeepTour>().SaveAsync(new()
        {
            On = scope.Get<Web.Features.Community.GroupClock>().Today,
            Place = Web.Features.Tours.KeepTour.YardPrefix + yard.Code,
        }, by with { Role = Role.Organiser, SessionId = null })).Key.ShouldNotBeNull();
    }

    public static async Task<long> KeepPlanAsync(this Site site, Registered yard, CurrentUser by)
    {
        var plan = await site.PlanAsync(yard, by);
        await using var scope = site.Stand(by.NeighbourhoodId);
        return (await scope.Get<SavedPlans>().KeepAsync(yard.Id, plan, by)).Plan.ShouldNotBeNull().Id;
    }
}
