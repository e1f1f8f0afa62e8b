using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CommonGround.Benchmarks;

/// <summary>A published site in a process of its own.</summary>
internal sealed class ServedSite(Process process, Uri address) : IDisposable
{
    public Uri Address => address;

    public static async Task<ServedSite> StartAsync(string folder, string program, string data)
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var address = new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/");
        listener.Stop();
        var start = new ProcessStartInfo("dotnet", [Path.Combine(folder, program), "--data",
            data, $"--urls={address}"])
        { WorkingDirectory = folder, UseShellExecute = false, RedirectStandardOutput = true };
        // All come from one address; a group's members do not.
        foreach (var limit in new[] { "Limits__RequestsPerMinute", "Limits__CircuitsPerAddress", "Limits__Circuits", "Limits__Readers",
            "Limits__ReadersPerAddress" })
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
