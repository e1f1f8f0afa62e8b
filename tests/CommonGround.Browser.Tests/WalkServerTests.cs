using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Microsoft.Data.Sqlite;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>The server is killed while a phone sends, and started again: what was tapped is stored once.</summary>
[Collection(WalkCollection.Name)]
public sealed class WalkServerTests(WalkedSite site) : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-killed-").FullName;
    private Process? server;

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync()
    {
        await KillAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_server_that_dies_while_a_walk_is_sent_has_all_of_it_once_when_it_is_back(bool answered)
    {
        var port = FreePort();
        var address = $"http://127.0.0.1:{port}";
        await ServeAsync(address);
        var phone = await Phone.OpenAsync(site, address: address);
        await phone.TakeAlongAsync("CO-01");
        await phone.CutAsync();
        for (var i = 0; i < 5; i++)
        {
            await phone.AsExpectedAsync();
        }

        await phone.WaitingAsync(5);
        var killed = new TaskCompletionSource();
        await phone.Page.RouteAsync("**/walk/data/notes", async route =>
        {
            // Killed after it had stored them and before the phone heard of it, or before it got them.
            if (answered)
            {
                await route.FetchAsync();
            }

            await KillAsync();
            await route.AbortAsync();
            killed.TrySetResult();
        }, new() { Times = 1 });
        await phone.SignalAsync();
        await killed.Task;
        await phone.WaitingAsync(5);
        await phone.ReopenAsync("CO-01");
        await phone.WaitingAsync(5);
        await Expect(phone.Net).ToContainTextAsync("No signal");
        (await StoredAsync()).ShouldBe(answered ? 5 : 0);

        await ServeAsync(address);
        // Nobody tells the phone, and nobody presses anything.
        await phone.WaitingAsync(0);
        (await StoredAsync()).ShouldBe(5);
        await phone.CloseAsync();
    }

    private async Task<long> StoredAsync()
    {
        await using var db = new SqliteConnection($"Data Source={Directory.GetFiles(folder, "*.db").Single()};Pooling=False");
        await db.OpenAsync();
        await using var ask = db.CreateCommand();
        ask.CommandText =
            "SELECT COUNT(*) FROM Sightings s JOIN Yards y ON y.Id = s.YardId WHERE y.Code = 'CO-01' AND s.ObservedOn = '2026-08-19'";
        return (long)(await ask.ExecuteScalarAsync())!;
    }

    private async Task ServeAsync(string address)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "CommonGround.Web.dll"), "--urls", address,
            "--data", folder])
        {
            Environment = { ["Backup__Every"] = "0", ["Limits__RequestsPerMinute"] = "100000" },
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        server = Process.Start(start).ShouldNotBeNull();
        server.OutputDataReceived += (_, _) => { };
        server.BeginOutputReadLine();
        using var client = new HttpClient();
        while (!await IsReadyAsync(client, address + "/health/ready"))
        {
            server.HasExited.ShouldBeFalse("the site did not start");
            await Task.Delay(50);
        }
    }

    private async Task KillAsync()
    {
        if (server is { HasExited: false })
        {
            server.Kill(entireProcessTree: true);
            await server.WaitForExitAsync();
        }

        server?.Dispose();
        server = null;
    }

    private static async Task<bool> IsReadyAsync(HttpClient client, string address)
    {
        try
        {
            return (await client.GetAsync(address)).StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
