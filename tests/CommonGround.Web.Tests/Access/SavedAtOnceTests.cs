using CommonGround.Storage.Members;
using CommonGround.Storage.Publishing;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Access;

/// <summary>Households of one block who say yes in the same moment, on a database that lets them write side by side.</summary>
public sealed class SavedAtOnceTests(PostgresGroupSite site) : IClassFixture<PostgresGroupSite>
{
    [Fact]
    public async Task Whoever_is_overtaken_while_a_block_is_published_is_stored_all_the_same_and_the_sets_stay_safe()
    {
        using var administrator = await site.JoinAsync(Role.Administrator);
        var by = await site.ViewerAsync(administrator.Email);
        var block = await BlockAsync(by);
        var yards = new List<long>();
        for (var i = 0; i < 9; i++)
        {
            await using var scope = site.Stand();
            (await scope.Get<RegisterYard>().SaveAsync(Neighbours.Draft(block, $"AT-{i}"), by)).ShouldBeEmpty();
            yards.Add(await site.AskAsync(db => db.Yards.Where(y => y.Code == $"AT-{i}").Select(y => y.Id).SingleAsync()));
        }

        var answers = await Task.WhenAll(yards.Select(async yard =>
        {
            await using var scope = site.Stand();
            IReadOnlyList<Problem> problems;
            do
            {
                // As a person would who is told that somebody else was faster.
                problems = await scope.Get<YardSettings>().ConsentAsync(yard, new Consents(true, true, true), by);
            }
            while (problems is [var one] && one.Message.Contains("Somebody else saved", StringComparison.Ordinal));
            return problems;
        }));
        answers.SelectMany(a => a).ShouldBeEmpty();
        (await site.AskAsync(db => db.Yards.CountAsync(y => yards.Contains(y.Id) && y.Shared))).ShouldBe(9);

        var sets = await site.AskAsync(db => db.PublishedYards.Where(p => p.BlockId == block).OrderBy(p => p.Number).ToListAsync());
        sets.Select(s => s.Number).ShouldBeUnique();
        var read = sets.ConvertAll(s => (IReadOnlySet<long>)s.Yards.Split(' ')
            .Select(y => long.Parse(y, System.Globalization.CultureInfo.InvariantCulture)).ToHashSet());
        read.ShouldNotBeEmpty();
        read.ShouldAllBe(s => s.Count >= PublicSets.FewestYards);
        for (var i = 0; i < read.Count; i++)
        {
            // Set by set, as they would have been chosen one after the other.
            PublicSets.Choose(read[i], read[..i]).IsNew.ShouldBeTrue($"set {i + 1} of {read.Count}");
        }
    }

    private async Task<long> BlockAsync(CurrentUser by)
    {
        await using var scope = site.Stand();
        (await scope.Get<GroupSettings>().AddBlockAsync("Lathe Street", "at once", 41.5, -88.5, by)).ShouldBeEmpty();
        return (await scope.Get<RegisterYard>().BlocksAsync()).Single(b => b.Block == "at once").Id;
    }
}
