using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace CommonGround.Benchmarks;

/// <summary>Many open pages with clicks on a published site, and twenty people who ask for plans and reports at once; an empty Blazor Server site is measured in the same run.</summary>
internal static class OpenCircuits
{
    private const int Clicks = 5, PeopleWithPlans = 20;

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
                await MeasureAsync("the list of yards, sorted anew", ours, "/yards", "button", "organiser", circuits);
                await WithPlansAsync(ours);
            }

            if (empty is not null)
            {
                var program = Path.GetFileName(Directory.GetFiles(empty, "*.runtimeconfig.json").Single()).Replace(".runtimeconfig.json", ".dll", StringComparison.Ordinal);
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

        var before = site.ResidentBytes();
        var open = new List<HubCircuit>();
        var since = Stopwatch.GetTimestamp();
        while (open.Count < count)
        {
            open.AddRange(await Task.WhenAll(Enumerable.Range(0, Math.Min(5, count - open.Count)).Select(_ => HubCircuit.OpenAsync(site.Address, path, word, role))));
        }

        Console.WriteLine($"{what}: {count} open after {Stopwatch.GetElapsedTime(since).TotalSeconds:0.0} s, {(site.ResidentBytes() - before) / 1024 / count} KB of resident memory each");
        Print($"{what}, click to render", await ClicksAsync(open));
        foreach (var circuit in open)
        {
            await circuit.DisposeAsync();
        }
    }

    /// <summary>Somebody clicks while twenty people ask for plans and reports.</summary>
    private static async Task WithPlansAsync(ServedSite site)
    {
        await using var circuit = await HubCircuit.OpenAsync(site.Address, "/yards", "button", "organiser");
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
                var path = (person + turn) % 2 == 0 ? $"/yards/{yards[person % yards.Length]}/plan" : $"/yards/{yards[person % yards.Length]}/report.pdf";
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

    private static void Print(string what, List<double> milliseconds)
    {
        milliseconds.Sort();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: median {milliseconds[milliseconds.Count / 2]:0.0} ms, 95 % within {milliseconds[(int)(milliseconds.Count * 0.95)]:0.0} ms, longest {milliseconds[^1]:0.0} ms, of {milliseconds.Count}"));
    }

    /// <summary>A published site in a process of its own.</summary>
    private sealed class ServedSite(Process process, Uri address) : IDisposable
    {
        public Uri Address => address;

        public static async Task<ServedSite> StartAsync(string folder, string program, string data)
        {
            using var listener = new TcpListener(IPAddress.Loopback, 0);
            listener.Start();
            var address = new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/");
            listener.Stop();
            var start = new ProcessStartInfo("dotnet", [Path.Combine(folder, program), "--data", data, $"--urls={address}"]) { WorkingDirectory = folder, UseShellExecute = false, RedirectStandardOutput = true };
            // All come from one address; a group's members do not.
            foreach (var limit in new[] { "Limits__RequestsPerMinute", "Limits__CircuitsPerAddress", "Limits__Circuits" })
            {
                start.Environment[limit] = "100000";
            }

            var process = Process.Start(start) ?? throw new InvalidOperationException("The site did not start.");
            process.OutputDataReceived += (_, _) => { };
            process.BeginOutputReadLine();
            using var http = new HttpClient();
            while (true)
            {
                try
                {
                    await http.GetStringAsync(address);
                    return new ServedSite(process, address);
                }
                catch (HttpRequestException) when (!process.HasExited)
                {
                    await Task.Delay(20);
                }
            }
        }

        public long ResidentBytes()
        {
            process.Refresh();
            return process.WorkingSet64;
        }

        public void Dispose()
        {
            process.Kill();
            process.WaitForExit();
            process.Dispose();
        }
    }
}
