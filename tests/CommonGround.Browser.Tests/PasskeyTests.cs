using System.Text.RegularExpressions;
using CommonGround.Web.Features.Membership;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Passkeys in a real browser with a device that the browser plays (WebAuthn level 3; the DevTools protocol's virtual
/// authenticator).</summary>
[Collection(SiteCollection.Name)]
public sealed class PasskeyTests(Site site)
{
    private const string Password = "seven quiet herons";

    [Fact]
    public async Task Somebody_adds_a_passkey_signs_out_and_signs_in_with_it()
    {
        using var group = new Group();
        group.UseKestrel(0);
        group.StartServer();
        // WebAuthn knows names, not numbers: localhost.
        var address = $"http://localhost:{group.ClientOptions.BaseAddress.Port}";
        var (page, errors) = await site.PageAsync();
        var devices = await page.Context.NewCDPSessionAsync(page);
        await devices.SendAsync("WebAuthn.enable");
        await devices.SendAsync("WebAuthn.addVirtualAuthenticator", new()
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true
            },
        });

        await page.GotoAsync(address + "/begin");
        await page.GetByLabel("Code from the program’s output").FillAsync(group.Services.GetRequiredService<FirstRunSetup>().Code);
        await page.GetByLabel("Name of the neighbourhood").FillAsync("Quarry Bend");
        await page.GetByLabel("Your name").FillAsync("Ada");
        await page.GetByLabel("Your e-mail address").FillAsync("ada@quarry-bend.example");
        await page.GetByLabel("A password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await page.WaitForURLAsync("**/more/group");

        await page.GotoAsync(address + "/account");
        await page.GetByLabel("What you call this device").FillAsync("my phone");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await Expect(page.GetByText("my phone, since")).ToBeVisibleAsync();

        await page.Context.ClearCookiesAsync();
        await page.GotoAsync(address + "/account");
        await Expect(page).ToHaveURLAsync(new Regex("/sign-in\\?back=%2Faccount$"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
        await Expect(page.GetByText("ada@quarry-bend.example")).ToBeVisibleAsync();
        page.Url.ShouldBe(address + "/account");

        // Taken away, it opens nothing any more.
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove my phone" }).ClickAsync();
        await Expect(page.GetByText("my phone, since")).ToHaveCountAsync(0);
        await page.Context.ClearCookiesAsync();
        await page.GotoAsync(address + "/sign-in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
        await page.WaitForURLAsync("**/sign-in?passkey=no");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    /// <summary>A real group's site, empty as on its first day.</summary>
    private sealed class Group : WebApplicationFactory<Program>
    {
        private readonly string folder = Directory.CreateTempSubdirectory("commonground-passkey-").FullName;

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseEnvironment("Production");
            builder.UseSetting("data", folder);
            builder.UseSetting("no-demo", "true");
        }

        protected override void Dispose(bool disposing)
        {
            base.Dispose(disposing);
            if (disposing && Directory.Exists(folder))
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }
}
