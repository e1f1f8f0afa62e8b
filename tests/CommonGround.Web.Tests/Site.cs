using System.Net;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests;

[CollectionDefinition(Name)]
public sealed class SiteTests : ICollectionFixture<DemoSite>, ICollectionFixture<GroupSite>
{
    public const string Name = "Sites";
}

/// <summary>The whole site on loopback with the demo neighbourhood.</summary>
public sealed class DemoSite() : Site(demo: true);

/// <summary>The whole site on loopback for a real group, which has nothing but the catalogue yet.</summary>
public sealed class GroupSite() : Site(demo: false);

/// <summary>Somebody of a real group, signed in.</summary>
/// <param name="Email">With which, and with <see cref="Site.Password"/>, they sign in.</param>
public sealed record Somebody(HttpClient Browser, string Email) : IDisposable
{
    public void Dispose() => Browser.Dispose();
}

/// <summary>The real host on Kestrel with a data folder of its own.</summary>
public abstract class Site(bool demo) : WebApplicationFactory<Program>, IAsyncLifetime
{
    private readonly TempFolder folder = new();

    /// <summary>Whether the data folder is a copy of one that was opened before, rather than an empty one that this start opens.</summary>
    protected virtual bool Prepared => true;

    public async Task InitializeAsync()
    {
        if (Prepared)
        {
            await PreparedData.FillAsync(folder.Path, demo);
        }

        UseKestrel(0);
        StartServer();
    }

    /// <summary>A browser of somebody who looks as visitor, member or organiser; it keeps cookies and follows no redirect.</summary>
    public HttpClient Browser(string? role = null)
    {
        var cookies = new CookieContainer();
        if (role is not null)
        {
            cookies.Add(ClientOptions.BaseAddress, new Cookie("cg-act", role));
        }

        var wire = new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = false };
        return new HttpClient(new WordsOfPages { InnerHandler = wire }) { BaseAddress = ClientOptions.BaseAddress };
    }

    public const string Password = "seven quiet herons";
    private const string FirstEmail = "first@quarry-bend.example";
    private readonly SemaphoreSlim beginning = new(1, 1);
    private int people;

    /// <summary>A new browser of the group's administrator, who begins the group on the first call.</summary>
    public async Task<HttpClient> AdministratorAsync()
    {
        await beginning.WaitAsync();
        try
        {
            if (await Services.GetRequiredService<FirstRunSetup>().IsNeededAsync())
            {
                using var first = Browser();
                (await PostAsync(first, "/begin", "begin", ("Draft.Code", Services.GetRequiredService<FirstRunSetup>().Code),
                    ("Draft.Group", "Our group"), ("Draft.TimeZone", "America/Chicago"), ("Draft.Name", "Ada"),
                        ("Draft.Email", FirstEmail), ("Draft.Password", Password)))
                    .StatusCode.ShouldBe(HttpStatusCode.Found);
            }
        }
        finally
        {
            beginning.Release();
        }

        var browser = Browser();
        (await SignInAsync(browser, FirstEmail)).StatusCode.ShouldBe(HttpStatusCode.Found);
        return browser;
    }

    /// <summary>Somebody new, invited as a role, who has joined.</summary>
    public async Task<Somebody> JoinAsync(Role role)
    {
        using var administrator = await AdministratorAsync();
        await using var scope = Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        await using var db = await scope.ServiceProvider.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1)
            .CreateDbContextAsync();
        var by = await db.Members.Where(m => m.Role == Role.Administrator && m.AccountId != null).OrderBy(m => m.Id)
            .Select(m => new CurrentUser(m.Role, m.Id, m.Name, false, "system")).FirstAsync();
        var email = $"p{Interlocked.Increment(ref people)}@quarry-bend.example";
        var (made, _) = await scope.ServiceProvider.GetRequiredService<Invitations>().MakeAsync(role, email, by);
        var browser = Browser();
        (await PostAsync(browser, "/join", "join", ("Draft.Code", made!.Code), ("Draft.Name", "Person " + people), ("Draft.Email", email),
            ("Draft.Password", Password))).StatusCode.ShouldBe(HttpStatusCode.Found);
        return new Somebody(browser, email);
    }

    public static Task<HttpResponseMessage> SignInAsync(HttpClient browser, string email, string password = Password) =>
        PostAsync(browser, "/sign-in", "sign-in", ("Draft.Email", email), ("Draft.Password", password));

    /// <summary>Fills in a form of a page and sends it, with what the page hid in it.</summary>
    public static async Task<HttpResponseMessage> PostAsync(HttpClient browser, string path, string form,
        params (string Name, string Value)[] fields)
    {
        ArgumentNullException.ThrowIfNull(browser);
        var token = Token(await (await browser.GetAsync(path)).Content.ReadAsStringAsync());
        using var content = new FormUrlEncodedContent([new("_handler", form), new("__RequestVerificationToken", token),
            .. fields.Select(f => new KeyValuePair<string, string>(f.Name, f.Value))]);
        return await browser.PostAsync(path, content);
    }

    /// <summary>The hidden field that a form of this site carries.</summary>
    public static string Token(string page) => page.Split("name=\"__RequestVerificationToken\" value=\"") is [_, var rest, ..]
        ? rest.Split('"')[0] : "";

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("data", folder.Path);
        // Tests come from one address all at once; the limits have a test of their own.
        builder.UseSetting("Limits:EntriesPerMinute", "10000");
        builder.UseSetting("Limits:RequestsPerMinute", "100000");
        builder.UseSetting("Limits:CircuitsPerAddress", "400");
        builder.UseSetting("no-demo", demo ? "false" : "true");
        // Hundreds of people sign in here; what a real site's passwords cost is told by Passwords.Rounds.
        builder.ConfigureTestServices(services => services.Configure<PasswordHasherOptions>(h => h.IterationCount = 1_000));
    }

    async Task IAsyncLifetime.DisposeAsync() => await DisposeAsync();

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder.Path))
        {
            folder.Dispose();
        }

        GC.SuppressFinalize(this);
    }
}
