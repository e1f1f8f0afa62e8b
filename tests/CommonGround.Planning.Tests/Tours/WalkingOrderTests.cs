using CommonGround.Planning.Tours;

namespace CommonGround.Planning.Tests.Tours;

public class WalkingOrderTests
{
    [Fact]
    public void Yards_of_a_street_are_walked_from_one_end_to_the_other()
    {
        (double, double)[] stops = [(41.503, -88.5), (41.501, -88.5), (41.504, -88.5), (41.502, -88.5)];
        WalkingOrder.Of(stops).ShouldBe([2, 0, 3, 1]);
        WalkingOrder.Of([]).ShouldBeEmpty();
        WalkingOrder.Of([(41.5, -88.5)]).ShouldBe([0]);
    }

    // The check is every order there is: 5,040 of seven stops.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void No_other_order_of_seven_stops_is_shorter(int seed)
    {
        var stops = Scattered(seed, 7);
        var shortest = Orders([0, 1, 2, 3, 4, 5, 6], 0).Min(way => WalkingOrder.Length(stops, way));
        WalkingOrder.Length(stops, WalkingOrder.Of(stops)).ShouldBe(shortest, 1e-6);
    }

    [Theory]
    [InlineData(12)]
    [InlineData(40)]
    public void Many_stops_are_each_walked_once_and_no_piece_turned_round_shortens_the_way(int count)
    {
        var stops = Scattered(9, count);
        var way = WalkingOrder.Of(stops);
        way.Order().ShouldBe(Enumerable.Range(0, count));
        var length = WalkingOrder.Length(stops, way);
        for (var i = 0; i < count; i++)
        {
            for (var j = i + 1; j < count; j++)
            {
                int[] turned = [.. way.Take(i), .. way.Skip(i).Take(j - i + 1).Reverse(), .. way.Skip(j + 1)];
                WalkingOrder.Length(stops, turned).ShouldBeGreaterThanOrEqualTo(length - 1e-6);
            }
        }
    }

    [Fact]
    public void The_same_stops_in_another_order_give_the_same_walk()
    {
        var stops = Scattered(4, 9);
        var walk = WalkingOrder.Of(stops).Select(i => stops[i]).ToList();
        List<(double, double)> turned = [.. stops.Reverse()];
        WalkingOrder.Of(turned).Select(i => turned[i]).ShouldBe(walk);
    }

    private static (double Latitude, double Longitude)[] Scattered(int seed, int count)
    {
        var chance = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (41.5 + (chance.NextDouble() * 0.01), -88.5 + (chance.NextDouble() * 0.01)))];
    }

    private static IEnumerable<int[]> Orders(int[] way, int from)
    {
        if (from == way.Length)
        {
            yield return [.. way];
        }

        for (var i = from; i < way.Length; i++)
        {
            (way[from], way[i]) = (way[i], way[from]);
            foreach (var order in Orders(way, from + 1))
            {
                yield return order;
            }

            (way[from], way[i]) = (way[i], way[from]);
        }
    }
}
