using System.CommandLine;
using CommonGround.Reports.YardReports;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Commands;

/// <summary><c>report --yard CODE --out FILE.pdf [--paper letter|a4] [--units metric|us]</c></summary>
internal static class ReportCommand
{
    public static Command Create()
    {
        var yard = new Option<string>("--yard") { Description = "The yard's code", Required = true };
        var output = new Option<FileInfo>("--out") { Description = "PDF file to write", Required = true };
        var paper = new Option<string>("--paper") { Description = "letter or a4", DefaultValueFactory = _ => "letter" };
        paper.AcceptOnlyFromAmong("letter", "a4");
        var units = new Option<string>("--units") { Description = "metric or us", DefaultValueFactory = _ => "metric" };
        units.AcceptOnlyFromAmong("metric", "us");
        var command = new Command("report", "The printed report of one yard") { yard, output, paper, units };
        command.SetAction(async (parsed, cancel) =>
        {
            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            // Whoever runs the command keeps the machine and its data.
            var keeper = new Viewer(Role.Administrator, null, "the keeper", parsed.GetValue(units) == "us");
            var report = await services.GetRequiredService<YardReportQueries>().GetAsync(parsed.GetValue(yard)!, keeper, cancel);
            if (report is null)
            {
                return CommandLine.Refuse($"There is no yard {parsed.GetValue(yard)}.");
            }

            await using var file = File.Create(parsed.GetValue(output)!.FullName);
            YardReportDocument.Write(report, YardReportFile.Paper(parsed.GetValue(paper)!)!.Value, file);
            return 0;
        });
        return command;
    }
}
