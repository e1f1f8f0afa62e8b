using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>The walk on a phone of 360 by 740 points, with its own storage, and what a thumb does there.</summary>
internal sealed class Phone(IPage page, List<string> errors, string address)
{
    public IPage Page => page;

    public List<string> Errors => errors;

    public ILocator Net => page.Locator(".net");

    public static async Task<Phone> OpenAsync(Site site, string role = "organiser", string? address = null)
    {
        var (page, errors) = await site.PageAsync(360, ColorScheme.Light, role, address ?? site.Address, "metric");
        return new(page, errors, address ?? site.Address);
    }

    /// <summary>Opens the walk in a yard with signal and waits until it would open without.</summary>
    public async Task TakeAlongAsync(string code)
    {
        await page.GotoAsync($"{address}/walk/yards/{code}");
        await page.WaitForSelectorAsync("[data-ready=yes][data-names=yes][data-fresh=yes]");
        await page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
    }

    /// <summary>Loads the yard's list anew, as after a closed tab.</summary>
    public async Task ReopenAsync(string code)
    {
        await page.GotoAsync($"{address}/walk/yards/{code}");
        await page.WaitForSelectorAsync("[data-ready=yes]");
    }

    public Task CutAsync() => page.Context.SetOfflineAsync(true);

    public Task SignalAsync() => page.Context.SetOfflineAsync(false);

    public Task WaitingAsync(int count) => Expect(Net).ToHaveAttributeAsync("data-waiting",
        count.ToString(System.Globalization.CultureInfo.InvariantCulture));

    public Task TapAsync(string button) => page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    /// <summary>Presses the answer that the calendar expects and waits until the next plant is at hand.</summary>
    public async Task AsExpectedAsync()
    {
        var before = await page.Locator(".cur .q").InnerTextAsync();
        await page.Locator("[data-expected=yes]").ClickAsync();
        await Expect(page.Locator(".cur")).Not.ToContainTextAsync(before);
    }

    public async Task CloseAsync() => await page.Context.CloseAsync();
}

/// <summary>A site of its own, so that its yards are as the demo has them.</summary>
public sealed class WalkedSite : Site
{
    public async Task<T> AskAsync<T>(Func<CommonGroundDb, Task<T>> ask)
    {
        await using var scope = Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        await using var db = await Services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1).CreateDbContextAsync();
        return await ask(db);
    }

    /// <summary>Sightings of a yard on the demo's day.</summary>
    public Task<int> SeenTodayAsync(string code) => AskAsync(db =>
        db.Sightings.CountAsync(s => s.ObservedOn == new DateOnly(2026, 8, 19) && db.Yards.Any(y => y.Id == s.YardId && y.Code == code)));
}

[CollectionDefinition(Name)]
public sealed class WalkCollection : ICollectionFixture<WalkedSite>
{
    public const string Name = "walk";
}
