using System.Net;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;

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

/// <summary>The real host on Kestrel with a data folder of its own.</summary>
public abstract class Site(bool demo) : WebApplicationFactory<Program>, IAsyncLifetime
{
    private readonly TempFolder folder = new();

    public Task InitializeAsync()
    {
        UseKestrel(0);
        StartServer();
        return Task.CompletedTask;
    }

    /// <summary>A browser of somebody who looks as visitor, member or organiser; it keeps cookies and follows no redirect.</summary>
    public HttpClient Browser(string? role = null)
    {
        var cookies = new CookieContainer();
        if (role is not null)
        {
            cookies.Add(ClientOptions.BaseAddress, new Cookie("cg-act", role));
        }

        return new HttpClient(new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = false }) { BaseAddress = ClientOptions.BaseAddress };
    }

    /// <summary>The hidden field that a form of this site carries.</summary>
    public static string Token(string page) => page.Split("name=\"__RequestVerificationToken\" value=\"") is [_, var rest, ..] ? rest.Split('"')[0] : "";

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("data", folder.Path);
        builder.UseSetting("no-demo", demo ? "false" : "true");
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
