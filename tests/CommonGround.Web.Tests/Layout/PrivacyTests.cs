using System.Globalization;
using System.Net;
using AngleSharp.Html.Parser;
using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Tests.Layout;

/// <summary>What strangers never see, looked for in everything the server sends them.</summary>
[Collection(SiteTests.Name)]
public class PrivacyTests(DemoSite demo, GroupSite group)
{
    private static readonly IReadOnlyList<PlaceRow> Yards = ImportFile.Read("places.csv",
        File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "quarry-bend", "places.csv"))).Places;

    [Theory]
    [InlineData("visitor")]
    [InlineData("member")]
    public async Task Nothing_a_stranger_is_sent_holds_an_exact_position_or_a_household(string role)
    {
        Yards.Count.ShouldBe(160);
        var own = role == "member" ? new[] { "LA-07", "KI-05" } : [];
        using var browser = demo.Browser(role);
        foreach (var path in PageTests.Pages.Select(p => (string)p[0]).Append("/streets.csv").Append("/yards/KI-01")
            .Append("/yards/KI-01/record"))
        {
            var text = await (await browser.GetAsync(path)).Content.ReadAsStringAsync();
            foreach (var yard in Yards.Where(y => !own.Contains(y.Yard)))
            {
                text.ShouldNotContain(yard.Household, Case.Insensitive, path);
                text.ShouldNotContain(Exact(yard.Latitude), Case.Sensitive, path);
                text.ShouldNotContain(Exact(yard.Longitude), Case.Sensitive, path);
            }
        }
    }

    [Fact]
    public async Task The_map_draws_yards_only_for_organisers()
    {
        using var organiser = demo.Browser("organiser");
        (await organiser.GetStringAsync("/streets")).ShouldContain("class=\"parcel\"");
        foreach (var role in new[] { "visitor", "member" })
        {
            using var browser = demo.Browser(role);
            (await browser.GetStringAsync("/streets")).ShouldNotContain("class=\"parcel\"", Case.Sensitive, role);
        }
    }

    [Fact]
    public async Task A_yard_opens_for_organisers_and_its_own_household_only()
    {
        async Task<bool> OpensAsync(string role, string code)
        {
            using var browser = demo.Browser(role);
            var answer = await browser.GetAsync($"/yards/{code}");
            var page = await answer.Content.ReadAsStringAsync();
            var report = await browser.GetAsync($"/yards/{code}/report.pdf");
            var opens = page.Contains("Record plantings", StringComparison.Ordinal);
            var expected = opens ? HttpStatusCode.OK : role == "visitor" ? HttpStatusCode.Forbidden : HttpStatusCode.NotFound;
            (answer.StatusCode, report.StatusCode).ShouldBe((opens ? HttpStatusCode.OK : HttpStatusCode.Forbidden,
                expected), $"{role} {code}");
            return opens;
        }

        (await OpensAsync("organiser", "KI-01")).ShouldBeTrue();
        (await OpensAsync("member", "LA-07")).ShouldBeTrue();
        (await OpensAsync("member", "KI-01")).ShouldBeFalse();
        (await OpensAsync("visitor", "LA-07")).ShouldBeFalse();
        (await OpensAsync("visitor", "KI-01")).ShouldBeFalse();
    }

    [Fact]
    public async Task A_visitor_is_offered_no_way_to_write()
    {
        using var browser = demo.Browser("visitor");
        foreach (var path in new[] { "/record", "/yards/LA-07/record", "/yards/LA-07/keep", "/yards/register", "/more/import",
            "/more/people" })
        {
            var answer = await browser.GetAsync(path);
            answer.StatusCode.ShouldBe(HttpStatusCode.Forbidden, path);
            (await answer.Content.ReadAsStringAsync()).ShouldContain("This page is for", Case.Sensitive, path);
        }

        (await browser.GetStringAsync("/more")).ShouldContain("Organisers import files.");
    }

    [Fact]
    public async Task The_public_file_of_streets_counts_only_yards_that_share()
    {
        using var visitor = demo.Browser("visitor");
        using var organiser = demo.Browser("organiser");
        var (seen, all) = (Yards(await visitor.GetStringAsync("/streets.csv")), Yards(await organiser.GetStringAsync("/streets.csv")));
        all.Values.Sum().ShouldBe(160);
        // Of the yards that share, those on blocks where three or more do.
        seen.Values.Sum().ShouldBe(PrivacyTests.Yards.Where(y => y.Shared).GroupBy(y => (y.Street, y.Block)).Where(g => g.Count() >= 3)
            .Sum(g => g.Count()));
        seen.Values.ShouldAllBe(y => y >= 3);

        static Dictionary<string, int> Yards(string csv) =>
            csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(l => l.Split(',')).ToDictionary(c => c[1],
                c => int.Parse(c[3], CultureInfo.InvariantCulture), StringComparer.Ordinal);
    }

    [Fact]
    public async Task In_a_real_group_nobody_chooses_a_role_and_a_stranger_is_shown_the_way_to_sign_in()
    {
        using var stranger = group.Browser("organiser");
        (await stranger.GetStringAsync("/more")).ShouldContain("You are a visitor");
        foreach (var path in new[] { "/record", "/yards", "/plans", "/more/rules", "/more/people", "/more/history", "/more/import",
            "/account" })
        {
            var answer = await stranger.GetAsync(path);
            (answer.StatusCode, answer.Headers.Location?.OriginalString).ShouldBe((HttpStatusCode.Found,
                "/sign-in?back=" + Uri.EscapeDataString(path)));
        }

        using var form = new FormUrlEncodedContent([new("value", "organiser"),
            new("__RequestVerificationToken", Site.Token(await stranger.GetStringAsync("/more")))]);
        (await stranger.PostAsync("/view/act", form)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Every_page_of_an_empty_group_opens_and_says_what_is_missing()
    {
        using var browser = await group.AdministratorAsync();
        foreach (var path in new[] { "/", "/streets", "/streets/late-season", "/yards", "/yards/register", "/record", "/plants", "/more",
            "/more/rules", "/more/people", "/more/group", "/more/history", "/more/import", "/plans", "/plans/prices", "/account",
                "/account/second-step", "/account/leave", "/welcome", "/streets.csv" })
        {
            var answer = await browser.GetAsync(path);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK, path);
            using var page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
            page.Body!.TextContent.ShouldNotContain("NaN", Case.Sensitive, path);
        }
    }

    private static string Exact(double degrees) => degrees.ToString("R", CultureInfo.InvariantCulture);
}
