using System.Diagnostics;

namespace CommonGround.Web.Tests.Commands;

/// <summary>Runs the built program as somebody at a terminal would, on a data folder of its own.</summary>
internal sealed class Terminal(string dataFolder)
{
    /// <summary>The database it is told to use; a SQLite file in the data folder where nothing is said.</summary>
    public CommonGround.Storage.StorageLocation? Database { get; init; }

    public async Task<Answer> RunAsync(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "CommonGround.Web.dll"), .. arguments, "--data",
            dataFolder])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        if (Database is { } database)
        {
            start.Environment["Database__Provider"] = database.Provider;
            start.Environment["Database__Connection"] = database.ConnectionString;
        }

        using var process = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return new Answer(process.ExitCode, await output, await error);
    }

    /// <summary>Runs a command that must succeed and say nothing on standard error.</summary>
    public async Task<string> DoAsync(params string[] arguments)
    {
        var answer = await RunAsync(arguments);
        answer.Error.ShouldBeEmpty(string.Join(' ', arguments));
        answer.Code.ShouldBe(0, string.Join(' ', arguments));
        return answer.Output;
    }

    /// <summary>Runs a command that must be refused with one line on standard error; gives the line.</summary>
    public async Task<string> RefuseAsync(params string[] arguments)
    {
        var answer = await RunAsync(arguments);
        answer.Code.ShouldNotBe(0, string.Join(' ', arguments));
        answer.Error.TrimEnd('\n').ShouldNotContain('\n');
        answer.Error.ShouldNotBeEmpty(answer.Output);
        return answer.Error.TrimEnd('\n');
    }
}

/// <summary>What a command left: its exit code and the two streams.</summary>
internal sealed record Answer(int Code, string Output, string Error);
