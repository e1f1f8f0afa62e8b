using System.Net;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Layout;
using CommonGround.Web.Tests.Access;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Streets;

[Collection(SiteTests.Name)]
public class StreetInvitationsTests(DemoSite demo)
{
    [Fact]
    public async Task It_is_made_of_what_everybody_sees_whoever_prints_it()
    {
        await using var scope = demo.Stand();
        var (made, streets) = (scope.Get<StreetInvitations>(), scope.Get<StreetQueries>());
        var invitation = (await made.GetAsync("Kiln Street", "the organisers", name => "https://example.org/" + name)).ShouldNotBeNull();
        var everybody = await streets.FiguresAsync(new CurrentUser(Role.Visitor, null, "", false));
        var kiln = everybody.Matrix.Streets.Index().Single(s => s.Item.Name == "Kiln Street").Index;
        var n = Enumerable.Range(everybody.Season.First, everybody.SeasonHalves)
            .Select(t => everybody.Streets[kiln].Bloom.HalfMonths[t].N);
        invitation.Year.ShouldNotBeNull().AltText.ShouldContain(string.Join(", ", n));
        invitation.Map.ShouldNotBeNull().AltText.ShouldContain("On Kiln Street: ");
        invitation.Demo.ShouldBeTrue();
        invitation.Headline.ShouldContain("Kiln Street");
        invitation.Plants.ShouldNotBeEmpty();
        invitation.Address.ShouldBe("https://example.org/Kiln Street");
        (await made.GetAsync("No such street", "", name => name)).ShouldBeNull();
    }

    [Fact]
    public async Task It_comes_on_both_papers_and_a_wrong_address_says_so()
    {
        using var browser = demo.Browser("visitor");
        foreach (var paper in new[] { "letter", "a4" })
        {
            var file = await browser.GetAsync($"/streets/invitation.pdf?street=Kiln+Street&ask={new string('x', 400)}&paper={paper}");
            file.Content.Headers.ContentType!.MediaType.ShouldBe("application/pdf");
        }

        (await browser.GetAsync("/streets/invitation.pdf?street=Nowhere")).StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await browser.GetAsync("/streets/invitation.pdf?paper=b5")).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }
}
