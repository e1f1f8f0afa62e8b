using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CommonGround.Benchmarks;

/// <summary>Target 6: from process start to the whole first page, on a database that is already filled. The median of seven starts.</summary>
internal static class FirstPage
{
    /// <param name="program">The published CommonGround.Web.dll.</param>
    public static async Task MeasureAsync(string program)
    {
        var folder = Directory.CreateTempSubdirectory("commonground-first-").FullName;
        await StartAsync(program, folder); // fills the database
        var times = new List<double>();
        for (var i = 0; i < 7; i++)
        {
            times.Add(await StartAsync(program, folder));
        }

        Directory.Delete(folder, recursive: true);
        Console.WriteLine($"First page after process start, ms: {string.Join(", ", times.Select(t => t.ToString("0")))}; median {times.Order().ElementAt(3):0}");
    }

    private static async Task<double> StartAsync(string program, string folder)
    {
        var address = $"http://127.0.0.1:{FreePort()}";
        var watch = Stopwatch.StartNew();
        using var site = Process.Start(new ProcessStartInfo("dotnet", [program, "--data", folder, "--urls", address]) { RedirectStandardOutput = true, UseShellExecute = false, WorkingDirectory = Path.GetDirectoryName(Path.GetFullPath(program))! })!;
        site.OutputDataReceived += (_, _) => { };
        site.BeginOutputReadLine();
        using var client = new HttpClient();
        string? page = null;
        while (page is null && !site.HasExited)
        {
            try
            {
                page = await client.GetStringAsync(address);
            }
            catch (HttpRequestException)
            {
                await Task.Delay(10); // not listening yet
            }
        }

        var elapsed = watch.Elapsed.TotalMilliseconds;
        site.Kill();
        await site.WaitForExitAsync();
        return page?.Contains("In flower now", StringComparison.Ordinal) == true ? elapsed : throw new InvalidOperationException("The first page did not come.");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
