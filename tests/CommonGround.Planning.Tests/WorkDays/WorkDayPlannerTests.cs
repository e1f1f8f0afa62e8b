using CommonGround.Planning.WorkDays;

namespace CommonGround.Planning.Tests.WorkDays;

public class WorkDayPlannerTests
{
    private static WorkDayAsked Chance(int seed, int cases, int places, int people, double hours)
    {
        var chance = new Random(seed);
        var points = Enumerable.Range(0, places).Select(_ => (X: chance.NextDouble() * 800, Y: chance.NextDouble() * 800)).ToList();
        return new(people, hours, [.. Enumerable.Range(0, cases).Select(i => new WorkCase(chance.Next(places), 0.2
            + (chance.NextDouble() * 3),
            chance.NextDouble() * 10, i % 5 == 0))],
            [.. points.Select(a => (IReadOnlyList<double>)[.. points.Select(b => Math.Sqrt(((a.X - b.X) * (a.X - b.X))
                + ((a.Y - b.Y) * (a.Y - b.Y))))])]);
    }

    /// <summary>Every subset of cases, every order of its places: most required first, then most pressure.</summary>
    private static (int Required, double Removed) BruteForce(WorkDayAsked asked)
    {
        (int Required, double Removed) best = (0, 0);
        for (var set = 1; set < 1 << asked.Cases.Count; set++)
        {
            var chosen = Enumerable.Range(0, asked.Cases.Count).Where(i => (set >> i & 1) == 1).ToList();
            var places = chosen.Select(c => asked.Cases[c].Place).Distinct().ToList();
            var hours = chosen.Sum(c => asked.Cases[c].PersonHours + (asked.People * 0.1));
            var room = ((asked.People * asked.Hours) - hours) * asked.MetresPerHour / asked.People;
            if (room < 0 || Shortest(asked, places, -1, 0) > room)
            {
                continue;
            }

            var worth = (chosen.Count(c => asked.Cases[c].IsRequired), chosen.Sum(c => asked.Cases[c].PressureRemoved));
            best = worth.CompareTo(best) > 0 ? worth : best;
        }

        return best;
    }

    private static double Shortest(WorkDayAsked asked, List<int> left, int at, double way) => left.Count == 0 ? way
        : left.Min(next => Shortest(asked, [.. left.Where(p => p != next)], next, way + (at < 0 ? 0 : asked.MetresBetween[at][next])));

    [Theory]
    [InlineData(1, 9, 5, 3, 2)]
    [InlineData(2, 9, 4, 2, 2.5)]
    [InlineData(3, 10, 5, 4, 1.5)]
    [InlineData(4, 8, 6, 1, 4)]
    [InlineData(5, 10, 5, 9, 0.5)]
    public void The_choice_is_as_good_as_trying_every_one(int seed, int cases, int places, int people, double hours)
    {
        var asked = Chance(seed, cases, places, people, hours);
        var (required, removed) = BruteForce(asked);
        var choice = WorkDayPlanner.Solve(asked);
        choice.Order.Count(c => asked.Cases[c].IsRequired).ShouldBe(required);
        // Within the half per cent at which the search stops.
        choice.PressureRemoved.ShouldBeInRange(removed * 0.99, removed + 1e-9);
        choice.Bound.ShouldBeGreaterThanOrEqualTo(removed - 1e-4);
        choice.IsProven.ShouldBeTrue();
        choice.PersonHoursUsed.ShouldBeLessThanOrEqualTo(people * hours + 1e-9);
        choice.RequiredLeftOut.Count.ShouldBe(asked.Cases.Count(c => c.IsRequired) - required);
    }

    [Fact]
    public void With_many_places_what_is_chosen_still_fits_with_its_way()
    {
        var asked = Chance(10, 60, 40, 6, 4);
        var choice = WorkDayPlanner.Solve(asked);
        choice.PersonHoursUsed.ShouldBeLessThanOrEqualTo(24 + 1e-9);
        choice.Order.Distinct().Count().ShouldBe(choice.Order.Count);
        choice.PressureRemoved.ShouldBeLessThanOrEqualTo(choice.Bound + 1e-9);
    }

    // The work the solver may do is counted, not timed: the answer is the same on a slow machine.
    [Theory]
    [InlineData(1, 9, 3)]
    [InlineData(2, 20, 4)]
    [InlineData(4, 4, 2)]
    public void Three_hundred_cases_on_38_blocks_are_proven_within_one_per_cent(int seed, int people, double hours) =>
        WorkDayPlanner.Solve(Chance(seed, 300, 38, people, hours)).IsProven.ShouldBeTrue();

    [Fact]
    public void More_hands_never_remove_less()
    {
        var asked = Chance(7, 24, 8, 4, 2);
        var removed = Enumerable.Range(3, 5).Select(people => WorkDayPlanner.Solve(asked with
        {
            People = people,
            Cases = [.. asked.Cases.Select(c => c with { IsRequired = false })]
        }).PressureRemoved).ToList();
        removed.Zip(removed.Skip(1)).ShouldAllBe(p => p.Second >= p.First * 0.99);
    }

    [Fact]
    public void Nothing_fits_where_every_case_is_too_long_and_a_day_without_people_is_refused()
    {
        var asked = Chance(8, 4, 2, 1, 0.1);
        var none = WorkDayPlanner.Solve(asked);
        (none.Order.Count, none.PressureRemoved, none.WalkMetres).ShouldBe((0, 0, 0));
        Should.Throw<ArgumentException>(() => WorkDayPlanner.Solve(asked with { People = 0 }));
        Should.Throw<ArgumentException>(() => WorkDayPlanner.Solve(asked with { Hours = double.NaN }));
    }

    [Fact]
    public void The_walk_through_the_chosen_places_is_the_shortest()
    {
        var asked = Chance(9, 8, 7, 4, 9);
        var (order, metres) = WalkOrder.Of(asked, [.. Enumerable.Range(0, 8)]);
        order.Order().ShouldBe(Enumerable.Range(0, 8));
        metres.ShouldBe(Shortest(asked, [.. asked.Cases.Select(c => c.Place).Distinct()], -1, 0), 1e-9);
    }

    [Fact]
    public void Ways_follow_the_streets_and_not_the_roofs()
    {
        // Three blocks round a corner: 0.001° of latitude is 111.195 m on the sphere. From the middle of the first to that of the third is
        // half, one whole and half: two blocks' lengths.
        (double, double) P(double x, double y) => (-88 + (x * 0.001), 41 + (y * 0.001));
        var ways = StreetWays.Between([(41.0005, -88, new([P(0, 0), P(0, 1)])), (41.0015, -88, new([P(0, 1), P(0, 2)])),
            (41.0025, -88, new([P(0, 2), P(0, 3)])), (41.5, -88, new([]))]);
        ways[0][2].ShouldBe(2 * 111.195, 0.01);
        ways[2][0].ShouldBe(ways[0][2]);
        ways[0][3].ShouldBe(1.3 * 0.4995 * 111_195, 1);
    }
}
