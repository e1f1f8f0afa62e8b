using System.Net;

namespace CommonGround.Web.Tests.Layout;

/// <summary>Every page over HTTP as the server first sends it.</summary>
[Collection(SiteTests.Name)]
public class PageTests(DemoSite site)
{
    public static TheoryData<string, string> Pages { get; } = new()
    {
        { "/", "h1" }, { "/streets", "Lathe Street" }, { "/streets?block=", "Lathe Street" }, { "/streets/late-season", "Kiln Street" },
            { "/yards", "KI-01" }, { "/yards/LA-07", "Record plantings" },
        { "/yards/LA-07/record", "One planting on one line" }, { "/yards/register", "Register" }, { "/record", "Yard code" },
            { "/plants", "anise hyssop" }, { "/plants/monarda-fistulosa", "Monarda fistulosa" },
        { "/more", "Where the figures come from" }, { "/more/rules", "Species that cover a half-month" },
            { "/more/town", "Where to get plants and seed" }, { "/plans", "Kept plans" },
            { "/plans/prices", "Preparing the ground" }, { "/yards/KI-05/plan", "Areas to convert" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_opens_for_an_organiser(string path, string said)
    {
        using var browser = site.Browser("organiser");
        var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        var html = await answer.Content.ReadAsStringAsync();
        html.ShouldContain(said);
        html.ShouldContain("<h1");
        html.ShouldContain("<html lang=\"en\"");
        html.ShouldNotContain("This page could not be made");
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/site.css")]
    [InlineData("/nothing/here")]
    [InlineData("/streets.csv")]
    public async Task Every_answer_carries_the_headers_that_keep_strangers_out(string path)
    {
        using var browser = site.Browser();
        var answer = await browser.GetAsync(path);
        var policies = answer.Headers.GetValues("Content-Security-Policy").SelectMany(p => p.Split(';')).Select(p => p.Trim()).ToList();
        foreach (var rule in new[] { "default-src 'self'", "script-src 'self'", "object-src 'none'", "base-uri 'self'",
            "frame-ancestors 'none'", "form-action 'self'" })
        {
            policies.ShouldContain(rule);
        }

        answer.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"]);
        answer.Headers.GetValues("Referrer-Policy").ShouldBe(["same-origin"]);
    }

    [Fact]
    public async Task No_page_needs_a_script_within_it()
    {
        using var browser = site.Browser("organiser");
        foreach (var path in Pages.Select(p => (string)p[0]))
        {
            var html = await browser.GetStringAsync(path);
            html.Split("<script").Skip(1).ShouldAllBe(s => s.TrimStart().StartsWith("src=") || s.StartsWith(" type=\"module\" src="), path);
            html.ShouldNotContain(" onclick=", Case.Insensitive, path);
        }
    }

    [Theory]
    [InlineData("/nothing/here")]
    [InlineData("/not-found-either")]
    [InlineData("/yards/LA-07/report.docx")]
    public async Task An_address_of_nothing_is_404_in_plain_words(string path)
    {
        using var browser = site.Browser("organiser");
        var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await answer.Content.ReadAsStringAsync()).ShouldContain("There is no page at this address");
    }

    [Fact]
    public async Task A_yards_report_is_a_PDF_on_either_paper()
    {
        using var browser = site.Browser("organiser");
        foreach (var path in new[] { "/yards/LA-07/report.pdf", "/yards/LA-07/report.pdf?paper=a4" })
        {
            var answer = await browser.GetAsync(path);
            answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/pdf");
            System.Text.Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(), 0, 5).ShouldBe("%PDF-");
        }

        (await browser.GetAsync("/yards/LA-07/report.pdf?paper=vellum")).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task A_choice_of_how_to_look_needs_the_forms_own_token()
    {
        using var browser = site.Browser();
        using var bare = new FormUrlEncodedContent([new("value", "visitor")]);
        foreach (var path in new[] { "/view/act", "/yards", "/more" })
        {
            (await browser.PostAsync(path, bare)).StatusCode.ShouldBe(HttpStatusCode.BadRequest, path);
        }

        var (answer, _) = await ChooseAsync(browser, "/view/act", "visitor");
        answer.StatusCode.ShouldBe(HttpStatusCode.Found);
        var cookie = answer.Headers.GetValues("Set-Cookie").Single(c => c.StartsWith("cg-act=", StringComparison.Ordinal));
        cookie.ShouldStartWith("cg-act=visitor;");
        cookie.ShouldContain("httponly", Case.Insensitive);
        cookie.ShouldContain("samesite=lax", Case.Insensitive);
        (await browser.GetStringAsync("/")).ShouldContain("<b>Demo</b> · a visitor");
    }

    [Theory]
    [InlineData("/view/act", "keeper")]
    [InlineData("/view/act", "")]
    [InlineData("/view/colour", "red")]
    [InlineData("/view/theme", "</html>")]
    public async Task A_choice_that_does_not_exist_is_refused(string path, string value)
    {
        using var browser = site.Browser();
        var (answer, _) = await ChooseAsync(browser, path, value);
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        answer.Headers.Contains("Set-Cookie").ShouldBeFalse();
    }

    [Theory]
    [InlineData("/view/units?returnUrl=https://example.org/")]
    [InlineData("/view/units?returnUrl=//example.org/")]
    [InlineData("/view/units?ReturnUrl=%5Cexample.org")]
    public async Task A_choice_never_leads_to_another_site(string path)
    {
        using var browser = site.Browser();
        var (answer, _) = await ChooseAsync(browser, path, "us");
        answer.StatusCode.ShouldBe(HttpStatusCode.Found);
        answer.Headers.Location!.OriginalString.ShouldBe("/more");
    }

    private static async Task<(HttpResponseMessage Answer, string Token)> ChooseAsync(HttpClient browser, string path, string value)
    {
        var token = Site.Token(await browser.GetStringAsync("/more"));
        token.ShouldNotBeEmpty();
        using var form = new FormUrlEncodedContent([new("value", value), new("__RequestVerificationToken", token)]);
        return (await browser.PostAsync(path, form), token);
    }
}
