using CommonGround.Reports.Layout;

namespace CommonGround.Reports.Tests.Layout;

public sealed class PaginationTests
{
    [Fact]
    public void Nothing_takes_no_page() => Pagination.Pages(Pagination.Place([], 100)).ShouldBe(0);

    [Fact]
    public void Slices_follow_each_other_until_the_page_is_full()
    {
        var placed = Pagination.Place([Flow(40, 40, 40)], 100);
        placed.Select(p => (p.Page, p.Y)).ShouldBe([(0, 0), (0, 40), (1, 0)]);
        Pagination.Pages(placed).ShouldBe(2);
    }

    [Fact]
    public void Space_before_is_dropped_at_the_top_of_a_page()
    {
        var placed = Pagination.Place([Flow(60) with { SpaceBefore = 10 }, Flow(50) with { SpaceBefore = 10 }], 100);
        placed.Select(p => (p.Page, p.Y)).ShouldBe([(0, 0), (1, 0)]);
    }

    [Fact]
    public void A_heading_goes_to_the_next_page_with_what_it_heads()
    {
        var placed = Pagination.Place([Flow(70), Kept(20), Flow(30)], 100);
        placed.Select(p => p.Page).ShouldBe([0, 1, 1]);
    }

    [Fact]
    public void Space_between_a_heading_and_its_table_counts()
    {
        var placed = Pagination.Place([Flow(50), Kept(20), Flow(25) with { SpaceBefore = 8 }], 100);
        placed.Select(p => p.Page).ShouldBe([0, 1, 1]);
    }

    [Fact]
    public void A_table_repeats_its_head_on_each_further_page()
    {
        var head = Slice(10, keep: true);
        var table = new Flow([head, .. Enumerable.Repeat(0, 8).Select(_ => Slice(30))]) { RepeatedHead = head };
        var placed = Pagination.Place([table], 100);
        Pagination.Pages(placed).ShouldBe(3);
        placed.GroupBy(p => p.Page).Select(g => g.First().Slice).ShouldAllBe(s => ReferenceEquals(s, head));
        placed.Count.ShouldBe(8 + 3);
    }

    [Fact]
    public void What_is_taller_than_a_page_is_placed_once_and_does_not_loop()
    {
        var placed = Pagination.Place([Flow(20), Flow(500), Flow(20)], 100);
        placed.Select(p => p.Page).ShouldBe([0, 1, 2]);
    }

    [Fact]
    public void A_chain_taller_than_a_page_is_broken_rather_than_lost()
    {
        var placed = Pagination.Place([Flow(10), Kept(60, 60, 60), Flow(10)], 100);
        placed.Count.ShouldBe(5);
        placed.ShouldAllBe(p => p.Y + p.Slice.Height <= 100);
    }

    [Fact]
    public void No_slice_is_lost_split_or_drawn_below_the_page_whatever_the_heights()
    {
        // Heights from a fixed congruential sequence: the same thousand flows in every run.
        uint state = 7;
        int Next(int below) => (int)((state = (state * 1664525) + 1013904223) >> 8) % below;
        var flows = Enumerable.Range(0, 1000).Select(_ =>
        {
            var head = Slice(12, keep: true);
            var slices = Enumerable.Range(0, 1 + Next(6)).Select(_ => Slice(4 + Next(60), keep: Next(3) == 0)).ToList();
            return Next(2) == 0 ? new Flow(slices) { SpaceBefore = Next(20) } : new Flow([head, .. slices]) { RepeatedHead = head };
        }).ToList();
        var placed = Pagination.Place(flows, 200);
        placed.ShouldAllBe(p => p.Y + p.Slice.Height <= 200.01);
        placed.Select(p => p.Slice).Distinct(ReferenceEqualityComparer.Instance).Count().ShouldBe(flows.Sum(f => f.Slices.Count));
        for (var i = 1; i < placed.Count; i++)
        {
            (placed[i].Page > placed[i - 1].Page || placed[i].Y >= placed[i - 1].Y + placed[i - 1].Slice.Height).ShouldBeTrue();
        }
    }

    private static Slice Slice(double height, bool keep = false) => new(height, (_, _) => { }, keep);

    private static Flow Flow(params double[] heights) => new([.. heights.Select(h => Slice(h))]);

    private static Flow Kept(params double[] heights) => new([.. heights.Select(h => Slice(h, keep: true))]);
}
