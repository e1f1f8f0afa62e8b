using System.CommandLine;
using CommonGround.Interchange;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Import;

namespace CommonGround.Web.Commands;

/// <summary><c>import FILE... [--allow-unlisted] [--check-only]</c></summary>
internal static class ImportCommand
{
    public static Command Create()
    {
        var files = new Argument<FileInfo[]>("FILE")
        {
            Description =
            "CSV, XLSX or GeoJSON files; the kind is told by the header, of a workbook by each sheet's",
            Arity = ArgumentArity.OneOrMore
        };
        var allow = new Option<bool>("--allow-unlisted") { Description = "Keep names the catalogue does not list as plain names" };
        var check = new Option<bool>("--check-only") { Description = "Say what would happen, store nothing" };
        var command = new Command("import", "Store the rows of all files, or none of them") { files, allow, check };
        command.SetAction(async (parsed, cancel) =>
        {
            var paths = parsed.GetValue(files)!;
            if (paths.FirstOrDefault(p => !p.Exists) is { } missing)
            {
                return CommandLine.Refuse($"There is no file {missing}.");
            }

            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            var read = new List<ImportFile>();
            foreach (var path in paths)
            {
                read.AddRange(ImportFile.ReadAll(path.Name, await File.ReadAllBytesAsync(path.FullName, cancel)));
            }

            var choices = new ImportChoices(parsed.GetValue(allow), parsed.GetValue(check),
                services.GetRequiredService<GroupClock>().CalendarToday);
            var import = services.GetRequiredService<ImportFiles>();
            var outcome = await ProgressLine.RunAsync(CommandLine.IsQuiet(parsed), "Import",
                progress => import.RunAsync(read, choices, progress, cancel));
            return Report(outcome, choices, CommandLine.IsQuiet(parsed));
        });
        return command;
    }

    private static int Report(ImportOutcome outcome, ImportChoices choices, bool quiet)
    {
        if (outcome.Errors.Count > 0)
        {
            foreach (var error in outcome.Errors)
            {
                Console.Out.WriteLine(error);
            }

            return CommandLine.Refuse($"Nothing was stored: {Shared.Words.Count(outcome.Errors.Count, "error")} in "
                + $"{Shared.Words.Count(outcome.Errors.Select(e => e.File).Distinct().Count(), "file")}, listed above.");
        }

        if (!quiet)
        {
            foreach (var notice in outcome.Notices)
            {
                Console.Out.WriteLine(notice);
            }

            foreach (var count in outcome.Counts)
            {
                Console.Out.WriteLine($"{count.Kind}: {count.Added} added, {count.Changed} changed, {count.Unchanged} unchanged");
            }

            Console.Out.WriteLine(choices.CheckOnly ? "Checked; nothing was stored." : outcome.Changed ? "Stored."
                : "These files change nothing: everything in them was already stored.");
        }

        return 0;
    }
}
