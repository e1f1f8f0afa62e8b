using System.Net;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>One of several processes has a clock that is an hour fast or slow.</summary>
[Collection(SiteTests.Name)]
public sealed class ClockTests(GroupSite site)
{
    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public async Task A_process_whose_clock_is_an_hour_off_signs_nobody_out_and_takes_no_right_away(int hours)
    {
        using var who = await site.JoinAsync(Role.Member);
        var currentUser = await site.ViewerAsync(who.Email);
        var off = new Off(TimeSpan.FromHours(hours));
        await using var scope = site.Stand();
        var there = new Sessions(scope.Get<IDbContextFactory<CommonGroundDb>>(), off, new SessionEvents());
        (await there.StandsAsync(currentUser.SessionId!.Value, currentUser.AccountId!.Value)).ShouldBeTrue();
        (await new Standing(scope.Get<NeighbourhoodDatabase>(), scope.Get<CurrentNeighbourhood>(),
            off).HoldsAsync(currentUser)).ShouldBeTrue();
        // What it wrote down of the session serves those whose clock is right.
        (await who.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await scope.Get<Standing>().HoldsAsync(currentUser)).ShouldBeTrue();
        // Ended here, it is ended there.
        await scope.Get<Sessions>().EndAsync(currentUser.SessionId!.Value);
        (await there.StandsAsync(currentUser.SessionId!.Value, currentUser.AccountId!.Value)).ShouldBeFalse();
        (await new Standing(scope.Get<NeighbourhoodDatabase>(), scope.Get<CurrentNeighbourhood>(),
            off).HoldsAsync(currentUser)).ShouldBeFalse();
    }

    private sealed class Off(TimeSpan by) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + by;
    }
}
