using System.Diagnostics;
using CommonGround.Storage.Operations;
using Npgsql;

namespace CommonGround.Storage.Postgres;

/// <summary>Finds and runs the programs that come with PostgreSQL.</summary>
internal static class PostgresPrograms
{
    /// <summary>Runs a program to its end. The password goes by the environment, never by the command line, which others on the machine can
    /// read.</summary>
    /// <exception cref="DatabaseCopyException">It is not there, or it failed; the message carries its own words.</exception>
    public static async Task RunAsync(string program, NpgsqlConnectionStringBuilder server, string[] arguments, CancellationToken cancel)
    {
        var start = new ProcessStartInfo(Find(program), arguments)
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        start.Environment["PGPASSWORD"] = server.Password ?? "";
        start.Environment["PGSSLMODE"] = server.SslMode switch
        {
            SslMode.VerifyCA => "verify-ca",
            SslMode.VerifyFull => "verify-full",
            var mode => mode.ToString().ToLowerInvariant()
        };
        start.Environment["PGCONNECT_TIMEOUT"] = "30";
        start.Environment["LC_ALL"] = "C";
        using var process = Process.Start(start) ?? throw new DatabaseCopyException($"{program} did not start.");
        try
        {
            var output = process.StandardOutput.BaseStream.CopyToAsync(Stream.Null, cancel);
            var error = process.StandardError.ReadToEndAsync(cancel);
            await process.WaitForExitAsync(cancel);
            await output;
            if (process.ExitCode != 0)
            {
                throw new DatabaseCopyException($"{program} failed: {(await error).Trim().ReplaceLineEndings(" ")}");
            }
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            throw;
        }
    }

    /// <summary>The newest one where Debian keeps each version's programs in a folder of their own, else whatever the search path
    /// has.</summary>
    private static string Find(string program)
    {
        const string versions = "/usr/lib/postgresql";
        var name = OperatingSystem.IsWindows() ? program + ".exe" : program;
        var kept = Directory.Exists(versions) ? Directory.GetDirectories(versions) : [];
        return kept.OrderByDescending(d => int.TryParse(Path.GetFileName(d), out var version) ? version : 0)
            .Select(d => Path.Combine(d, "bin"))
            .Concat((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries))
            .Select(d => Path.Combine(d, name)).FirstOrDefault(File.Exists)
            ?? throw new DatabaseCopyException($"The program {program} is not on this machine. Install PostgreSQL's client programs (on "
            + $"Debian: apt-get install postgresql-client), of the server's version or newer.");
    }
}
