using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;

namespace CommonGround.Web.Tests.Features.Walks;

public sealed class WalkDayTests
{
    /// <summary>The phone's clock is off the whole time; it tapped an hour before it sent.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(60)]
    [InlineData(-60)]
    [InlineData(24 * 60)]
    [InlineData(-24 * 60)]
    [InlineData(366 * 24 * 60)]
    [InlineData(-366 * 24 * 60)]
    public async Task A_clock_that_is_off_the_whole_time_is_corrected_by_the_sites(int minutesOff)
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var look = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing });
        var off = TimeSpan.FromMinutes(minutesOff);
        var answer = await garden.Receive().SaveAsync(new WalkBatch(Walking.Noon + off, [look with { SaidAtUtc = look.SaidAtUtc + off }]),
            walker);
        answer.Receipts.Single().ShouldBe(new WalkReceipt(look.Id, ReceiptState.Stored, ""));
        (await garden.SightingsAsync())[^1].ObservedOn.ShouldBe(Garden.Today);
    }

    /// <summary>The clock was wrong in the garden and was put right before sending.</summary>
    [Theory]
    [InlineData(-366, "July 20, 2026")]
    [InlineData(400, "August 19, 2026")]
    public async Task A_clock_that_was_put_right_since_gives_itself_away_and_the_walker_is_told(int daysOff, string told)
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var look = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing });
        var receipt = (await garden.SendAsync(walker, look with { SaidAtUtc = look.SaidAtUtc.AddDays(daysOff) })).Receipts.Single();
        receipt.State.ShouldBe(ReceiptState.Stored);
        receipt.Message.ShouldContain("clock was off");
        receipt.Message.ShouldContain(told);
    }

    [Fact]
    public async Task The_first_and_the_last_moment_a_clock_can_show_do_no_harm()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        foreach (var moment in new[] { DateTime.MinValue, DateTime.MaxValue })
        {
            var utc = DateTime.SpecifyKind(moment, DateTimeKind.Utc);
            var look = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing });
            (await garden.Receive().SaveAsync(new WalkBatch(utc, [look with { SaidAtUtc = utc, AfterUtc = utc }]), walker))
                .Receipts.Single().State.ShouldBe(ReceiptState.Stored);
        }
    }
}
