using System.Diagnostics;
using System.Globalization;
using System.Net;

namespace CommonGround.Benchmarks;

/// <summary>A published site for half an hour with a hundred live pages that are clicked, closed and opened again, and readers beside them:
/// memory has to be flat in the end.</summary>
internal static class Soak
{
    private const int Circuits = 100;
    private static readonly string[] Live = ["/yards/register", "/yards/KI-05/record"],
        Read = ["/", "/streets", "/plants", "/yards/KI-05", "/streets/late-season"];

    /// <param name="site">The folder that <c>dotnet publish</c> wrote.</param>
    /// <param name="minutes">For how long.</param>
    public static async Task PrintAsync(string site, int minutes)
    {
        var data = Directory.CreateTempSubdirectory("commonground-soak-").FullName;
        try
        {
            using var ours = await ServedSite.StartAsync(site, "CommonGround.Web.dll", data);
            using var end = new CancellationTokenSource(TimeSpan.FromMinutes(minutes));
            var clicks = new System.Collections.Concurrent.ConcurrentQueue<double>();
            var people = Enumerable.Range(0, Circuits).Select(i => EditAsync(ours.Address, i, clicks, end.Token))
                .Append(ReadAsync(ours.Address, end.Token)).ToList();
            var memory = new List<long>();
            var watch = Stopwatch.StartNew();
            while (!end.IsCancellationRequested)
            {
                await Task.Delay(TimeSpan.FromSeconds(30), end.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                memory.Add(ours.ResidentBytes());
                var times = new List<double>();
                while (clicks.TryDequeue(out var time))
                {
                    times.Add(time);
                }

                if (times.Count > 0)
                {
                    OpenCircuits.Print(
                        string.Create(
                            CultureInfo.InvariantCulture, $"{watch.Elapsed.TotalMinutes:0.0} min, {memory[^1] >> 20} MB, click to render"),
                                times);
                }
            }

            await Task.WhenAll(people);
            Compare(memory);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    /// <summary>The first third is warming up: the last third against the middle one.</summary>
    private static void Compare(List<long> memory)
    {
        var third = memory.Count / 3;
        if (third == 0)
        {
            return;
        }

        var (middle, last) = (memory.Skip(third).Take(third).Average(), memory.Skip(2 * third).Average());
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture, $"memory: {middle / 1048576:0} MB in the middle third, {last / 1048576:0} MB in the last: "
                    + $"{(last - middle) / middle:+0.0%;-0.0%}"));
    }

    private static async Task EditAsync(Uri site, int number, System.Collections.Concurrent.ConcurrentQueue<double> clicks,
        CancellationToken cancel)
    {
        var chance = new Random(number);
        while (!cancel.IsCancellationRequested)
        {
            await using var page = await HubCircuit.OpenAsync(site, Live[(number + chance.Next(Live.Length)) % Live.Length], "btn main",
                "organiser");
            for (var left = chance.Next(5, 30); left > 0 && !cancel.IsCancellationRequested; left--)
            {
                clicks.Enqueue(await page.ClickAsync());
                await Task.Delay(chance.Next(1000, 5000), cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private static async Task ReadAsync(Uri site, CancellationToken cancel)
    {
        var cookies = new CookieContainer();
        cookies.Add(site, new Cookie("cg-act", "organiser"));
        using var handler = new HttpClientHandler { CookieContainer = cookies, AutomaticDecompression = DecompressionMethods.All };
        using var http = new HttpClient(handler) { BaseAddress = site };
        for (var turn = 0; !cancel.IsCancellationRequested; turn++)
        {
            await http.GetStringAsync(Read[turn % Read.Length], CancellationToken.None);
            await Task.Delay(250, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
