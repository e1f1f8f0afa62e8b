using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace CommonGround.Storage.Tests;

/// <summary>A throw-away PostgreSQL cluster on loopback, run by an unprivileged user and removed afterwards.</summary>
/// <param name="durable">It syncs to disk as a real one does; without it nothing in it is worth the time.</param>
public sealed class PostgresCluster(bool durable = false)
{
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-postgres-").FullName;
    private readonly string programs = Programs();
    private readonly int port = FreePort();
    private int databases;

    /// <summary>A connection string for a database of its own, not yet made.</summary>
    public string NewDatabase(
        ) => $"Host=127.0.0.1;Port={port};Username=gardener;Database=garden{Interlocked.Increment(ref databases)};Pooling=false";

    /// <summary>Makes a database as a copy of another, which nobody may be connected to.</summary>
    public static async Task CopyAsync(string template, string copy)
    {
        var (from, to) = (new NpgsqlConnectionStringBuilder(template), new NpgsqlConnectionStringBuilder(copy));
        var server = new NpgsqlConnectionStringBuilder(copy) { Database = "postgres" };
        await using var connection = new NpgsqlConnection(server.ConnectionString);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Both names are made by this class.
        command.CommandText = $"CREATE DATABASE {to.Database} TEMPLATE {from.Database}";
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync();
    }

    public async Task StartAsync()
    {
        if (Environment.IsPrivilegedProcess)
        {
            await RunAsync("chown", "postgres:postgres", folder);
        }

        await AsOwnerAsync("initdb", "-D", $"{folder}/data", "-U", "gardener", "-A", "trust", "--no-sync", "-E", "UTF8",
            "--locale=C.UTF-8");
        await RestartAsync();
    }

    /// <summary>Starts the server that is not running, and waits until it has recovered.</summary>
    public Task RestartAsync() => AsOwnerAsync("pg_ctl", "-D", $"{folder}/data", "-w", "-l", $"{folder}/log", "-o",
        $"-c listen_addresses=127.0.0.1 -p {port} -k {folder}" + (durable ? " -c fsync=on -c synchronous_commit=on"
            : " -c fsync=off -c synchronous_commit=off -c full_page_writes=off"), "start");

    /// <summary>Ends the server and every process of it at once, as a power cut does for them: SIGKILL, the postmaster first.</summary>
    public async Task KillAsync()
    {
        var postmaster = File.ReadLines($"{folder}/data/postmaster.pid").First();
        await EndAsync(int.Parse(postmaster, System.Globalization.CultureInfo.InvariantCulture));
        // It may have begun others while it was ended; they still run in its folder.
        while (Processes() is { Count: > 0 } left)
        {
            foreach (var id in left)
            {
                await EndAsync(id);
            }
        }

        // After a power cut no process has the number that stands there, whether anybody buried the postmaster or not.
        File.Delete($"{folder}/data/postmaster.pid");
        File.Delete($"{folder}/.s.PGSQL.{port}.lock");
    }

    private static async Task EndAsync(int id)
    {
        try
        {
            using var process = Process.GetProcessById(id);
            process.Kill();
            // Nobody may reap it, since it is no child of ours: dead but unburied is dead enough ("Z" in proc(5)).
            while (File.Exists($"/proc/{id}/stat") && !(await File.ReadAllTextAsync($"/proc/{id}/stat")).Contains(") Z ",
                StringComparison.Ordinal))
            {
                await Task.Delay(10);
            }
        }
        catch (Exception e) when (e is ArgumentException or InvalidOperationException or IOException)
        {
            // It ended by itself, because its postmaster was gone.
        }
    }

    /// <summary>Every process of the server works in its data folder (proc(5), cwd); what is dead has none any more.</summary>
    private List<int> Processes() => [.. Directory.GetDirectories("/proc").Select(Path.GetFileName)
        .Where(name => int.TryParse(name, out _) && WorkingFolder(name!) == $"{folder}/data")
        .Select(name => int.Parse(name!, System.Globalization.CultureInfo.InvariantCulture))];

    private static string? WorkingFolder(string process)
    {
        try
        {
            return new FileInfo($"/proc/{process}/cwd").LinkTarget;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A process that ended while we looked, or somebody else's.
            return null;
        }
    }

    public async Task StopAsync()
    {
        await AsOwnerAsync("pg_ctl", "-D", $"{folder}/data", "-m", "immediate", "stop");
        Directory.Delete(folder, recursive: true);
    }

    // initdb and the server refuse to run as root.
    private Task AsOwnerAsync(string tool, params string[] arguments) => Environment.IsPrivilegedProcess
        ? RunAsync("setpriv", ["--reuid=postgres", "--regid=postgres", "--clear-groups", Path.Combine(programs, tool), .. arguments])
        : RunAsync(Path.Combine(programs, tool), arguments);

    private static async Task RunAsync(string file, params string[] arguments)
    {
        // Its output is not redirected: the server that pg_ctl starts would hold the pipe open.
        using var process = Process.Start(new ProcessStartInfo(file, arguments) { WorkingDirectory = Path.GetTempPath() })
            ?? throw new InvalidOperationException($"{file} did not start.");
        await process.WaitForExitAsync();
        process.ExitCode.ShouldBe(0, $"{file} {string.Join(' ', arguments)}");
    }

    /// <summary>The newest server on this machine; Debian keeps each version's programs in a folder of their own.</summary>
    private static string Programs()
    {
        var versions = Directory.Exists("/usr/lib/postgresql")
            ? Directory.GetDirectories("/usr/lib/postgresql").OrderByDescending(d => int.TryParse(Path.GetFileName(d), out var version)
            ? version : 0).Select(d => Path.Combine(d, "bin"))
            : [];
        var path = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        return versions.Concat(path).FirstOrDefault(d => File.Exists(Path.Combine(d, "initdb")) && File.Exists(Path.Combine(d, "pg_ctl")))
            ?? throw new InvalidOperationException(
            "These tests need a PostgreSQL server's programs (initdb, pg_ctl): apt-get install postgresql");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
