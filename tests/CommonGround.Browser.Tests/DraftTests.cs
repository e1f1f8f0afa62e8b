using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>What somebody typed outlives the site going down under them: the drafts are in their browser, and offered back.</summary>
[Collection(SiteCollection.Name)]
public sealed class DraftTests(Site site)
{
    private const string IsBack = "What you typed before and did not save is back";

    [Fact]
    public async Task Forms_give_back_what_was_typed_when_the_site_was_restarted_and_save_it_then()
    {
        var folder = Directory.CreateTempSubdirectory("commonground-drafts-").FullName;
        try
        {
            IPage register, keep, rules, group;
            int port;
            await using (var before = Host.Start(folder, 0))
            {
                port = before.ClientOptions.BaseAddress.Port;
                var address = $"http://127.0.0.1:{port}";
                (register, _) = await site.PageAsync(1280, ColorScheme.Light, "organiser", address, "metric");
                keep = await register.Context.NewPageAsync();
                rules = await register.Context.NewPageAsync();
                group = await register.Context.NewPageAsync();
                await GoAsync(register, address + "/yards/register");
                await Site.ChooseAsync(register, "Block", "Kiln Street, Sawyer to Tollgate");
                await register.GetByLabel("Code", new() { Exact = true }).FillAsync("KI-77");
                await register.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
                await register.GetByLabel("Whole yard, m²").FillAsync("640");
                await register.GetByLabel("full sun").CheckAsync();
                await register.GetByLabel("medium").CheckAsync();
                await register.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
                await register.GetByLabel("Bed 1, name").FillAsync("Under the oak");
                await KeptAsync(register, "register:", "Under the oak");

                await GoAsync(keep, address + "/yards/KI-05/keep");
                await keep.GetByLabel("Label for the household").FillAsync("the blue porch");
                await KeptAsync(keep, "keep:", "the blue porch");
                await GoAsync(rules, address + "/more/rules");
                await rules.GetByLabel("Species that cover a half-month").FillAsync("4");
                await rules.Keyboard.PressAsync("Tab");
                await KeptAsync(rules, "rules:", "\"Norm\":4");
                await GoAsync(group, address + "/more/group");
                await group.GetByLabel("Street", new() { Exact = true }).FillAsync("Withy Lane");
                await KeptAsync(group, "block:", "Withy Lane");
            }

            // The site is down: each live page says so by itself, and takes what is typed meanwhile.
            await Expect(group.Locator("#components-reconnect-modal")).ToContainTextAsync("What you typed is kept on this device.");
            await group.GetByLabel("Street", new() { Exact = true }).FillAsync("Withy Lane West");

            await using var after = Host.Start(folder, port);
            await BackAsync(register);
            await Expect(register.GetByLabel("Bed 1, name")).ToHaveValueAsync("Under the oak");
            await register.GetByRole(AriaRole.Button, new() { Name = "Next: sharing" }).ClickAsync();
            await register.GetByRole(AriaRole.Button, new() { Name = "Register the yard" }).ClickAsync();
            await Expect(register.GetByRole(AriaRole.Heading, new() { Name = "Yard KI-77", Exact = true })).ToBeVisibleAsync();
            await GoAsync(register, $"http://127.0.0.1:{port}/yards/register");
            await Expect(register.GetByLabel("Code", new() { Exact = true })).ToHaveValueAsync("");
            await Expect(register.GetByText(IsBack)).ToHaveCountAsync(0);

            await BackAsync(keep);
            await Expect(keep.GetByLabel("Label for the household")).ToHaveValueAsync("the blue porch");
            await keep.GetByRole(AriaRole.Button, new() { Name = "Save the facts" }).ClickAsync();
            await Expect(keep.GetByRole(AriaRole.Heading, new() { Name = "Yard KI-05", Exact = true })).ToBeVisibleAsync();

            await BackAsync(rules);
            await Expect(rules.GetByLabel("Species that cover a half-month")).ToHaveValueAsync("4");
            await rules.GetByRole(AriaRole.Button, new() { Name = "Start anew" }).ClickAsync();
            await Expect(rules.GetByLabel("Species that cover a half-month")).ToHaveValueAsync("3");
            await Expect(rules.GetByText(IsBack)).ToHaveCountAsync(0);

            await Expect(group.GetByRole(AriaRole.Link, new() { Name = "Load the page again" })).ToBeVisibleAsync();
            await group.GetByRole(AriaRole.Link, new() { Name = "Load the page again" }).ClickAsync();
            await Expect(group.GetByText(IsBack)).ToBeVisibleAsync();
            await Expect(group.GetByLabel("Street", new() { Exact = true })).ToHaveValueAsync("Withy Lane West");
            await register.Context.CloseAsync();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task GoAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        await page.WaitForSelectorAsync(Site.Works);
    }

    private static async Task KeptAsync(IPage page, string key, string words) =>
        await page.WaitForFunctionAsync(
            "([key, words]) => Object.keys(localStorage).some(k => k.startsWith(key) && localStorage[k].includes(words))",
                new[] { key, words });

    private static async Task BackAsync(IPage page)
    {
        await page.ReloadAsync();
        await page.WaitForSelectorAsync(Site.Works);
        await Expect(page.GetByText(IsBack)).ToBeVisibleAsync();
    }

    /// <summary>The site on a folder and a port that outlive it.</summary>
    private sealed class Host(string folder) : WebApplicationFactory<Program>
    {
        public static Host Start(string folder, int port)
        {
            var host = new Host(folder);
            host.UseKestrel(port);
            host.StartServer();
            return host;
        }

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseEnvironment("Production");
            builder.UseSetting("data", folder);
        }
    }
}
