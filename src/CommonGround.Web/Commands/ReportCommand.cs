using System.CommandLine;
using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Commands;

/// <summary><c>report --yard CODE --out FILE.pdf</c> or <c>report --street NAME --out FILE.zip</c>, with <c>[--of plan|yard] [--paper
/// letter|a4] [--units metric|us] [--site ADDRESS]</c></summary>
internal static class ReportCommand
{
    public static Command Create()
    {
        var yard = new Option<string?>("--yard") { Description = "The yard's code" };
        var street = new Option<string?>("--street") { Description = "A street's name: one report for each of its yards, in a zip" };
        var output = new Option<FileInfo>("--out") { Description = "PDF or zip file to write", Required = true };
        var of = new Option<string>("--of")
        {
            Description = "plan: the conversion report; yard: what grows there now",
            DefaultValueFactory = _ => "plan"
        };
        of.AcceptOnlyFromAmong("plan", "yard");
        var paper = new Option<string>("--paper") { Description = "letter or a4", DefaultValueFactory = _ => "letter" };
        paper.AcceptOnlyFromAmong("letter", "a4");
        var units = new Option<string>("--units") { Description = "metric or us", DefaultValueFactory = _ => "us" };
        units.AcceptOnlyFromAmong("metric", "us");
        var site = new Option<string>("--site")
        {
            Description = "Address of the group's site, for the code that leads to a kept plan",
            DefaultValueFactory = _ => ""
        };
        var command = new Command("report", "The printed report of one yard, or of each yard of a street") { yard, street, output, of,
            paper, units, site };
        command.SetAction(async (parsed, cancel) =>
        {
            var (code, name) = (parsed.GetValue(yard), parsed.GetValue(street));
            if (code is null == name is null)
            {
                return CommandLine.Refuse("Name either a yard (--yard CODE) or a street (--street NAME).");
            }

            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            var wanted = new Wanted(parsed.GetValue(output)!.FullName, YardReportFile.Paper(parsed.GetValue(paper)!)!.Value,
                parsed.GetValue(units) == "us", parsed.GetValue(site)!.TrimEnd('/'));
            return name is not null ? await OfStreetAsync(services, name, wanted, CommandLine.IsQuiet(parsed), cancel)
                : parsed.GetValue(of) == "yard" ? await OfYardAsync(services, code!, wanted, cancel)
                : await OfPlanAsync(services, code!, wanted, cancel);
        });
        return command;
    }

    private static async Task<int> OfPlanAsync(IServiceProvider services, string yard, Wanted wanted, CancellationToken cancel)
    {
        try
        {
            var report = await services.GetRequiredService<ConversionReportQueries>().OfYardAsync(yard,
                PlanCommand.Keeper(wanted.Customary), wanted.Site, cancel);
            if (report is null)
            {
                return CommandLine.Refuse($"There is no yard {yard}.");
            }

            await using var file = File.Create(wanted.File);
            ConversionReportDocument.Write(report, wanted.Paper, file);
            return 0;
        }
        catch (PlanRefusedException e)
        {
            return CommandLine.Refuse($"There is no plan for {yard}: {e.Message}");
        }
    }

    private static async Task<int> OfYardAsync(IServiceProvider services, string yard, Wanted wanted, CancellationToken cancel)
    {
        var report = await services.GetRequiredService<YardReportQueries>().GetAsync(yard, PlanCommand.Keeper(wanted.Customary), cancel);
        if (report is null)
        {
            return CommandLine.Refuse($"There is no yard {yard}.");
        }

        await using var file = File.Create(wanted.File);
        YardReportDocument.Write(report, wanted.Paper, file);
        return 0;
    }

    private static async Task<int> OfStreetAsync(IServiceProvider services, string street, Wanted wanted, bool quiet,
        CancellationToken cancel)
    {
        // A zip that was stopped half-way is none: it takes its name only when it is whole.
        var part = wanted.File + ".part";
        try
        {
            BatchOutcome? outcome;
            await using (var file = File.Create(part))
            {
                outcome = await ProgressLine.RunAsync(quiet, "reports", progress => services.GetRequiredService<StreetBatch>()
                    .WriteAsync(street, PlanCommand.Keeper(wanted.Customary), wanted.Paper, wanted.Site, file, progress is null ? null
                    : new Relay(progress), cancel));
            }

            if (outcome is null)
            {
                return CommandLine.Refuse($"There is no street {street} with yards.");
            }

            File.Move(part, wanted.File, overwrite: true);
            foreach (var (yard, why) in outcome.Refused)
            {
                Console.Error.WriteLine($"{yard} has no report: {why}");
            }

            return 0;
        }
        finally
        {
            File.Delete(part);
        }
    }

    private sealed record Wanted(string File, PaperSize Paper, bool Customary, string Site);

    private sealed class Relay(IProgress<ImportProgress> bar) : IProgress<BatchProgress>
    {
        public void Report(BatchProgress value) => bar.Report(new ImportProgress(value.Yard, (double)value.Done / value.Total));
    }
}
