using System.Diagnostics;
using System.Globalization;
using System.Net;

namespace CommonGround.Benchmarks;

/// <summary>
/// A published site under its readers: many who read and wait for news, which costs no circuit; many live pages with clicks, opened and
/// closed three times over to see whether memory comes back; and twenty people who ask for plans and reports at once. An empty Blazor
/// Server site is measured in the same run.
/// </summary>
internal static class OpenCircuits
{
    private const int Clicks = 5, PeopleWithPlans = 20, Readers = 1000, Rounds = 3;
    private static readonly string[] ReadingPages = ["/", "/streets", "/streets/late-season", "/plants", "/plants/monarda-fistulosa",
        "/yards", "/yards/KI-05"];

    /// <param name="site">The folder that <c>dotnet publish</c> wrote.</param>
    /// <param name="empty">The same of an empty site (<c>dotnet new blazor --interactivity Server</c>), or null.</param>
    /// <param name="circuits">How many pages are open at once.</param>
    public static async Task PrintAsync(string site, string? empty, int circuits)
    {
        var data = Directory.CreateTempSubdirectory("commonground-circuits-").FullName;
        try
        {
            using (var ours = await ServedSite.StartAsync(site, "CommonGround.Web.dll", data))
            {
                await WithReadersAsync(ours);
                await MeasureAsync("registering a yard, step by step", ours, "/yards/register", "btn main", "organiser", circuits);
                await WithPlansAsync(ours);
            }

            if (empty is not null)
            {
                var program = Path.GetFileName(Directory.GetFiles(empty, "*.runtimeconfig.json").Single()).Replace(".runtimeconfig.json",
                    ".dll", StringComparison.Ordinal);
                using var theirs = await ServedSite.StartAsync(empty, program, data);
                await MeasureAsync("an empty site's counter", theirs, "/counter", "btn btn-primary", "", circuits);
            }
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static async Task MeasureAsync(string what, ServedSite site, string path, string word, string role, int count)
    {
        await using (var warm = await HubCircuit.OpenAsync(site.Address, path, word, role))
        {
            await warm.ClickAsync();
        }

        for (var round = 1; round <= Rounds; round++)
        {
            var before = site.ResidentBytes();
            var open = new List<HubCircuit>();
            var since = Stopwatch.GetTimestamp();
            while (open.Count < count)
            {
                open.AddRange(await Task.WhenAll(Enumerable.Range(0, Math.Min(5, count - open.Count))
                    .Select(_ => HubCircuit.OpenAsync(site.Address, path, word, role))));
            }

            Console.WriteLine($"{what}, round {round}: {count} open after {Stopwatch.GetElapsedTime(since).TotalSeconds:0.0} s, "
                + $"{(site.ResidentBytes() - before) / 1024 / count} KB of resident memory each, {site.ResidentBytes() >> 20} MB in all");
            Print($"{what}, from asking for the page until its button works", [.. open.Select(o => o.Opening.TotalMilliseconds)]);
            Print($"{what}, click to render", await ClicksAsync(open));
            await Task.WhenAll(open.Select(circuit => circuit.DisposeAsync().AsTask()));
            Console.WriteLine($"{what}, round {round}: {site.ResidentBytes() >> 20} MB when all are closed");
        }
    }

    /// <summary>A thousand people read a page each and keep it open, waiting for news; then each reads on.</summary>
    private static async Task WithReadersAsync(ServedSite site)
    {
        var cookies = new CookieContainer();
        cookies.Add(site.Address, new Cookie("cg-act", "organiser"));
        using var handler = new SocketsHttpHandler { CookieContainer = cookies, AutomaticDecompression = DecompressionMethods.All };
        using var http = new HttpClient(handler) { BaseAddress = site.Address, Timeout = TimeSpan.FromMinutes(5) };
        foreach (var page in ReadingPages)
        {
            await http.GetStringAsync(page);
        }

        var stamp = await http.GetStringAsync("/changes");
        var before = site.ResidentBytes();
        using var reading = new CancellationTokenSource();
        var waiting = Enumerable.Range(0, Readers).Select(_ => WaitAsync(http, stamp, reading.Token)).ToList();
        var (times, live, next) = (new System.Collections.Concurrent.ConcurrentBag<double>(), 0, 0);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(async _ =>
        {
            for (var reader = Interlocked.Increment(ref next); reader <= Readers; reader = Interlocked.Increment(ref next))
            {
                var since = Stopwatch.GetTimestamp();
                var html = await http.GetStringAsync(ReadingPages[reader % ReadingPages.Length]);
                times.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
                Interlocked.Add(ref live, html.Contains("\"type\":\"server\"", StringComparison.Ordinal) ? 1 : 0);
            }
        }));
        Console.WriteLine($"{Readers} readers: {live} circuits, {(site.ResidentBytes() - before) / 1024 / Readers} KB of resident memory "
            + $"each while they wait for news");
        Print("a reading page, eight asked for at a time beside those who wait", [.. times]);
        await reading.CancelAsync();
        await Task.WhenAll(waiting);
    }

    private static async Task WaitAsync(HttpClient http, string stamp, CancellationToken cancel)
    {
        try
        {
            while (!cancel.IsCancellationRequested)
            {
                using var answer = await http.GetAsync($"/changes?since={stamp}", cancel);
            }
        }
        catch (OperationCanceledException)
        {
            // Read enough.
        }
    }

    /// <summary>Somebody clicks while twenty people ask for plans and reports.</summary>
    private static async Task WithPlansAsync(ServedSite site)
    {
        await using var circuit = await HubCircuit.OpenAsync(site.Address, "/yards/register", "btn main", "organiser");
        using var asking = new CancellationTokenSource();
        var cookies = new CookieContainer();
        cookies.Add(site.Address, new Cookie("cg-act", "organiser"));
        using var handler = new HttpClientHandler { CookieContainer = cookies };
        using var http = new HttpClient(handler) { BaseAddress = site.Address, Timeout = TimeSpan.FromMinutes(5) };
        string[] yards = ["KI-05", "LA-07", "KI-01", "KI-02", "KI-03"];
        var answers = 0;
        var people = Enumerable.Range(0, PeopleWithPlans).Select(async person =>
        {
            for (var turn = 0; turn < 3; turn++)
            {
                var path = (person + turn) % 2 == 0 ? $"/yards/{yards[person % yards.Length]}/plan"
                    : $"/yards/{yards[person % yards.Length]}/report.pdf";
                using var answer = await http.GetAsync(new Uri(path, UriKind.Relative), asking.Token);
                Interlocked.Increment(ref answers);
            }
        }).ToList();
        var clicks = new List<double>();
        var all = Task.WhenAll(people);
        while (!all.IsCompleted)
        {
            clicks.Add(await circuit.ClickAsync());
            await Task.Delay(50);
        }

        await all;
        Print($"a click while {PeopleWithPlans} people ask for {answers} plans and reports", clicks);
    }

    private static async Task<List<double>> ClicksAsync(List<HubCircuit> open)
    {
        var pause = new Random(200);
        var times = await Task.WhenAll(open.Select(async circuit =>
        {
            var mine = new List<double>();
            for (var i = 0; i < Clicks; i++)
            {
                await Task.Delay(pause.Next(500, 3000));
                mine.Add(await circuit.ClickAsync());
            }

            return mine;
        }));
        return [.. times.SelectMany(t => t)];
    }

    internal static void Print(string what, List<double> milliseconds)
    {
        milliseconds.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture, $"{what}: median {milliseconds[milliseconds.Count / 2]:0.0} ms, 95 % within "
                    + $"{milliseconds[(int)(milliseconds.Count * 0.95)]:0.0} ms, longest {milliseconds[^1]:0.0} ms, of "
                    + $"{milliseconds.Count}"));
    }
}
