using CommonGround.Web.Features.Import;
using Spectre.Console;

namespace CommonGround.Web.Commands;

/// <summary>A progress bar on a terminal; nothing where the output is read by a program.</summary>
internal static class ProgressLine
{
    public static async Task<T> RunAsync<T>(bool quiet, string title, Func<IProgress<ImportProgress>?, Task<T>> work)
    {
        if (quiet || Console.IsOutputRedirected)
        {
            return await work(null);
        }

        return await AnsiConsole.Progress().AutoClear(true).StartAsync(async context =>
        {
            var task = context.AddTask(title);
            return await work(new Bar(task, title));
        });
    }

    private sealed class Bar(ProgressTask task, string title) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value)
        {
            task.Description = $"{title}: {value.Doing}";
            task.Value = value.Share * 100;
        }
    }
}
