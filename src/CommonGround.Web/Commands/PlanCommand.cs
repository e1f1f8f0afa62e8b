using System.CommandLine;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.ConversionReports;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Commands;

/// <summary><c>plan --yard CODE --out FILE.json</c>: the figures of a yard's newest kept plan, or of the plan its record proposes.</summary>
internal static class PlanCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.SnakeCaseLower) },
    };

    public static Command Create()
    {
        var yard = new Option<string>("--yard") { Description = "The yard's code", Required = true };
        var output = new Option<FileInfo>("--out") { Description = "JSON file to write", Required = true };
        var command = new Command("plan", "The conversion plan of one yard as figures, with the solver's bound") { yard, output };
        command.SetAction(async (parsed, cancel) =>
        {
            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            try
            {
                var report = await services.GetRequiredService<ConversionReportQueries>().OfYardAsync(parsed.GetValue(yard)!, Keeper(customary: false), "", cancel);
                if (report is null)
                {
                    return CommandLine.Refuse($"There is no yard {parsed.GetValue(yard)}.");
                }

                await File.WriteAllTextAsync(parsed.GetValue(output)!.FullName, Write(report), new UTF8Encoding(false), cancel);
                return 0;
            }
            catch (PlanRefusedException e)
            {
                return CommandLine.Refuse($"There is no plan for {parsed.GetValue(yard)}: {e.Message}");
            }
        });
        return command;
    }

    /// <summary>Whoever runs the command keeps the machine and its data.</summary>
    internal static Viewer Keeper(bool customary) => new(Role.Administrator, null, "the keeper", customary);

    private static string Write(ConversionReport report) => JsonSerializer.Serialize(
        new
        {
            report.YardCode,
            report.AsOf,
            PricesInvented = report.Plan.Money.PricesInvented,
            report.Plan.Request,
            report.Plan.Mix.Quality,
            report.Plan.Mix.Cost,
            report.Plan.Mix.InFlower,
            report.Plan.Mix.Binding,
            Taxa = report.Plan.Mix.Taxa.Select(Line),
            Areas = report.Plan.Mix.Areas.Select(a => new { a.Area.Name, a.Area.SquareMetres, Taxa = a.Taxa.Select(Line) }),
            TradeOffs = report.Plan.TradeOffs.Select(t => new { t.Cost, t.CoveredHalves, t.Support, t.Taxa }),
            report.Plan.Yard,
            report.Plan.Street,
            report.Plan.Reach,
            report.Plan.Water,
            report.Plan.Runoff,
            report.Plan.Money,
            report.Plan.Work,
            report.Plan.Calendar,
        },
        Json) + "\n";

    private static object Line(PlannedTaxon t) => new { t.Taxon.ScientificName, t.As, t.Share, t.SquareMetres, t.SeedsPerSquareMetre, t.PlsGrams, t.BulkGrams, t.Plugs, t.Cost, t.PriceEstimated, t.Reasons };
}
