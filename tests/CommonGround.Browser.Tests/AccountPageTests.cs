using CommonGround.Web.Features.Membership;
using Deque.AxeCore.Playwright;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>The account and people pages of a real group, wide and narrow, light and dark: they fit, their scripts run, and axe-core (WCAG
/// 2 A and AA rules) finds nothing.</summary>
[Collection(SiteCollection.Name)]
public sealed class AccountPageTests(EmptySite site) : IClassFixture<EmptySite>
{
    private const string Password = "seven quiet herons", Ada = "ada@alder-bend.example";

    public static TheoryData<int, ColorScheme> Looks() => new()
    {
        { 1280, ColorScheme.Light }, { 360, ColorScheme.Dark },
    };

    [Theory]
    [MemberData(nameof(Looks))]
    public async Task Pages_of_accounts_and_people_fit_work_and_are_accessible(int width, ColorScheme scheme)
    {
        var (stranger, strangersErrors) = await site.PageAsync(width, scheme);
        var look = $"{width}-{scheme.ToString().ToLowerInvariant()}";
        await BeginOnceAsync(stranger, look);
        var found = new List<string>();
        foreach (var (name, path) in new[] { ("begun", "/begin"), ("sign-in", "/sign-in"), ("second", "/sign-in/second"),
            ("join", "/join"), ("forgot", "/forgot"), ("new-password", "/new-password?account=1&code=x"),
                ("confirm", "/confirm?account=1&code=x"), ("more-visitor", "/more") })
        {
            found.AddRange(await LookAtAsync(stranger, path, $"{name}-{look}"));
        }

        await stranger.GotoAsync(site.Address + "/sign-in");
        await stranger.GetByLabel("E-mail address").FillAsync(Ada);
        await stranger.GetByLabel("Password", new() { Exact = true }).FillAsync("wrong as can be");
        await stranger.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await Expect(stranger.GetByText("do not belong together")).ToBeVisibleAsync();
        found.AddRange(await LookAsync(stranger, $"sign-in-refused-{look}"));

        var (page, errors) = await site.PageAsync(width, scheme);
        await SignInAsync(page);
        foreach (var (name, path) in new[] { ("second-step", "/account/second-step"), ("leave", "/account/leave"), ("welcome", "/welcome"),
            ("group", "/more/group"), ("import", "/more/import"), ("keep", "/yards/AL-01/keep"), ("not-yours", "/yards/XX-99/keep") })
        {
            found.AddRange(await LookAtAsync(page, path, $"{name}-{look}"));
        }

        await site.GoAsync(page, "/more/people");
        await page.GetByLabel("For whom").FillAsync("the corner house, " + look);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make an invitation" }).ClickAsync();
        await Expect(page.Locator(".slip")).ToBeVisibleAsync();
        found.AddRange(await LookAsync(page, $"people-{look}"));
        await site.GoAsync(page, "/more/history");
        await page.GetByRole(AriaRole.Link, new() { Name = "Look" }).First.ClickAsync();
        await Expect(page.Locator(".altered")).ToBeVisibleAsync();
        found.AddRange(await LookAsync(page, $"history-{look}"));

        found.ShouldBeEmpty();
        // The browser reports an answer of 404 as a failed resource.
        strangersErrors.Concat(errors).Where(e => !e.Contains("404", StringComparison.Ordinal)).ShouldBeEmpty();
        foreach (var one in new[] { stranger, page })
        {
            await one.Context.CloseAsync();
        }
    }

    [Theory]
    [MemberData(nameof(Looks))]
    public async Task The_page_of_an_account_with_several_sessions_and_no_passkey_fits_works_and_is_accessible(int width,
    ColorScheme scheme)
    {
        var (page, errors) = await site.PageAsync(width, scheme);
        var look = $"{width}-{scheme.ToString().ToLowerInvariant()}";
        await BeginOnceAsync(page, look);
        var (other, _) = await site.PageAsync();
        await SignInAsync(other);
        await SignInAsync(page);
        (await LookAtAsync(page, "/account", $"account-{look}")).ShouldBeEmpty();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Passkeys" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Sign out all other devices" })).ToBeVisibleAsync();
        errors.ShouldBeEmpty();
        await other.Context.CloseAsync();
        await page.Context.CloseAsync();
    }

    private async Task BeginOnceAsync(IPage stranger, string look)
    {
        var begin = site.Services.GetRequiredService<FirstRunSetup>();
        if (!await begin.IsNeededAsync())
        {
            return;
        }

        (await LookAtAsync(stranger, "/begin", $"begin-{look}")).ShouldBeEmpty();
        var (page, _) = await site.PageAsync(units: "metric");
        await page.GotoAsync(site.Address + "/begin");
        foreach (var (label, value) in new[] { ("Code from the program’s output", begin.Code), ("Name of the neighbourhood", "Alder Bend"),
            ("Your name", "Ada"), ("Your e-mail address", Ada), ("A password", Password) })
        {
            await page.GetByLabel(label).FillAsync(value);
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await page.WaitForSelectorAsync(Site.Works);
        foreach (var (label, value) in new[] { ("Street", "Alder Street"), ("Block", "Mill to Ferry"),
            ("Latitude of its middle", "41.8701"), ("Longitude", "-88.4402") })
        {
            await page.GetByLabel(label, new() { Exact = true }).FillAsync(value);
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Add the block" }).ClickAsync();
        await Expect(page.GetByText("1 block on 1 street")).ToBeVisibleAsync();
        await site.GoAsync(page, "/yards/register");
        await Site.ChooseAsync(page, "Block", "Alder Street, Mill to Ferry");
        await Expect(page.GetByLabel("Code", new() { Exact = true })).ToHaveValueAsync("AL-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
        await page.GetByLabel("Whole yard, m²").FillAsync("600");
        await page.GetByLabel("full sun").CheckAsync();
        await page.GetByLabel("medium").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: sharing" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Register the yard" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard AL-01", Exact = true })).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    private async Task SignInAsync(IPage page)
    {
        await page.GotoAsync(site.Address + "/sign-in");
        await page.GetByLabel("E-mail address").FillAsync(Ada);
        await page.GetByLabel("Password", new() { Exact = true }).FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        // On a narrow screen the name that shows who is signed in is on the page More.
        await page.WaitForURLAsync(site.Address + "/");
    }

    private async Task<IReadOnlyList<string>> LookAtAsync(IPage page, string path, string name)
    {
        await page.GotoAsync(site.Address + path);
        // Forms of accounts are plain pages without a circuit; the others are looked at once they are live.
        await Expect(page.Locator("h1").First).ToBeVisibleAsync();
        if (await page.EvaluateAsync<bool>(
            "[...document.childNodes, ...document.body.childNodes].some(n => n.nodeType === 8 && n.data.includes('\"type\":\"server\"'))"))
        {
            await page.WaitForSelectorAsync(Site.Works);
        }

        return await LookAsync(page, name);
    }

    /// <summary>What is wrong with the page as it stands.</summary>
    private static async Task<IReadOnlyList<string>> LookAsync(IPage page, string name)
    {
        await page.EvaluateAsync("document.fonts.ready");
        await Site.PictureAsync(page, name);
        var over = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - window.innerWidth");
        var axe = await page.RunAxe();
        return [.. axe.Violations
            .Select(v => $"{name}: {v.Id}: {v.Help}; {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html[..Math.Min(180, n.Html.Length)]))}"), .. over > 0 ? new[] { $"{name} is {over} px wider than the window" } : []];
    }
}
