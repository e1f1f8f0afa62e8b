using System.Net;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace CommonGround.Web.Tests.Features.Plants;

/// <summary>Pictures of plants, beds and plans at addresses of their own.</summary>
[Collection(SiteTests.Name)]
public sealed partial class LikenessFilesTests(DemoSite demo)
{
    [Theory]
    [InlineData("/plants/monarda-fistulosa", 7)]
    [InlineData("/plants/quercus-macrocarpa", 4)] // a plain shape has no marks
    public async Task A_plants_page_shows_four_times_of_its_year_and_its_marks_in_words_too(string path, int pictures)
    {
        using var browser = demo.Browser();
        var page = await browser.GetStringAsync(path);
        var shown = Pictures(page).Where(p => p.Address.StartsWith(path, StringComparison.Ordinal)).ToList();
        shown.Count.ShouldBe(pictures);
        shown.ShouldAllBe(p => p.Words.Length > 15);
        foreach (var (address, _) in shown)
        {
            using var answer = await browser.GetAsync(address);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK, address);
            answer.Content.Headers.ContentType!.MediaType.ShouldBe("image/svg+xml");
            // The address holds the print of table and program, so the browser may keep it.
            answer.Headers.CacheControl!.ToString().ShouldContain("immutable");
            var svg = XDocument.Parse(await answer.Content.ReadAsStringAsync()).Root!;
            svg.Descendants().Count(e => e.Name.LocalName is "path" or "circle").ShouldBeGreaterThan(0);
        }
    }

    [Fact]
    public async Task A_picture_of_an_old_page_is_todays_and_is_not_kept()
    {
        using var browser = demo.Browser();
        using var answer = await browser.GetAsync("/plants/monarda-fistulosa/drawn/likeness.svg?v=old");
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        answer.Headers.CacheControl!.ToString().ShouldNotContain("immutable");
    }

    [Theory]
    [InlineData("/plants/monarda-fistulosa/drawn/summer.svg")]
    [InlineData("/plants/monarda-fistulosa/drawn/mark-root.svg")]
    [InlineData("/plants/quercus-macrocarpa/drawn/mark-leaf.svg")]
    [InlineData("/plants/planta-ignota/drawn/likeness.svg")]
    public async Task What_is_not_drawn_is_not_found(string address)
    {
        using var browser = demo.Browser();
        (await browser.GetAsync(address)).StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Light_dark_and_the_devices_wish_have_their_own_papers()
    {
        using var browser = demo.Browser();
        async Task<string> SvgAsync(string look) => await browser.GetStringAsync("/plants/monarda-fistulosa/drawn/likeness.svg?v=x" + look);
        // The papers of tokens.css.
        (await SvgAsync("&look=dark")).ShouldContain(":root{");
        (await SvgAsync("&look=dark")).ShouldContain("--paper:#161813");
        (await SvgAsync("&look=light")).ShouldNotContain("#161813");
        (await SvgAsync("")).ShouldContain("@media(prefers-color-scheme:dark){:root{");
    }

    [Fact]
    public async Task A_list_shows_a_likeness_beside_each_plant_and_the_browser_fetches_what_is_near()
    {
        using var browser = demo.Browser();
        var likenesses = Pictures(await browser.GetStringAsync("/plants")).ToList();
        likenesses.Count.ShouldBe(60);
        likenesses.ShouldAllBe(p => p.Address.Contains("/drawn/likeness.svg?v=", StringComparison.Ordinal)
            && p.Words.Contains(", drawn", StringComparison.Ordinal));
        (await browser.GetStringAsync(likenesses[0].Address)).Length.ShouldBeLessThan(60_000);
    }

    [Fact]
    public async Task A_yard_is_drawn_by_half_month_for_those_who_may_see_it_and_nobody_else()
    {
        using var organiser = demo.Browser("organiser");
        var september = await organiser.GetStringAsync("/yards/LA-07?half=16");
        september.ShouldContain("The planting in early September");
        var beds = Pictures(september).Where(p => p.Address.Contains("scene.svg", StringComparison.Ordinal)).ToList();
        beds.Count.ShouldBe(4);
        beds.ShouldAllBe(p => p.Words.Contains("Early September", StringComparison.Ordinal)
            && p.Words.Contains("In flower: ", StringComparison.Ordinal));
        using var picture = await organiser.GetAsync(beds[0].Address);
        picture.StatusCode.ShouldBe(HttpStatusCode.OK);
        picture.Headers.CacheControl!.NoStore.ShouldBeTrue();
        var winter = Pictures(await organiser.GetStringAsync("/yards/LA-07?half=0"))
            .First(p => p.Address.Contains("scene.svg", StringComparison.Ordinal));
        (await organiser.GetStringAsync(winter.Address)).ShouldNotBe(await organiser.GetStringAsync(beds[0].Address));

        using var visitor = demo.Browser("visitor");
        (await visitor.GetAsync(beds[0].Address)).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        using var member = demo.Browser("member");
        (await member.GetAsync("/yards/CO-02/scene.svg")).StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("/yards/LA-07/scene.svg?half=24", HttpStatusCode.BadRequest)]
    [InlineData("/yards/LA-07/scene.svg?half=-1", HttpStatusCode.BadRequest)]
    [InlineData("/yards/LA-07/scene.svg?wide=9000", HttpStatusCode.BadRequest)]
    [InlineData("/yards/LA-07/scene.svg?bed=1", HttpStatusCode.NotFound)]
    [InlineData("/yards/XX-99/scene.svg", HttpStatusCode.NotFound)]
    [InlineData("/plans/scene/7d3f1f0e-3a55-4a4e-9a7e-000000000000.svg?area=0&half=3&year=1&wide=520", HttpStatusCode.NotFound)]
    [InlineData("/plans/scene/7d3f1f0e-3a55-4a4e-9a7e-000000000000.svg?area=0&half=3&year=9&wide=520", HttpStatusCode.BadRequest)]
    public async Task A_picture_that_cannot_be_is_refused(string address, HttpStatusCode status)
    {
        using var organiser = demo.Browser("organiser");
        (await organiser.GetAsync(address)).StatusCode.ShouldBe(status);
    }

    [Fact]
    public async Task A_wrong_drawing_leads_to_a_note_about_the_drawing()
    {
        using var organiser = demo.Browser("organiser");
        (await organiser.GetStringAsync("/plants/monarda-fistulosa")).ShouldContain("/plants/monarda-fistulosa/values?about=drawing");
        var note = await organiser.GetStringAsync("/plants/monarda-fistulosa/values?about=drawing");
        note.ShouldContain("Drawing of wild bergamot: what looks wrong?");
    }

    private static IEnumerable<(string Address, string Words)> Pictures(string page) => Image().Matches(page)
        .Select(m => (WebUtility.HtmlDecode(m.Groups["src"].Value), WebUtility.HtmlDecode(m.Groups["alt"].Value)));

    [GeneratedRegex("<img [^>]*src=\"(?<src>[^\"]*\\.svg\\?[^\"]*)\"[^>]*alt=\"(?<alt>[^\"]*)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Image();
}
