using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tests.YardReports;

public sealed class ManyAtOnceTests
{
    [Fact]
    public async Task Eight_reports_written_at_once_read_like_eight_written_one_after_another()
    {
        YardReport[] reports =
        [
            SampleYards.Settled(), SampleYards.Lawn(), SampleYards.ThreeSpecies(), SampleYards.Crowded(80),
            SampleYards.Settled(Units.UsCustomary), SampleYards.Crowded(40), SampleYards.Crowded(60), SampleYards.Crowded(20),
        ];
        var serial = reports.Select((r, i) => ReadBack.Of(r, Paper(i))).ToList();
        for (var round = 0; round < 3; round++)
        {
            using var start = new ManualResetEventSlim();
            var running = reports.Select((r, i) => Task.Factory.StartNew(
                () =>
                {
                    start.Wait();
                    return ReadBack.Of(r, Paper(i));
                }, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default)).ToList();
            start.Set();
            var parallel = await Task.WhenAll(running);
            for (var i = 0; i < reports.Length; i++)
            {
                parallel[i].Pages.ShouldBe(serial[i].Pages);
                Math.Abs(parallel[i].Bytes.Length - serial[i].Bytes.Length).ShouldBeLessThan(200);
            }
        }
    }

    private static PaperSize Paper(int i) => i % 2 == 0 ? PaperSize.Letter : PaperSize.A4;
}
