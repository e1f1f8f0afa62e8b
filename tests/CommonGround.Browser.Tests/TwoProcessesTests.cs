using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using CommonGround.Storage.Tests;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Two processes of the site on one PostgreSQL database behind nginx, as deploy/nginx.conf has it: written on one, read on the
/// other, one killed, nothing lost.</summary>
[Collection(SiteCollection.Name)]
public sealed class TwoProcessesTests(Site site) : IAsyncLifetime
{
    private readonly PostgresCluster cluster = new();
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-two-").FullName;
    private readonly List<Process> started = [];

    public Task InitializeAsync() => cluster.StartAsync();

    public async Task DisposeAsync()
    {
        foreach (var process in started)
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
                await process.WaitForExitAsync();
            }

            process.Dispose();
        }

        await cluster.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task What_one_process_stored_the_other_shows_and_keeps_when_the_first_is_killed()
    {
        var connection = cluster.NewDatabase();
        int[] ports = [FreePort(), FreePort()];
        var first = await ServeAsync(connection, ports[0]);
        var second = await ServeAsync(connection, ports[1]);
        var address = await ProxyAsync(ports);

        // Somebody comes through the proxy; its log says to which process it led them.
        var (writer, _) = await site.PageAsync(1280, ColorScheme.Light, "organiser", address);
        await GoAsync(writer, address + "/yards/KI-05/record");
        var at = ports.IndexOf(LastPort());
        var (one, other) = at == 0 ? (first, ports[1]) : (second, ports[0]);
        // Somebody else looks at the same yard on the other process, and keeps the page open.
        var (reader, _) = await site.PageAsync(1280, ColorScheme.Light, "organiser", $"http://127.0.0.1:{other}");
        await GoAsync(reader, $"http://127.0.0.1:{other}/yards/KI-05");
        var plant = reader.Locator("table.plantings").GetByRole(AriaRole.Rowheader, new() { Name = "rattlesnake master" });
        await Expect(plant).ToHaveCountAsync(0);

        const string Line = "rattlesnake master 1.5 fl";
        var entry = writer.Locator("#entry");
        await entry.PressSequentiallyAsync(Line, new() { Delay = 15 });
        await Expect(writer.Locator("#offers [role=option]").First).ToBeVisibleAsync();
        await Expect(entry).ToHaveValueAsync(Line);
        await writer.Keyboard.PressAsync("Enter");
        await Expect(entry).ToHaveValueAsync("");
        await writer.Keyboard.PressAsync("Control+Enter");
        await Expect(writer.GetByText("Saved 1 planting")).ToBeVisibleAsync();
        // The open page of the other process shows it by itself.
        await Expect(plant).ToHaveCountAsync(1);

        one.Kill(entireProcessTree: true);
        await one.WaitForExitAsync();
        // The same browser, by the same address, is led to the process that is left.
        var again = await writer.Context.NewPageAsync();
        await GoAsync(again, address + "/yards/KI-05");
        LastPort().ShouldBe(other);
        await Expect(again.Locator("table.plantings").GetByRole(AriaRole.Rowheader, new() { Name = "rattlesnake master" })).ToHaveCountAsync(1);
        await writer.Context.CloseAsync();
        await reader.Context.CloseAsync();
    }

    private async Task<Process> ServeAsync(string connection, int port)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "CommonGround.Web.dll"),
            "--urls", $"http://127.0.0.1:{port}", "--data", Path.Combine(folder, port.ToString())])
        {
            Environment =
            {
                ["Database__Provider"] = "postgres", ["Database__Connection"] = connection,
                    ["Photos__Folder"] = Path.Combine(folder, "photos"),
                ["Backup__Every"] = "0", ["Proxy__Known"] = "127.0.0.1", ["Limits__RequestsPerMinute"] = "100000",
            },
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        var process = Process.Start(start).ShouldNotBeNull();
        started.Add(process);
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        using var client = new HttpClient();
        while (!await IsReadyAsync(client, $"http://127.0.0.1:{port}/health/live"))
        {
            process.HasExited.ShouldBeFalse("the site did not start");
            await Task.Delay(50);
        }

        // Ready once the first page answers: the demo is brought in by then.
        (await client.GetAsync($"http://127.0.0.1:{port}/")).StatusCode.ShouldBe(HttpStatusCode.OK);
        return process;
    }

    /// <summary>nginx with the file that deploy/ hands out, on free ports.</summary>
    private async Task<string> ProxyAsync(int[] ports)
    {
        var port = FreePort();
        var handedOut = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "nginx.conf"));
        var fitted = handedOut.Replace("127.0.0.1:5081", $"127.0.0.1:{ports[0]}").Replace("127.0.0.1:5082", $"127.0.0.1:{ports[1]}")
            .Replace("listen 80;", $"listen 127.0.0.1:{port};");
        fitted.ShouldNotBe(handedOut);
        await File.WriteAllTextAsync(Path.Combine(folder, "site.conf"), fitted);
        await File.WriteAllTextAsync(Path.Combine(folder, "nginx.conf"),
            $$"""
            daemon off; pid {{folder}}/nginx.pid; error_log {{folder}}/error.log; worker_processes 1;
            events { worker_connections 256; }
            http {
                log_format led "$upstream_addr $uri"; access_log {{folder}}/access.log led;
                client_body_temp_path {{folder}}/body; proxy_temp_path {{folder}}/proxy; fastcgi_temp_path {{folder}}/f; uwsgi_temp_path {{folder}}/u; scgi_temp_path {{folder}}/s;
                include {{folder}}/site.conf;
            }
            """);
        var program = new[] { "/usr/sbin/nginx", "/usr/bin/nginx" }.FirstOrDefault(File.Exists)
            .ShouldNotBeNull("These tests need nginx: apt-get install nginx-light");
        started.Add(Process.Start(new ProcessStartInfo(program, ["-p", folder, "-c", Path.Combine(folder, "nginx.conf")]))
            .ShouldNotBeNull());
        using var client = new HttpClient();
        while (!await IsReadyAsync(client, $"http://127.0.0.1:{port}/health/live"))
        {
            started[^1].HasExited.ShouldBeFalse("nginx did not start");
            await Task.Delay(50);
        }

        return $"http://127.0.0.1:{port}";
    }

    private static async Task<bool> IsReadyAsync(HttpClient client, string address)
    {
        try
        {
            return (await client.GetAsync(address)).IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    /// <summary>The process that served the newest page, by nginx's log. Where the first one tried was gone, nginx names both; the last one
    /// answered.</summary>
    private int LastPort()
    {
        var line = File.ReadLines(Path.Combine(folder, "access.log")).Last(l => l.Contains(" /yards/KI-05", StringComparison.Ordinal));
        return int.Parse(line.Split(' ')[^2].Split(':')[^1], System.Globalization.CultureInfo.InvariantCulture);
    }

    private static async Task GoAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        await page.WaitForSelectorAsync(Site.Works);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
