using CommonGround.Planning.Conversion;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Layout;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Conversion;

/// <summary>Several yards of the demo's streets planned at once, by the running site.</summary>
[Collection(SiteTests.Name)]
public class StreetPlansTests(DemoSite demo)
{
    private static readonly CurrentUser Organiser = new(Role.Organiser, null, "an organiser", false);

    private StreetPlans Plans => demo.Services.GetRequiredService<StreetPlans>();

    [Fact]
    public async Task Two_yards_share_one_budget_and_each_plan_can_be_kept()
    {
        var yards = (await Plans.YardsAsync("Kiln Street", Organiser)).ShouldNotBeNull();
        yards.Count.ShouldBeGreaterThan(2);
        yards.Where(y => y.Willing).ShouldAllBe(y => y.Missing.Length == 0 && y.LawnSquareMetres > 0);
        var two = yards.Where(y => y.Missing.Length == 0).OrderBy(y => y.SquareMetres).Take(2).Select(y => y.Code).ToList();
        var planned = await Plans.MakeAsync("Kiln Street", two, 500, Organiser, null, CancellationToken.None);
        planned.Mixes.Yards.Select(y => y.Yard).ShouldBe(two);
        planned.Mixes.Cost.ShouldBeLessThanOrEqualTo(500);
        planned.Mixes.Bees.ShouldBeInRange(1, planned.Mixes.BeesBound);
        var first = planned.Mixes.Yards.First(y => y.Mix is not null);
        var (kept, problems) = await Plans.KeepAsync(planned, first.Yard, Organiser);
        problems.ShouldBeEmpty();
        kept.ShouldNotBeNull().Amounts.ShouldBe(first.Mix!.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount,
            StringComparer.Ordinal), ignoreOrder: true);
    }

    [Fact]
    public async Task No_yards_no_money_and_no_street_are_refused_in_words_and_members_do_not_plan_streets()
    {
        (await Should.ThrowAsync<PlanRefusedException>(() => Plans.MakeAsync("Kiln Street", [], 500, Organiser, null, default))).Message
            .ShouldContain("No yard is chosen");
        (await Should.ThrowAsync<PlanRefusedException>(() => Plans.MakeAsync("Kiln Street", ["KI-05"], -1, Organiser, null,
            default))).Message.ShouldContain("above 0");
        (await Plans.YardsAsync("No Such Street", Organiser)).ShouldBeNull();
        (await Plans.YardsAsync("Kiln Street", new CurrentUser(Role.Member, 1, "a member", false))).ShouldBeNull();
        using var stop = new CancellationTokenSource();
        await stop.CancelAsync();
        await Should.ThrowAsync<OperationCanceledException>(() => Plans.MakeAsync("Kiln Street", ["KI-05"], 500, Organiser, null,
            stop.Token));
    }

    [Fact]
    public async Task A_streets_page_tells_who_finds_food_and_offers_the_plan_to_organisers_only()
    {
        using var organiser = demo.Browser("organiser");
        using var visitor = demo.Browser("visitor");
        var page = await organiser.GetStringAsync("/streets/street?street=Kiln%20Street");
        page.ShouldContain("Who finds food on Kiln Street");
        page.ShouldContain("Carlinville, Illinois");
        page.ShouldContain("/streets/plan?street=Kiln%20Street");
        (await organiser.GetStringAsync("/streets/plan?street=Kiln%20Street")).ShouldContain("Plan Kiln Street as a whole");
        (await visitor.GetStringAsync("/streets/street?street=Kiln%20Street")).ShouldNotContain("/streets/plan?street");
        (await organiser.GetAsync("/streets/street?street=Nowhere")).StatusCode.ShouldBe(System.Net.HttpStatusCode.NotFound);
        (await organiser.GetStringAsync("/yards/LA-07")).ShouldContain("Who finds food here");
        (await visitor.GetStringAsync("/plants/monarda-fistulosa")).ShouldContain("27 kinds of bees");
    }
}
