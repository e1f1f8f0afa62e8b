using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CommonGround.Benchmarks;

/// <summary>How long a person waits for the first page of a published site that was just started on a filled demo folder.</summary>
internal static class FirstPage
{
    private const int Times = 5;

    /// <param name="site">The folder that <c>dotnet publish</c> wrote.</param>
    /// <param name="empty">The same of an empty site (<c>dotnet new blazor --interactivity Server</c>), started in turn with ours: what the
    /// framework alone needs here.</param>
    public static async Task PrintAsync(string site, string? empty)
    {
        var data = Directory.CreateTempSubdirectory("commonground-first-page-").FullName;
        try
        {
            // Fills the folder and lets the machine read the files once; not counted.
            await StartAsync(site, "CommonGround.Web.dll", "In flower", data);
            var (ours, quick, theirs) = (new List<Start>(), new List<Start>(), new List<Start>());
            for (var i = 0; i < Times; i++)
            {
                ours.Add(await StartAsync(site, "CommonGround.Web.dll", "In flower", data));
                quick.Add(await StartAsync(site, "CommonGround.Web.dll", "In flower", data, writeXorExecute: false));
                if (empty is not null)
                {
                    theirs.Add(await StartAsync(empty, Path.GetFileName(Directory.GetFiles(empty, "*.runtimeconfig.json").Single())
                        .Replace(".runtimeconfig.json", ".dll", StringComparison.Ordinal), "Hello", data));
                }
            }

            Print("first page", ours);
            Print("first page, memory writable and executable at once", quick);
            Print("an empty site", theirs);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static void Print(string what, List<Start> starts)
    {
        foreach (var start in starts)
        {
            Console.WriteLine($"{what} after {start.Milliseconds:0} ms, {start.ProcessorMilliseconds:0} ms of processor time, "
                + $"{start.Bytes:n0} bytes");
        }

        if (starts.Count > 0)
        {
            Console.WriteLine($"{what}: median {starts.Select(r => r.Milliseconds).Order().ElementAt(starts.Count / 2):0} ms");
        }
    }

    private static async Task<Start> StartAsync(string site, string program, string word, string data, bool writeXorExecute = true)
    {
        var address = new Uri($"http://127.0.0.1:{FreePort()}/");
        var start = new ProcessStartInfo("dotnet", [Path.Combine(site, program), "--data", data, $"--urls={address}"])
        {
            WorkingDirectory = site,
            UseShellExecute = false,
            RedirectStandardOutput = true,
        };
        // The runtime's own switch; on by default, a hardening that costs a start its time.
        start.Environment["DOTNET_EnableWriteXorExecute"] = writeXorExecute ? "1" : "0";
        using var client = new HttpClient();
        var since = Stopwatch.GetTimestamp();
        using var process = Process.Start(start)!;
        // Read away, so that a full pipe never holds the site up.
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        try
        {
            var page = await PageAsync(client, address, process, word);
            var waited = Stopwatch.GetElapsedTime(since).TotalMilliseconds;
            return new Start(waited, process.TotalProcessorTime.TotalMilliseconds, page.Length);
        }
        finally
        {
            process.Kill();
            await process.WaitForExitAsync();
        }
    }

    private static async Task<string> PageAsync(HttpClient client, Uri address, Process process, string word)
    {
        while (!process.HasExited)
        {
            try
            {
                var page = await client.GetStringAsync(address);
                return page.Contains("</html>", StringComparison.Ordinal) && page.Contains(word, StringComparison.Ordinal)
                    ? page
                    : throw new InvalidOperationException("The first page is not complete.");
            }
            catch (HttpRequestException e) when (e.HttpRequestError == HttpRequestError.ConnectionError)
            {
                // Not listening yet.
                await Task.Delay(5);
            }
        }

        throw new InvalidOperationException($"The site stopped with exit code {process.ExitCode}.");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private readonly record struct Start(double Milliseconds, double ProcessorMilliseconds, int Bytes);
}
