using System.IO.Compression;
using System.Net;
using System.Reflection;
using System.Text.RegularExpressions;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Tests.Access;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Layout;

/// <summary>Reading pages cost no circuit, little to send, and still show what others store.</summary>
[Collection(SiteTests.Name)]
public sealed partial class ReadingPageTests(DemoSite demo, GroupSite group)
{
    /// <summary>All pages on which something is edited or worked out while one waits; every other is plain HTML
    /// (docs/decisions/0022).</summary>
    private static readonly string[] Live =
    [
        "/record", "/yards/{Code}/record", "/yards/register", "/yards/{Code}/keep", "/yards/{Code}/photos", "/plans", "/plans/prices",
            "/yards/{Code}/plan", "/plans/{Id:long}",
        "/plants/{Slug}/values", "/more/import", "/more/rules", "/more/town", "/more/people", "/more/group",
        "/more/plant-notes", "/streets/plan", "/streets/draw", "/streets/file", "/tours",
            "/yards/{Code}/plantings/{Sighting:long}", "/unwanted/report",
            "/unwanted/yards/{Code}/{Slug}", "/unwanted/blocks/{Block:long}/{Slug}",
    ];

    [Fact]
    public void A_page_is_live_only_where_somebody_edits() =>
        typeof(AccessTable).Assembly.GetTypes().Where(t => t.GetCustomAttribute<ExcludeFromInteractiveRoutingAttribute>() is null)
            .SelectMany(t => t.GetCustomAttributes<RouteAttribute>()).Select(r => r.Template)
            .ShouldBe(Live, ignoreOrder: true);

    [Theory]
    [InlineData("/")]
    [InlineData("/streets")]
    [InlineData("/streets?show=pressure&sort=-native&half=17")]
    [InlineData("/streets/late-season")]
    [InlineData("/streets/compare")]
    [InlineData("/yards")]
    [InlineData("/yards/LA-07")]
    [InlineData("/yards/LA-07/years")]
    [InlineData("/yards/LA-07/labels")]
    [InlineData("/plants")]
    [InlineData("/plants/monarda-fistulosa")]
    [InlineData("/more")]
    [InlineData("/more/history")]
    [InlineData("/more/dates")]
    [InlineData("/unwanted")]
    public async Task A_reading_page_needs_no_circuit_and_weighs_little(string path)
    {
        using var browser = demo.Browser("organiser");
        var html = await browser.GetStringAsync(path);
        html.ShouldNotContain("\"type\":\"server\"");
        html.ShouldNotContain("MudBlazor");
        html.ShouldNotContain("blazor.web");
        html.ShouldContain("data-interactive=\"no\"");
        html.ShouldNotContain("blazor:on");

        // The page, its styles, its script and every font, compressed as a browser gets them: 300 KB.
        var files = WebFile().Matches(html).Select(m => m.Groups["file"].Value).Distinct(StringComparer.Ordinal).ToList();
        files.Count.ShouldBe(5);
        var weight = await WeightAsync(browser, path);
        foreach (var file in files)
        {
            weight += await WeightAsync(browser, "/" + file);
        }

        var look = await browser.GetStringAsync("/" + files.Single(f => f.StartsWith("site", StringComparison.Ordinal)
            && f.EndsWith(".css", StringComparison.Ordinal)));
        var fonts = FontFile().Matches(look).Select(m => m.Groups["file"].Value).Distinct(StringComparer.Ordinal).ToList();
        fonts.ShouldNotBeEmpty();
        foreach (var font in fonts)
        {
            weight += await WeightAsync(browser, "/" + font.TrimStart('/'));
        }

        weight.ShouldBeLessThan(300 * 1024);
    }

    [Fact]
    public async Task Another_sites_requests_are_not_answered_compressed_to_somebody_signed_in()
    {
        using var who = await group.JoinAsync(Role.Member);
        using var stranger = group.Browser();
        async Task<bool> IsCompressedAsync(HttpClient browser, string? from)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/plants?name=a");
            request.Headers.Add("Accept-Encoding", "br, gzip");
            if (from is not null)
            {
                request.Headers.Add("Sec-Fetch-Site", from);
            }

            using var answer = await browser.SendAsync(request);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK);
            return answer.Content.Headers.ContentEncoding.Count > 0;
        }

        foreach (var (from, compressed) in new[] { ("same-origin", true), ("none", true), ("cross-site", false), ("same-site", false),
            (null, false) })
        {
            (await IsCompressedAsync(who.Browser, from)).ShouldBe(compressed, from ?? "no word");
            (await IsCompressedAsync(stranger, from)).ShouldBeTrue();
        }
    }

    [Fact]
    public async Task Whoever_waits_for_changes_hears_of_them_at_once_and_of_their_own_end_too()
    {
        using var who = await group.JoinAsync(Role.Member);
        var stamp = await who.Browser.GetStringAsync("/changes");
        (await who.Browser.GetStringAsync("/changes?since=0")).ShouldBe(stamp);
        var waiting = group.Services.GetRequiredService<WaitForChange>();
        var news = who.Browser.GetStringAsync($"/changes?since={stamp}");
        while (waiting.Waiting == 0)
        {
            news.IsCompleted.ShouldBeFalse();
            await Task.Delay(10);
        }

        await group.RegisterAsync(await group.ViewerAsync(who.Email));
        long.Parse(await news).ShouldBeGreaterThan(long.Parse(stamp));

        stamp = await who.Browser.GetStringAsync("/changes");
        news = who.Browser.GetStringAsync($"/changes?since={stamp}");
        while (waiting.Waiting == 0)
        {
            await Task.Delay(10);
        }

        await group.Services.GetRequiredService<Web.Features.Membership.Sessions>()
            .EndAsync((await group.ViewerAsync(who.Email)).SessionId!.Value);
        (await news).ShouldNotBeEmpty();
        (await who.Browser.GetAsync("/yards")).StatusCode.ShouldBe(HttpStatusCode.Found);
    }

    [GeneratedRegex("(?:href|src)=\"(?<file>[^\"]+\\.(?:css|js))\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex WebFile();

    [GeneratedRegex("url\\(\"(?<file>[^\"]+\\.woff2)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex FontFile();

    /// <summary>Bytes on the wire, as a browser that takes Brotli gets them; what only the published site has compressed beforehand is
    /// compressed here.</summary>
    private static async Task<long> WeightAsync(HttpClient browser, string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Add("Accept-Encoding", "br, gzip");
        using var answer = await browser.SendAsync(request);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, path);
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        if (answer.Content.Headers.ContentEncoding.Count > 0 || path.EndsWith(".woff2", StringComparison.Ordinal))
        {
            return bytes.Length;
        }

        path.ShouldNotBe("/");
        using var small = new MemoryStream();
        await using (var brotli = new BrotliStream(small, CompressionLevel.Optimal, leaveOpen: true))
        {
            await brotli.WriteAsync(bytes);
        }

        return small.Length;
    }
}
