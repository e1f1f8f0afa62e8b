using CommonGround.Web.Shared;

namespace CommonGround.Web.Tests.Shared;

public class HeavyWorkTests
{
    [Fact]
    public async Task What_comes_later_waits_its_turn_and_beyond_the_bound_people_are_told_to_try_again()
    {
        using var work = new HeavyWork(atOnce: 1, waiting: 2);
        using var go = new ManualResetEventSlim();
        var order = new List<int>();
        var started = new TaskCompletionSource();
        var first = work.RunAsync(() =>
        {
            started.SetResult();
            go.Wait();
            return 1;
        });
        await started.Task;
        var second = work.RunAsync(() => Note(2));
        var third = work.RunAsync(() => Note(3));
        work.Waiting.ShouldBe(2);
        (await Should.ThrowAsync<TooBusyException>(() => work.RunAsync(() => Note(4)))).Message.ShouldContain("try again");
        go.Set();
        (await Task.WhenAll(first, second, third)).ShouldBe([1, 2, 3]);
        order.ShouldBe([2, 3]);
        (await work.RunAsync(() => 5)).ShouldBe(5);

        int Note(int n)
        {
            order.Add(n);
            return n;
        }
    }

    [Fact]
    public async Task Whoever_leaves_gives_up_their_place_and_a_failure_does_not_keep_the_next_out()
    {
        using var work = new HeavyWork(atOnce: 1, waiting: 1);
        using var go = new ManualResetEventSlim();
        using var leaving = new CancellationTokenSource();
        var started = new TaskCompletionSource();
        var first = work.RunAsync<int>(() =>
        {
            started.SetResult();
            go.Wait();
            throw new InvalidOperationException("as a bug would");
        });
        await started.Task;
        var gone = work.RunAsync(() => 2, leaving.Token);
        await leaving.CancelAsync();
        await Should.ThrowAsync<OperationCanceledException>(() => gone);
        var next = work.RunAsync(() => 3);
        go.Set();
        await Should.ThrowAsync<InvalidOperationException>(() => first);
        (await next).ShouldBe(3);
    }
}
