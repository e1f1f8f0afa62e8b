using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CommonGround.Benchmarks;

/// <summary>How long a person waits for the first page of a published site that was just started on a filled demo folder.</summary>
internal static class FirstPage
{
    private const int Times = 5;

    /// <param name="site">The folder that <c>dotnet publish</c> wrote.</param>
    public static async Task PrintAsync(string site)
    {
        var data = Directory.CreateTempSubdirectory("commonground-first-page-").FullName;
        try
        {
            // Fills the folder and lets the machine read the files once; not counted.
            await StartAsync(site, data);
            var runs = new List<(double Milliseconds, double ProcessorMilliseconds, int Bytes)>();
            for (var i = 0; i < Times; i++)
            {
                runs.Add(await StartAsync(site, data));
            }

            foreach (var run in runs)
            {
                Console.WriteLine($"first page after {run.Milliseconds:0} ms, {run.ProcessorMilliseconds:0} ms of processor time, {run.Bytes:n0} bytes");
            }

            Console.WriteLine($"median {runs.Select(r => r.Milliseconds).Order().ElementAt(Times / 2):0} ms");
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static async Task<(double Milliseconds, double ProcessorMilliseconds, int Bytes)> StartAsync(string site, string data)
    {
        var address = new Uri($"http://127.0.0.1:{FreePort()}/");
        var start = new ProcessStartInfo("dotnet", [Path.Combine(site, "CommonGround.Web.dll"), "--data", data, $"--urls={address}"])
        {
            WorkingDirectory = site,
            UseShellExecute = false,
            RedirectStandardOutput = true,
        };
        using var client = new HttpClient();
        var since = Stopwatch.GetTimestamp();
        using var process = Process.Start(start)!;
        // Read away, so that a full pipe never holds the site up.
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        try
        {
            var page = await PageAsync(client, address, process);
            var waited = Stopwatch.GetElapsedTime(since).TotalMilliseconds;
            return (waited, process.TotalProcessorTime.TotalMilliseconds, page.Length);
        }
        finally
        {
            process.Kill();
            await process.WaitForExitAsync();
        }
    }

    private static async Task<string> PageAsync(HttpClient client, Uri address, Process process)
    {
        while (!process.HasExited)
        {
            try
            {
                var page = await client.GetStringAsync(address);
                return page.Contains("</html>", StringComparison.Ordinal) && page.Contains("In flower", StringComparison.Ordinal)
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
}
