using System.Net;
using CommonGround.Storage.Members;

namespace CommonGround.Web.Tests.Access;

/// <summary>What answers say to the browser, and what the site believes of what it is told.</summary>
public sealed class HeaderTests(FreshSite site) : IClassFixture<FreshSite>
{
    // ASVS 5.0, 3.4.3 to 3.4.6. Of 3.4.3 base-uri is 'self' instead of 'none': pages name their own base.
    [Theory]
    [InlineData("/", HttpStatusCode.OK)]
    [InlineData("/sign-in", HttpStatusCode.OK)]
    [InlineData("/site.css", HttpStatusCode.OK)]
    [InlineData("/_framework/blazor.web.js", HttpStatusCode.OK)]
    [InlineData("/health/live", HttpStatusCode.OK)]
    [InlineData("/nothing/here", HttpStatusCode.NotFound)]
    [InlineData("/streets.csv", HttpStatusCode.OK)]
    [InlineData("/yards", HttpStatusCode.Found)]
    [InlineData("/account/data.zip", HttpStatusCode.Forbidden)]
    [InlineData("/yards/XX-1/report.pdf", HttpStatusCode.Forbidden)]
    public async Task Every_kind_of_answer_carries_the_headers(string path, HttpStatusCode status)
    {
        (await site.AdministratorAsync()).Dispose();
        using var browser = site.Browser();
        using var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(status);
        CheckHeaders(answer);
        answer.Headers.Contains("Strict-Transport-Security").ShouldBeFalse("without Https:Only a browser is promised nothing");
        answer.Headers.Contains("Server").ShouldBeFalse();
        answer.Headers.Contains("X-Powered-By").ShouldBeFalse();
        answer.Headers.Contains("Access-Control-Allow-Origin").ShouldBeFalse();
    }

    // CSP 3, "WebAssembly integration": 'wasm-unsafe-eval' lets compiled code run and nothing else.
    [Theory]
    [InlineData("/walk/", true)]
    [InlineData("/walk/yards/XX-1", true)]
    [InlineData("/", false)]
    [InlineData("/walks", false)]
    public async Task Compiled_code_runs_on_the_walk_and_nowhere_else(string path, bool runs)
    {
        (await site.AdministratorAsync()).Dispose();
        using var browser = site.Browser();
        using var answer = await browser.GetAsync(path);
        var policy = string.Join("; ", answer.Headers.GetValues("Content-Security-Policy")).Split("; ");
        policy.Single(p => p.StartsWith("script-src", StringComparison.Ordinal))
            .ShouldBe(runs ? "script-src 'self' 'wasm-unsafe-eval'" : "script-src 'self'");
    }

    [Fact]
    public async Task A_refused_form_and_a_report_carry_them_too_and_pages_are_kept_by_no_cache()
    {
        using var who = await site.JoinAsync(Role.Member);
        var currentUser = await site.ViewerAsync(who.Email);
        var yard = await site.RegisterAsync(currentUser);
        using var bare = new FormUrlEncodedContent([new("a", "b")]);
        using var refused = await who.Browser.PostAsync("/sign-out", bare);
        refused.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        CheckHeaders(refused);
        foreach (var path in new[] { $"/yards/{yard.Code}", $"/yards/{yard.Code}/report.pdf", "/account", "/account/data.zip",
            "/account/second-step" })
        {
            using var answer = await who.Browser.GetAsync(path);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK, path);
            answer.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"], path);
            // ASVS 5.0, 14.3.2.
            answer.Headers.CacheControl!.NoStore.ShouldBeTrue(path);
        }

        using var plan = await who.Browser.GetAsync($"/plans/{await site.KeepPlanAsync(yard, currentUser)}/report.pdf");
        plan.Headers.GetValues("Content-Security-Policy").ShouldBe(["default-src 'none'; frame-ancestors 'self'"],
            "the plan's own page shows it in a frame");
    }

    // ASVS 5.0, 3.3.1 to 3.3.4, and RFC 6265bis for the prefix: over plain HTTP the cookie can have neither Secure nor the prefix.
    [Fact]
    public async Task Cookies_are_out_of_reach_of_scripts_and_of_other_sites()
    {
        using var who = await site.JoinAsync(Role.Member);
        using var answer = await Site.SignInAsync(who.Browser, who.Email);
        var cookies = answer.Headers.GetValues("Set-Cookie").ToList();
        cookies.ShouldContain(c => c.StartsWith("cg-session=", StringComparison.Ordinal));
        cookies.ShouldAllBe(c => c.Contains("httponly", StringComparison.OrdinalIgnoreCase)
            && c.Contains("samesite=lax", StringComparison.OrdinalIgnoreCase) && c.Contains("path=/", StringComparison.OrdinalIgnoreCase)
            && !c.Contains("domain=", StringComparison.OrdinalIgnoreCase));
        cookies.Single(c => c.StartsWith("cg-session=", StringComparison.Ordinal)).ShouldNotContain("expires=", Case.Insensitive);
    }

    // ASVS 5.0, 3.4.1 (HSTS, RFC 6797), 3.3.1, 3.3.3, 4.1.3 and 15.3.4.
    [Fact]
    public async Task Behind_a_known_proxy_and_with_https_only_cookies_are_secure_and_browsers_are_told_to_stay_with_https()
    {
        await using var own = await SetSite.StartAsync(("Https:Only", "true"), ("Proxy:Known", "127.0.0.1, ::1"),
            ("Site:Address", "https://plants.quarry-bend.example"));
        using var browser = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false })
        {
            BaseAddress =
            own.ClientOptions.BaseAddress
        };
        // As the documented proxy passes a plain request on (deploy/nginx.conf); no port for https is configured.
        using var plainAsk = new HttpRequestMessage(HttpMethod.Get, "/sign-in")
        {
            Headers = { { "X-Forwarded-Proto", "http" },
            { "X-Forwarded-For", "203.0.113.9" }, { "Host", "plants.quarry-bend.example" } }
        };
        using var plain = await browser.SendAsync(plainAsk);
        plain.StatusCode.ShouldBe(HttpStatusCode.TemporaryRedirect);
        plain.Headers.Location!.OriginalString.ShouldBe("https://plants.quarry-bend.example/sign-in");

        using var ask = new HttpRequestMessage(HttpMethod.Get, "/begin")
        {
            Headers = { { "X-Forwarded-Proto", "https" },
            { "X-Forwarded-For", "203.0.113.9" }, { "Host", "plants.quarry-bend.example" } }
        };
        using var answer = await browser.SendAsync(ask);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        answer.Headers.GetValues("Strict-Transport-Security").Single().ShouldBe("max-age=31536000; includeSubDomains");
        var cookies = answer.Headers.GetValues("Set-Cookie").ToList();
        cookies.ShouldNotBeEmpty();
        cookies.ShouldAllBe(c => c.StartsWith("__Host-", StringComparison.Ordinal)
            && c.Contains("; secure", StringComparison.OrdinalIgnoreCase) && c.Contains("path=/", StringComparison.OrdinalIgnoreCase)
            && !c.Contains("domain=", StringComparison.OrdinalIgnoreCase));
        CheckHeaders(answer);
    }

    // WSTG on Host header injection: the name a request comes under is believed only where it is the site's own.
    [Fact]
    public async Task Under_a_name_that_nobody_gave_the_site_it_answers_nothing_but_says_its_own()
    {
        await using var own = await SetSite.StartAsync(("Site:Address", "https://plants.quarry-bend.example"));
        using var administrator = await own.AdministratorAsync();
        await using var scope = own.Stand();
        var settings = scope.Get<CommonGround.Web.Features.Membership.GroupSettings>();
        (await settings.SaveAsync(await settings.FactsAsync() with { Host = "bend.example" },
            await own.ViewerAsync("first@quarry-bend.example"))).ShouldBeEmpty();
        using var browser = own.Browser();
        async Task<HttpResponseMessage> AskAsync(string host)
        {
            using var ask = new HttpRequestMessage(HttpMethod.Get, "/sign-in") { Headers = { { "Host", host } } };
            return await browser.SendAsync(ask);
        }

        foreach (var host in new[] { "plants.quarry-bend.example", "PLANTS.quarry-bend.example:8443", "bend.example", "localhost",
            "127.0.0.1:1" })
        {
            (await AskAsync(host)).StatusCode.ShouldBe(HttpStatusCode.OK, host);
        }

        foreach (var host in new[] { "evil.example", "203.0.113.7", "plants.quarry-bend.example.evil.example" })
        {
            using var refused = await AskAsync(host);
            refused.StatusCode.ShouldBe(HttpStatusCode.BadRequest, host);
            (await refused.Content.ReadAsStringAsync()).ShouldContain("Its address is https://plants.quarry-bend.example/");
            CheckHeaders(refused);
        }
    }

    // ASVS 5.0, 2.4.1, 4.1.3 and 6.3.1; RFC 6585, section 4, for the answer.
    [Fact]
    public async Task Guessing_from_one_address_is_slowed_down_and_a_forged_forwarding_header_helps_nobody()
    {
        await using var own = await SetSite.StartAsync(("Limits:EntriesPerMinute", "5"));
        using var browser = own.Browser();
        var answers = new List<HttpResponseMessage>();
        for (var i = 0; i < 8; i++)
        {
            using var ask = new HttpRequestMessage(HttpMethod.Post, i % 2 == 0 ? "/sign-in"
                : "/SIGN-IN/second")
            {
                Content = new FormUrlEncodedContent([new("a", "b")]),
                Headers = { { "X-Forwarded-For", $"203.0.113.{i}" } }
            };
            answers.Add(await browser.SendAsync(ask));
        }

        answers.Take(5).ShouldAllBe(a => a.StatusCode == HttpStatusCode.BadRequest);
        answers.Skip(5).ShouldAllBe(a => a.StatusCode == HttpStatusCode.TooManyRequests
            && a.Headers.RetryAfter!.Delta == TimeSpan.FromMinutes(1));
        (await answers[^1].Content.ReadAsStringAsync()).ShouldContain("Nothing was stored");
        CheckHeaders(answers[^1]);
        (await browser.GetAsync("/sign-in")).StatusCode.ShouldBe(HttpStatusCode.OK, "reading goes on");
    }

    [Fact]
    public async Task Behind_a_known_proxy_each_reader_has_a_limit_of_their_own_and_an_IPv6_network_counts_as_one()
    {
        await using var own = await SetSite.StartAsync(("Limits:RequestsPerMinute", "4"), ("Proxy:Known", "127.0.0.1"));
        using var browser = own.Browser();
        async Task<HttpStatusCode> FromAsync(string address)
        {
            using var ask = new HttpRequestMessage(HttpMethod.Get, "/sign-in") { Headers = { { "X-Forwarded-For", address } } };
            return (await browser.SendAsync(ask)).StatusCode;
        }

        for (var i = 0; i < 4; i++)
        {
            (await FromAsync("203.0.113.1")).ShouldBe(HttpStatusCode.OK);
            (await FromAsync($"2001:db8:0:1::{i}")).ShouldBe(HttpStatusCode.OK);
        }

        (await FromAsync("203.0.113.1")).ShouldBe(HttpStatusCode.TooManyRequests);
        (await FromAsync("203.0.113.2")).ShouldBe(HttpStatusCode.OK);
        (await FromAsync("2001:db8:0:1:ffff::9")).ShouldBe(HttpStatusCode.TooManyRequests);
        (await FromAsync("2001:db8:0:2::9")).ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task An_account_has_a_limit_of_its_own_from_however_many_addresses_it_comes()
    {
        await using var own = await SetSite.StartAsync(("Limits:RequestsPerMinute", "12"), ("Proxy:Known", "127.0.0.1"));
        using var who = await own.JoinAsync(Role.Member);
        var refused = 0;
        for (var i = 0; i < 14; i++)
        {
            using var ask = new HttpRequestMessage(HttpMethod.Get,
                "/account")
            { Headers = { { "X-Forwarded-For", $"203.0.113.{i + 10}" } } };
            refused += (await who.Browser.SendAsync(ask)).StatusCode == HttpStatusCode.TooManyRequests ? 1 : 0;
        }

        refused.ShouldBeGreaterThanOrEqualTo(2);
    }

    private static void CheckHeaders(HttpResponseMessage answer)
    {
        var rules = answer.Headers.GetValues("Content-Security-Policy").SelectMany(p => p.Split(';')).Select(p => p.Trim()).ToList();
        foreach (var rule in new[] { "default-src 'self'", "script-src 'self'", "object-src 'none'", "base-uri 'self'",
            "frame-ancestors 'none'", "form-action 'self'" })
        {
            rules.ShouldContain(rule);
        }

        rules.Where(r => r.Contains("unsafe", StringComparison.Ordinal)).ShouldBe(["style-src 'self' 'unsafe-inline'"]);
        answer.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"]);
        answer.Headers.GetValues("Referrer-Policy").ShouldBe(["same-origin"]);
        answer.Headers.GetValues("Cross-Origin-Opener-Policy").ShouldBe(["same-origin"]);
        answer.Headers.GetValues("Cross-Origin-Resource-Policy").ShouldBe(["same-origin"]);
    }
}
