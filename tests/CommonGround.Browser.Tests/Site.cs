using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Playwright;

namespace CommonGround.Browser.Tests;

/// <summary>The real site on loopback with its own data folder and the demo neighbourhood, and one Chromium for all tests.</summary>
public class Site : WebApplicationFactory<Program>, IAsyncLifetime
{
    private static readonly string[] Switches =
        ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync"];

    /// <summary>When a state that never comes is given up, milliseconds: far beyond what a busy machine takes.</summary>
    private const int Patience = 180_000;

    private readonly string folder = Directory.CreateTempSubdirectory("commonground-browser-").FullName;
    private IPlaywright? playwright;
    private IBrowser? browser;

    /// <summary>Whether a new folder gets the invented neighbourhood.</summary>
    protected virtual bool Demo => true;

    public string Address => ClientOptions.BaseAddress.ToString().TrimEnd('/');

    /// <summary>Where pictures of the pages go, if anyone asked for them.</summary>
    public static string? Pictures => Environment.GetEnvironmentVariable("COMMONGROUND_PICTURES");

    public async Task InitializeAsync()
    {
        UseKestrel(0);
        StartServer();
        // A busy machine takes its time; what is waited for is a state, never a second.
        Assertions.SetDefaultExpectTimeout(Patience);
        playwright = await Playwright.CreateAsync();
        var chromium = Environment.GetEnvironmentVariable("COMMONGROUND_CHROMIUM") ?? "/usr/bin/chromium";
        File.Exists(chromium)
            .ShouldBeTrue($"Chromium is missing at {chromium}: install Debian's package chromium, or set COMMONGROUND_CHROMIUM.");
        browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = chromium, Args = Switches });
    }

    /// <summary>A fresh visitor's page that fails the test on a script error.</summary>
    /// <param name="units">metric or us; empty for somebody who has not chosen.</param>
    public Task<(IPage Page, List<string> Errors)> PageAsync(int width = 1280, ColorScheme scheme = ColorScheme.Light,
        string role = "organiser", string units = "") => PageAsync(width, scheme, role, Address, units);

    /// <summary>The same on another host, such as one that a test starts and stops.</summary>
    public async Task<(IPage Page, List<string> Errors)> PageAsync(int width, ColorScheme scheme, string role, string address,
        string units = "")
    {
        var context = await browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = width < 500 ? 740 : 900 },
            ColorScheme = scheme,
            AcceptDownloads = true
        });
        context.SetDefaultTimeout(Patience);
        await context.AddCookiesAsync([new() { Name = "cg-act", Value = role, Url = address }]);
        if (units.Length > 0)
        {
            await context.AddCookiesAsync([new() { Name = "cg-units", Value = units, Url = address }]);
        }

        var page = await context.NewPageAsync();
        var errors = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                errors.Add(message.Text);
            }
        };
        page.PageError += (_, error) => errors.Add(error);
        return (page, errors);
    }

    /// <summary>A picture of the whole page, if anyone asked for pictures.</summary>
    public static async Task PictureAsync(IPage page, string name)
    {
        if (Pictures is { } folder)
        {
            Directory.CreateDirectory(folder);
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
        }
    }

    /// <summary>Opens a list by its label and takes one of its choices, as a hand does.</summary>
    public static async Task ChooseAsync(IPage page, string label, string choice)
    {
        await LiveAsync(page, page.GetByLabel(label, new() { Exact = true }));
        await page.GetByLabel(label, new() { Exact = true }).ClickAsync();
        await page.Locator(".mud-popover-open").GetByText(choice, new() { Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(0);
    }

    /// <summary>A page whose buttons work: a live one once it is connected and has read what it shows, a reading page at once.</summary>
    public const string Works = "main[data-interactive=true]:not(:has(p.lead[aria-live])), main[data-interactive=no]";

    /// <summary>Waits until the page that holds this is shown and its buttons work, after a link was followed.</summary>
    public static async Task LiveAsync(IPage page, ILocator itsOwn)
    {
        await Assertions.Expect(itsOwn).ToBeVisibleAsync();
        await page.WaitForSelectorAsync(Works);
    }

    /// <summary>Opens a page and waits until its buttons work.</summary>
    public async Task GoAsync(IPage page, string path)
    {
        await page.GotoAsync(Address + path);
        await page.WaitForSelectorAsync(Works);
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("data", folder);
        builder.UseSetting("no-demo", Demo ? "false" : "true");
        // Tests come from one address all at once.
        builder.UseSetting("Limits:EntriesPerMinute", "10000");
        builder.UseSetting("Limits:RequestsPerMinute", "100000");
        builder.UseSetting("Limits:CircuitsPerAddress", "400");
    }

    async Task IAsyncLifetime.DisposeAsync() => await DisposeAsync();

    public override async ValueTask DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.DisposeAsync();
        }

        playwright?.Dispose();
        await base.DisposeAsync();
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        GC.SuppressFinalize(this);
    }
}

/// <summary>The site as a group finds it at first: an empty folder, nobody, nothing but the catalogue.</summary>
public sealed class EmptySite : Site
{
    protected override bool Demo => false;
}

[CollectionDefinition(Name)]
public sealed class SiteCollection : ICollectionFixture<Site>
{
    public const string Name = "site";
}
