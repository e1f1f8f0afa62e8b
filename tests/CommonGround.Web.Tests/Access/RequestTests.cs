using System.Net;
using System.Net.Sockets;
using System.Text;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Yards;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Requests that try to do what a browser of this site never would.</summary>
public sealed class RequestTests(FreshSite site) : IClassFixture<FreshSite>
{
    // ASVS 5.0, 3.5.1 and 3.5.3: forged posts are refused, whatever they post to.
    [Fact]
    public async Task Every_form_is_refused_without_its_hidden_proof_and_with_somebody_elses()
    {
        using var who = await site.JoinAsync(Role.Administrator);
        using var stranger = await site.JoinAsync(Role.Administrator);
        var foreign = Site.Token(await stranger.Browser.GetStringAsync("/more"));
        foreign.ShouldNotBeEmpty();
        var posts = site.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<RequiresAttribute>() is not null
            && e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("POST") == true)
            .Select(e => "/" + e.RoutePattern.RawText!.TrimStart('/')).Where(p => !p.Contains("{Code}", StringComparison.Ordinal)
            && !p.Contains("{Block", StringComparison.Ordinal)
            && !p.Contains("{Id", StringComparison.Ordinal))
            .Select(p => p.Replace("{name}", "theme", StringComparison.Ordinal).Replace("{Slug}", "monarda-fistulosa",
            StringComparison.Ordinal)).Distinct().ToList();
        posts.ShouldContain("/sign-in");
        posts.ShouldContain("/sign-out");
        posts.Count.ShouldBeGreaterThan(25);
        foreach (var path in posts)
        {
            foreach (var token in new[] { null, "", "CfDJ8AAAA", foreign })
            {
                using var form = new FormUrlEncodedContent([new("value", "light"), new("id", "1"), .. token is null
                    ? Array.Empty<KeyValuePair<string, string>>() : [new("__RequestVerificationToken", token)]]);
                using var answer = await who.Browser.PostAsync(path, form);
                answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest, $"{path} with {token ?? "nothing"}");
                answer.Headers.Contains("Set-Cookie").ShouldBeFalse(path);
            }
        }

        (await who.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK, "no forged post signed anybody out");
    }

    // ASVS 5.0, 3.7.2; forms of the addresses after the URL standard's reading of slashes, backslashes and controls.
    [Theory]
    [InlineData("//evil.example/")]
    [InlineData("/\\evil.example")]
    [InlineData("\\\\evil.example")]
    [InlineData("https://evil.example")]
    [InlineData("https:evil.example")]
    [InlineData("javascript:alert(1)")]
    [InlineData("/\t/evil.example")]
    [InlineData("/\n/evil.example")]
    [InlineData(" //evil.example")]
    [InlineData("/%09/evil.example\r\nSet-Cookie: a=b")]
    [InlineData("")]
    public async Task Signing_in_never_leads_to_another_site(string back)
    {
        EntryPages.Back(back).ShouldBe("/");
        using var who = await site.JoinAsync(Role.Member);
        using var browser = site.Browser();
        using var answer = await Site.PostAsync(browser, "/sign-in?back=" + Uri.EscapeDataString(back), "sign-in",
            ("Draft.Email", who.Email), ("Draft.Password", Site.Password));
        answer.StatusCode.ShouldBe(HttpStatusCode.Found);
        new Uri(site.ClientOptions.BaseAddress, answer.Headers.Location!).ShouldBe(site.ClientOptions.BaseAddress);
    }

    [Fact]
    public async Task Signing_in_leads_back_to_the_page_that_was_asked_for()
    {
        using var who = await site.JoinAsync(Role.Member);
        using var browser = site.Browser();
        var asked = (await browser.GetAsync("/more/history?page=2")).Headers.Location!.OriginalString;
        asked.ShouldBe("/sign-in?back=%2Fmore%2Fhistory%3Fpage%3D2");
        using var answer = await Site.PostAsync(browser, asked, "sign-in", ("Draft.Email", who.Email), ("Draft.Password", Site.Password));
        answer.Headers.Location!.OriginalString.ShouldEndWith("/more/history?page=2");
    }

    // ASVS 5.0, 5.3.2 and 13.4.1: sent raw, because a client's library would tidy the path up.
    [Theory]
    [InlineData("/../commonground.db")]
    [InlineData("/..%2f..%2fcommonground.db")]
    [InlineData("/%2e%2e/%2e%2e/keys/")]
    [InlineData("/_content/..%5c..%5cappsettings.json")]
    [InlineData("/_content/MudBlazor/../../../commonground.db")]
    [InlineData("/yards/..%2f..%2fcommonground.db/report.pdf")]
    [InlineData("/yards/%2e%2e/report.pdf")]
    [InlineData("/photos/..%2fcommonground.db")]
    [InlineData("/photos/a.jpg")]
    [InlineData("/.git/config")]
    [InlineData("/data/commonground.db")]
    [InlineData("/keys/")]
    [InlineData("/outbox/")]
    [InlineData("/logs/")]
    [InlineData("/seed-data/common-passwords.txt")]
    public async Task No_path_leads_out_of_the_site_or_into_its_data(string path)
    {
        (await site.AdministratorAsync()).Dispose();
        var answer =
            await RawAsync($"GET {path} HTTP/1.1\r\nHost: {site.ClientOptions.BaseAddress.Authority}\r\nConnection: close\r\n\r\n");
        var status = answer.Split(' ')[1];
        (status is "400" or "403" or "404" || (status == "302"
            && answer.Contains("/sign-in?back=", StringComparison.Ordinal))).ShouldBeTrue(answer[..Math.Min(300, answer.Length)]);
        answer.ShouldNotContain("SQLite format");
        answer.ShouldNotContain("root:");
        answer.ShouldNotContain("Index of");
    }

    // ASVS 5.0, 13.4.4.
    [Theory]
    [InlineData("TRACE")]
    [InlineData("TRACK")]
    [InlineData("DELETE")]
    [InlineData("PUT")]
    public async Task Methods_that_nothing_here_needs_are_refused(string method)
    {
        (await RawAsync($"{method} /more HTTP/1.1\r\nHost: {site.ClientOptions.BaseAddress.Authority}\r\nContent-Length: 0\r\nConnection: "
            + $"close\r\n\r\n")).ShouldMatch("^HTTP/1.1 40(4|5)");
    }

    // RFC 9110, section 9.3.2: as GET, without what follows the headers.
    [Theory]
    [InlineData("/")]
    [InlineData("/more")]
    [InlineData("/sign-in")]
    [InlineData("/yards")]
    [InlineData("/streets.csv")]
    [InlineData("/site.css")]
    [InlineData("/nothing/here")]
    [InlineData("/account/data.zip")]
    [InlineData("/health/live")]
    public async Task Head_is_answered_like_get_with_nothing_after_the_headers(string path)
    {
        async Task<string> AskAsync(string method) =>
            await RawAsync($"{method} {path} HTTP/1.1\r\nHost: {site.ClientOptions.BaseAddress.Authority}\r\nConnection: close\r\n\r\n");
        var (get, head) = (await AskAsync("GET"), await AskAsync("HEAD"));
        head.Split("\r\n\r\n", 2)[1].ShouldBeEmpty();
        head.Split("\r\n")[0].ShouldBe(get.Split("\r\n")[0]);
        static string? Kind(string answer) => answer.Split("\r\n\r\n")[0].Split("\r\n")
            .FirstOrDefault(l => l.StartsWith("Content-Type:", StringComparison.OrdinalIgnoreCase));
        Kind(head).ShouldBe(Kind(get));
    }

    // ASVS 5.0, 4.4.2; RFC 6455, section 10.2.
    [Theory]
    [InlineData("https://evil.example")]
    [InlineData("null")]
    [InlineData("http://localhost.evil.example")]
    public async Task A_page_of_another_site_opens_no_live_connection(string origin)
    {
        using var browser = site.Browser();
        foreach (var (from, expected) in new[] { (origin, HttpStatusCode.Forbidden),
            (site.ClientOptions.BaseAddress.GetLeftPart(UriPartial.Authority), HttpStatusCode.OK) })
        {
            using var ask = new HttpRequestMessage(HttpMethod.Post,
                "/_blazor/negotiate?negotiateVersion=1")
            { Headers = { { "Origin", from } } };
            (await browser.SendAsync(ask)).StatusCode.ShouldBe(expected, from);
        }
    }

    // ASVS 5.0, 4.2.1 and RFC 9112, section 6.3: both lengths at once are an attempt to smuggle.
    [Fact]
    public async Task A_request_with_a_body_of_two_lengths_is_refused_or_read_by_its_chunks_and_the_connection_closed()
    {
        (await site.AdministratorAsync()).Dispose();
        var answer =
            await RawAsync($"POST /sign-in HTTP/1.1\r\nHost: {site.ClientOptions.BaseAddress.Authority}\r\nContent-Length: 60\r\n"
            + $"Transfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /health/live HTTP/1.1\r\nHost: x\r\n\r\n");
        answer.ShouldStartWith("HTTP/1.1 400");
        answer.ShouldNotContain("\"status\":\"well\"");
    }

    // ASVS 5.0, 5.2.1.
    [Fact]
    public async Task A_body_larger_than_any_form_here_is_refused()
    {
        (await site.AdministratorAsync()).Dispose();
        (await RawAsync($"POST /sign-in HTTP/1.1\r\nHost: {site.ClientOptions.BaseAddress.Authority}\r\nContent-Type: "
            + $"application/x-www-form-urlencoded\r\nContent-Length: {41 * 1024 * 1024}\r\nConnection: close\r\n\r\n")).ShouldMatch(
            "^HTTP/1.1 4(00|13)");
    }

    // ASVS 5.0, 1.2.1 and 3.2.2.
    [Fact]
    public async Task What_people_call_themselves_and_their_yards_is_text_and_never_markup()
    {
        const string Script = "<script>alert(1)</script>";
        using var who = await site.JoinAsync(Role.Organiser);
        var by = await site.ViewerAsync(who.Email);
        var yard = await site.RegisterAsync(by);
        await using var scope = site.Stand();
        var stored = await site.AskAsync(db => Task.FromResult(db.Yards.Single(y => y.Id == yard.Id)));
        var draft = Neighbours.Draft(stored.BlockId, yard.Code);
        draft.Household = "H" + Script;
        (await scope.Get<YardSettings>().SaveAsync(yard.Id, stored.Version, draft, by)).ShouldBeEmpty();
        (await scope.Get<AddBed>().SaveAsync(yard.Id, "B" + Script, "", by)).ShouldBeEmpty();
        (await scope.Get<GroupSettings>().AddBlockAsync("S" + Script, "one", 41, -88, by)).ShouldBeEmpty();
        var taxon = await site.AskAsync(db => Task.FromResult(db.Taxa.Single(t => t.ScientificName == "Monarda fistulosa").Traits));
        var bed = await site.AskAsync(db => Task.FromResult(db.Beds.First(b => b.YardId == yard.Id)));
        var line = new PlantingDraft { Typed = taxon.ScientificName, Taxon = taxon, CoverSquareMetres = 1, Remarks = "R" + Script };
        (await scope.Get<RecordPlantings>().SaveAsync(new(yard.Id, bed.Id, bed.Version, scope.Get<GroupClock>().Today, "O" + Script,
            [line]), by)).Problems.ShouldBeEmpty();
        var account = (await scope.Get<Accounts>().FindByEmailAsync(who.Email))!;
        (await scope.Get<AccountSettings>().RenameAsync(account, "N" + Script, "")).ShouldBeEmpty();

        var seen = 0;
        foreach (var path in new[] { $"/yards/{yard.Code}", $"/yards/{yard.Code}/keep", $"/yards/{yard.Code}/record", "/yards", "/streets",
            "/more/people", "/more/history", "/account", "/more", "/", "/yards/register",
                "/plants/monarda-fistulosa?x=" + Uri.EscapeDataString(Script), "/sign-in?back=" + Uri.EscapeDataString("/" + Script) })
        {
            var page = await who.Browser.GetStringAsync(path);
            page.ShouldNotContain(Script, Case.Insensitive, path);
            seen += page.Split("&lt;script&gt;alert(1)").Length - 1;
        }

        seen.ShouldBeGreaterThan(5, "the names do stand on the pages, made harmless");
    }

    private async Task<string> RawAsync(string request)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, site.ClientOptions.BaseAddress.Port);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request));
        using var answer = new MemoryStream();
        try
        {
            // Until the server closes the connection: each request here asks for that, or is one that ends it.
            await stream.CopyToAsync(answer);
        }
        catch (IOException)
        {
            // It cut the connection: what came so far is the answer.
        }

        return Encoding.Latin1.GetString(answer.ToArray());
    }
}
