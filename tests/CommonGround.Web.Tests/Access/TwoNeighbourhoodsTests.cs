using System.Net;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Access;

/// <summary>Two neighbourhoods on one site: whoever organises one is a visitor in the other (ASVS 5.0, 8.4.1).</summary>
public sealed class TwoNeighbourhoodsTests(FreshSite site) : IClassFixture<FreshSite>
{
    [Fact]
    public async Task An_organiser_of_one_neighbourhood_sees_writes_and_undoes_nothing_in_the_other()
    {
        using var first = await site.JoinAsync(Role.Administrator);
        var by = await site.ViewerAsync(first.Email);
        await using var scope = site.Stand();
        (await scope.Get<GroupSettings>().AddNeighbourhoodAsync("Over the river", "America/Chicago", by)).ShouldBeEmpty();
        var there = await site.AskAsync(db => db.Neighbourhoods.Where(n => n.Name == "Over the river").Select(n => n.Id).SingleAsync());
        var founder = await site.ViewerAsync(first.Email, there);
        founder.Role.ShouldBe(Role.Administrator);
        var yard = await site.RegisterAsync(founder);
        var change = await site.AskAsync(db => db.Changes.Where(c => c.MemberId == founder.MemberId).OrderByDescending(c => c.Id)
            .Select(c => c.Id).FirstAsync(), there);

        using var organiser = await site.JoinAsync(Role.Organiser);
        var here = await site.ViewerAsync(organiser.Email);
        var abroad = await site.ViewerAsync(organiser.Email, there);
        abroad.Role.ShouldBe(Role.Visitor);
        (await organiser.Browser.GetAsync("/more/rules")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await organiser.Browser.GetAsync($"/yards/{yard.Code}")).StatusCode.ShouldBe(HttpStatusCode.NotFound,
            "here there is no such yard");

        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken",
            Site.Token(await organiser.Browser.GetStringAsync("/more"))),
                new("id", there.ToString(System.Globalization.CultureInfo.InvariantCulture))]);
        (await organiser.Browser.PostAsync("/neighbourhood", form)).StatusCode.ShouldBe(HttpStatusCode.Found);
        foreach (var path in new[] { "/more/rules", "/more/people", "/more/group", "/more/history",
            "/more/import", $"/yards/{yard.Code}", $"/yards/{yard.Code}/report.pdf", "/yards", "/plans" })
        {
            (await organiser.Browser.GetAsync(path)).StatusCode.ShouldBe(HttpStatusCode.Forbidden, path);
        }

        (await organiser.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK, "one's account is one's own everywhere");
        var before = await WrittenAsync(there);
        await using var river = site.Stand(there);
        (await river.Get<AddBed>().SaveAsync(yard.Id, "Theirs", "", abroad)).ShouldNotBeEmpty();
        (await river.Get<UndoChange>().UndoAsync(change, abroad)).ShouldNotBeEmpty();
        (await river.Get<HistoryQueries>().PageAsync(abroad, null)).ShouldBeEmpty();
        (await river.Get<HistoryQueries>().ValuesAsync(change, abroad)).ShouldBeEmpty();
        // Nor by standing at home and naming what is over there.
        (await scope.Get<AddBed>().SaveAsync(yard.Id, "Theirs", "", here)).ShouldNotBeEmpty();
        (await scope.Get<YardSettings>().TakeOutAsync(yard.Id, here)).ShouldNotBeEmpty();
        // Changes are numbered by neighbourhood: here the same number is another change, never that of the yard over there.
        (await scope.Get<HistoryQueries>().ValuesAsync(change, here)).ShouldAllBe(v => v.Row != "yard");
        (await scope.Get<People>().GiveYardAsync(yard.Code, here.MemberId, here)).ShouldNotBeEmpty();
        (await WrittenAsync(there)).ShouldBe(before);
    }

    private Task<int> WrittenAsync(int neighbourhood) => site.AskAsync(db => db.Changes.CountAsync(), neighbourhood);
}
