using CommonGround.Web.Hosting;
using System.CommandLine;
using CommonGround.Storage;
using CommonGround.Web.Operations;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary><c>backup FILE</c>, <c>restore FILE</c>, <c>migrate</c>, <c>check</c>: looking after the data.</summary>
internal static class OperationsCommands
{
    public static IEnumerable<Command> Create() => [Backup(), Restore(), Migrate(), Check()];

    private static Command Backup()
    {
        var file = new Argument<FileInfo>("FILE") { Description = "Archive to write (.zip)" };
        var command = new Command("backup", "Write the database and photos to one archive with checksums, while the site runs") { file };
        command.SetAction(async (parsed, cancel) =>
        {
            var options = CommandLine.Options(parsed);
            var count = await BackupArchive.WriteAsync(options, parsed.GetValue(file)!.FullName, TimeProvider.System, cancel);
            Tell(parsed, $"Backed up {count} files to {parsed.GetValue(file)} and read them back. It holds the site's keys: keep it where "
                + $"only you can read it.");
            return 0;
        });
        return command;
    }

    private static Command Restore()
    {
        var file = new Argument<FileInfo>("FILE") { Description = "Archive that backup wrote" };
        var command = new Command("restore", "Bring a backup back into an empty data folder") { file };
        command.SetAction(async (parsed, cancel) =>
        {
            var options = CommandLine.Options(parsed);
            var count = await RestoreArchive.ReadAsync(options, parsed.GetValue(file)!.FullName, cancel);
            Tell(parsed, $"Restored {count} files to {options.DataFolder}.");
            return 0;
        });
        return command;
    }

    private static Command Migrate()
    {
        var command = new Command("migrate", "Bring the database's schema up to date");
        command.SetAction(async (parsed, cancel) =>
        {
            var options = CommandLine.Options(parsed);
            Directory.CreateDirectory(options.DataFolder);
            await using var db = await StorageRegistration.Open(options.Storage).CreateDbContextAsync(cancel);
            await SiteStartup.MigrateAsync(db, schema => UpgradeBackup.WriteAsync(options, schema, TimeProvider.System, cancel), cancel);
            Tell(parsed, $"The schema is up to date ({(await db.Database.GetAppliedMigrationsAsync(cancel)).Last()}).");
            return 0;
        });
        return command;
    }

    private static Command Check()
    {
        var command = new Command("check", "Verify the data and say what is wrong");
        command.SetAction(async (parsed, cancel) =>
        {
            var findings = await DataCheck.RunAsync(CommandLine.Options(parsed), cancel);
            foreach (var finding in findings)
            {
                Console.Out.WriteLine(finding);
            }

            if (findings.Count > 0)
            {
                return CommandLine.Refuse($"The check found {Shared.Words.Count(findings.Count, "thing")} wrong, listed above.");
            }

            Tell(parsed, "All is well: database, references, catalogue, sightings, photos, files.");
            return 0;
        });
        return command;
    }

    private static void Tell(ParseResult parsed, string what)
    {
        if (!CommandLine.IsQuiet(parsed))
        {
            Console.Out.WriteLine(what);
        }
    }
}
