using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace CommonGround.Browser.Tests;

/// <summary>Each page, wide in light and narrow in dark: it fits, its scripts run, and axe-core (WCAG 2 A and AA rules) finds
/// nothing.</summary>
[Collection(SiteCollection.Name)]
public sealed class PageTests(Site site)
{
    public static TheoryData<string, string, int, ColorScheme> Pages()
    {
        var data = new TheoryData<string, string, int, ColorScheme>();
        foreach (var (name, path) in new[]
        {
            ("start", "/"), ("streets", "/streets"), ("late-season", "/streets/late-season"), ("yards", "/yards"),
            ("unwanted", "/unwanted"), ("unwanted-report", "/unwanted/report?yard=LA-07&plant=alliaria-petiolata"),
            ("unwanted-pressure", "/unwanted/pressure"), ("unwanted-thanks", "/unwanted/thanks"),
            ("unwanted-case", "/unwanted/yards/CO-01/lonicera-maackii"),
            ("unwanted-workday", "/unwanted/workday?on=2026-09-19&people=9&hours=3"),
                ("yard", "/yards/KI-05"), ("register", "/yards/register"),
            ("identify", "/identify?a=flower_colour:white&a=inflorescence:umbel"),
            ("record", "/yards/KI-05/record"), ("plants", "/plants"), ("plant", "/plants/pastinaca-sativa"), ("more", "/more"),
                ("rules", "/more/rules"), ("town", "/more/town"),
                    ("plans", "/plans"), ("plan", "/yards/KI-05/plan"), ("prices", "/plans/prices"),
                    ("settings", "/yards/KI-05/keep"), ("photos", "/yards/KI-05/photos"), ("group", "/more/group"),
                        ("people", "/more/people"), ("draw", "/streets/draw"),
                        ("map-file", "/streets/file"), ("labels", "/yards/KI-05/labels"),
                        ("compare", "/streets/compare"), ("tours", "/tours"),
                        ("import", "/more/import"), ("values", "/plants/pastinaca-sativa/values"),
            ("not-found", "/nowhere"),
        })
        {
            data.Add(name, path, 1280, ColorScheme.Light);
            data.Add(name, path, 360, ColorScheme.Dark);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_fits_works_and_is_accessible(string name, string path, int width, ColorScheme scheme)
    {
        var (page, errors) = await site.PageAsync(width, scheme);
        await site.GoAsync(page, path);
        if (name == "plan")
        {
            // The mix is worked out while the limits stand there already: the page is looked at with it.
            await page.Locator("table.species").WaitForAsync(new() { State = WaitForSelectorState.Attached });
            await Assertions.Expect(page.Locator(".plan-grid")).ToHaveAttributeAsync("aria-busy", "false");
        }

        await page.EvaluateAsync("document.fonts.ready");
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth - window.innerWidth")).ShouldBeLessThanOrEqualTo(
            0, $"{path} is wider than the window");
        if (width == 360 && (name is "plan" or "plants" or "late-season" or "yards"))
        {
            (await page.EvaluateAsync<int>("document.documentElement.scrollHeight")).ShouldBeLessThanOrEqualTo(
                4 * 740, $"{path} is longer than four screens of a phone");
        }

        if (Site.Pictures is { } folder)
        {
            Directory.CreateDirectory(folder);
            await page.ScreenshotAsync(new()
            {
                Path = Path.Combine(folder, $"{name}-{width}-{scheme.ToString().ToLowerInvariant()}.png"),
                FullPage = true
            });
        }

        // What a phone folds is looked at too.
        await page.EvaluateAsync("document.querySelectorAll('details[data-fold]').forEach(d => d.open = true)");
        var axe = await page.RunAxe();
        axe.Violations
            .Select(v => $"{v.Id}: {v.Help}; {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html[..Math.Min(180, n.Html.Length)]))}")
            .ShouldBeEmpty();
        // The not-found page answers 404, which the browser reports as a failed resource.
        errors.Where(e => name != "not-found" || !e.Contains("404", StringComparison.Ordinal)).ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/streets")]
    [InlineData("/yards/KI-05")]
    [InlineData("/plants")]
    public async Task Every_control_can_be_reached_with_the_tab_key(string path)
    {
        var (page, _) = await site.PageAsync();
        await site.GoAsync(page, path);
        var wanted =
            await page.EvaluateAsync<int>(
            "[...document.querySelectorAll('a[href],button:not([disabled]),input:not([type=hidden]),select,summary,[tabindex=\"0\"]')].filter(e => e.getClientRects().length && e.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })).length");
        var reached = new HashSet<string>(StringComparer.Ordinal);
        await page.EvaluateAsync(
            "document.body.focus(); let n = 0; document.addEventListener('focusin', e => { e.target.dataset.tabbed ??= ++n; });");
        for (var i = 0; i < wanted + 10; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string?>("document.activeElement?.dataset.tabbed") is { } tag)
            {
                reached.Add(tag);
            }
        }

        // The skip link lies off the screen until it has the focus, so it may come on top.
        reached.Count.ShouldBeGreaterThanOrEqualTo(wanted);
        await page.Context.CloseAsync();
    }
}
