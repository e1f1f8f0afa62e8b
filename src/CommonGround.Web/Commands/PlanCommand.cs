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

/// <summary>
/// <c>plan --yard CODE [--request FILE.json] --out FILE.json</c>: the figures of a yard's newest kept plan, of the plan its record
/// proposes, or of a request.
/// <c>plan --street NAME [--budget N] --out FILE.json</c>: all yards of a street at once.
/// </summary>
internal static class PlanCommand
{
    internal static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.SnakeCaseLower) },
    };

    public static Command Create()
    {
        var yard = new Option<string?>("--yard") { Description = "The yard's code" };
        var street = new Option<string?>("--street")
        {
            Description =
            "A street's name: all its yards whose record says light, moisture and soil are planned at once"
        };
        var budget = new Option<double?>("--budget") { Description = "With --street: money for all its yards; no limit when left out" };
        var output = new Option<FileInfo>("--out") { Description = "JSON file to write", Required = true };
        var asked = new Option<FileInfo>("--request")
        {
            Description =
            "JSON file with what is asked for, as the output prints it under request; missing keys come from the record"
        };
        var command = new Command("plan",
            "The conversion plan of one yard, or of a whole street, as figures, with the solver's bound") { yard, street, budget, asked,
                output };
        command.SetAction(async (parsed, cancel) =>
        {
            if (parsed.GetValue(yard) is null == parsed.GetValue(street) is null
                || (parsed.GetValue(street) is null ? parsed.GetValue(budget) is not null : parsed.GetValue(asked) is not null))
            {
                return CommandLine.Refuse("Give either --yard, with --request if you like, or --street, with --budget if you like.");
            }

            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            if (parsed.GetValue(street) is { } name)
            {
                return await StreetPlanOutput.WriteAsync(services, name, parsed.GetValue(budget), parsed.GetValue(output)!, cancel);
            }

            try
            {
                var (code, currentUser) = (parsed.GetValue(yard)!, Keeper(customary: false));
                var reports = services.GetRequiredService<ConversionReportQueries>();
                if (await services.GetRequiredService<PlanQueries>().GroundAsync(code, currentUser, cancel) is not { } ground)
                {
                    return CommandLine.Refuse($"There is no yard {code}.");
                }

                IReadOnlyList<string> advice = [];
                ConversionReport report;
                if (parsed.GetValue(asked) is { } file)
                {
                    (report, advice) = reports.OfRequest(ground, PlanRequestFile.Read(file, ground), currentUser);
                }
                else
                {
                    report = (await reports.OfYardAsync(code, currentUser, "", cancel))!;
                }

                foreach (var words in advice)
                {
                    await Console.Error.WriteLineAsync(words);
                }

                await File.WriteAllTextAsync(parsed.GetValue(output)!.FullName, Write(report, advice), new UTF8Encoding(false), cancel);
                return 0;
            }
            catch (JsonException e)
            {
                return CommandLine.Refuse($"The request in {parsed.GetValue(asked)!.Name} cannot be read: {e.Message}");
            }
            catch (IOException e)
            {
                return CommandLine.Refuse(e.Message);
            }
            catch (PlanRefusedException e)
            {
                return CommandLine.Refuse($"There is no plan for {parsed.GetValue(yard)}: {e.Message}");
            }
        });
        return command;
    }

    /// <summary>Whoever runs the command keeps the machine and its data.</summary>
    internal static CurrentUser Keeper(bool customary) => new(Role.Administrator, null, "the keeper", customary);

    private static string Write(ConversionReport report, IReadOnlyList<string> advice) => JsonSerializer.Serialize(
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
            report.Plan.Mix.Method,
            Advice = advice.Concat(report.Plan.Mix.Advice),
            Visitors = Visitors(report.Plan),
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

    internal static object Line(PlannedTaxon t) => new
    {
        t.Taxon.ScientificName,
        t.As,
        t.Traits.Role,
        t.Traits.Spread,
        t.Traits.Longevity,
        t.Share,
        t.SquareMetres,
        t.SeedsPerSquareMetre,
        t.PlsGrams,
        t.BulkGrams,
        t.BoughtGrams,
        t.Plugs,
        t.Cost,
        t.PriceEstimated,
        t.Reasons,
    };

    /// <summary>Visitors of the mix by itself, and of yard and street before and after, by half-month.</summary>
    private static object Visitors(ConversionPlan plan) => new
    {
        Record = Ecology.Pollinators.VisitorRecords.Caveat,
        plan.YardVisitors!.Site,
        plan.YardVisitors.Before,
        plan.YardVisitors.After,
        plan.YardVisitors.NewBees,
        Mix = plan.Mix.Visitors,
        plan.Mix.Quality.BeesPossible,
        Street = plan.StreetVisitors,
    };
}
