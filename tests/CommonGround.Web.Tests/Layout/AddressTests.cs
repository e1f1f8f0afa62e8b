using System.Net;
using CommonGround.Storage.Members;
using CommonGround.Web.Layout;
using CommonGround.Web.Tests.Access;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Layout;

/// <summary>An address that leads nowhere answers with its number and a page that says what is wrong and where to go (RFC 9110, 15.5.1,
/// 15.5.5 and 15.6.1).</summary>
public sealed class AddressTests(FreshSite site) : IClassFixture<FreshSite>
{
    [Theory]
    [InlineData("/yards/ZZ-99", "Yard ZZ-99 cannot be opened")]
    [InlineData("/yards/ZZ-99/keep", "Yard ZZ-99 cannot be opened")]
    [InlineData("/yards/ZZ-99/record", "Yard ZZ-99 cannot be opened")]
    [InlineData("/yards/ZZ-99/plan", "Yard ZZ-99 cannot be opened")]
    [InlineData("/yards/ZZ-99/report.pdf", "Yard ZZ-99 cannot be opened")]
    [InlineData("/plants/planta-nulla", "The catalogue has no plant at this address")]
    [InlineData("/plans/999", "This plan cannot be opened")]
    [InlineData("/plans/999/report.pdf", "This plan cannot be opened")]
    [InlineData("/plans/zzz", "This plan cannot be opened")]
    [InlineData("/streets?block=999", "There is no such block")]
    [InlineData("/streets?block=zzz", "There is no such block")]
    [InlineData("/nowhere", "There is no page at this address")]
    public async Task What_is_not_there_is_not_found_and_the_page_helps(string address, string title)
    {
        using var organiser = await site.JoinAsync(Role.Organiser);
        var answer = await organiser.Browser.GetAsync(address);
        answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        page.ShouldContain($">{title}</h1>");
        page.ShouldContain("This half-month");
    }

    [Theory]
    [InlineData("/yards/ZZ-99/report.pdf?paper=zzz")]
    [InlineData("/plans/999/report.pdf?paper=zzz")]
    public async Task A_paper_there_is_not_is_answered_by_a_page_that_says_which_there_are(string address)
    {
        using var organiser = await site.JoinAsync(Role.Organiser);
        var answer = await organiser.Browser.GetAsync(address);
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        page.ShouldContain("Reports are printed on letter or a4; the address asks for “zzz”.");
        page.ShouldContain(address.Split('?')[0] + "?paper=a4");
    }

    [Theory]
    [InlineData("/?half=zzz")]
    [InlineData("/?half=99")]
    [InlineData("/plants?flower=zzz")]
    public async Task A_slip_in_what_only_chooses_a_view_shows_the_usual_one(string address)
    {
        using var browser = site.Browser();
        (await browser.GetAsync(address)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task A_page_that_fails_says_so_by_its_number_too()
    {
        using var organiser = await site.JoinAsync(Role.Organiser);
        var yard = await site.RegisterAsync(await site.ViewerAsync(organiser.Email));
        await site.AskAsync(db => db.Database.ExecuteSqlRawAsync("""ALTER TABLE "Photos" RENAME TO "Elsewhere" """));
        try
        {
            var answer = await organiser.Browser.GetAsync($"/yards/{yard.Code}");
            answer.StatusCode.ShouldBe(HttpStatusCode.InternalServerError);
            (await answer.Content.ReadAsStringAsync()).ShouldContain("This page could not be made");
        }
        finally
        {
            await site.AskAsync(db => db.Database.ExecuteSqlRawAsync("""ALTER TABLE "Elsewhere" RENAME TO "Photos" """));
        }
    }

    [Fact]
    public void A_long_slip_is_not_written_out_in_full() => AddressProblem.Of("/yards/" + new string('z', 500),
    "").Title.Length.ShouldBeLessThan(80);
}
