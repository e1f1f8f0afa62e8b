using System.Text;
using System.Text.Json;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Features.Conversion;

namespace CommonGround.Web.Commands;

/// <summary>A whole street's plan as figures: what each yard gets, what all feed, and the bound.</summary>
internal static class StreetPlanOutput
{
    public static async Task<int> WriteAsync(IServiceProvider services, string street, double? budget, FileInfo output,
        CancellationToken cancel)
    {
        var (plans, keeper) = (services.GetRequiredService<StreetPlans>(), PlanCommand.Keeper(customary: false));
        if (await plans.YardsAsync(street, keeper, cancel) is not { } yards)
        {
            return CommandLine.Refuse($"There is no street {street}.");
        }

        foreach (var left in yards.Where(y => y.Missing.Length > 0))
        {
            await Console.Error.WriteLineAsync($"{left.Code} is left out. {left.Missing}");
        }

        try
        {
            var ready = yards.Where(y => y.Missing.Length == 0).Select(y => y.Code).ToList();
            var planned = await plans.MakeAsync(street, ready, budget, keeper, null, cancel);
            await File.WriteAllTextAsync(output.FullName, Write(planned), new UTF8Encoding(false), cancel);
            return 0;
        }
        catch (PlanRefusedException e)
        {
            return CommandLine.Refuse($"There is no plan for {street}: {e.Message}");
        }
        catch (IOException e)
        {
            return CommandLine.Refuse(e.Message);
        }
    }

    private static string Write(PlannedStreet planned) => JsonSerializer.Serialize(
        new
        {
            planned.Street,
            planned.Budget,
            planned.Mixes.Cost,
            planned.Mixes.Bees,
            planned.Mixes.BeesBound,
            planned.Mixes.Gap,
            planned.Mixes.Visitors,
            Record = Ecology.Pollinators.VisitorRecords.Caveat,
            PricesInvented = planned.Grounds.Values.First().Prices.Invented,
            Yards = planned.Mixes.Yards.Select(y => new
            {
                y.Yard,
                y.Why,
                Request = planned.Requests[y.Yard],
                y.Mix?.Method,
                y.Mix?.Cost,
                y.Mix?.Quality,
                y.Mix?.InFlower,
                y.Mix?.Visitors,
                Advice = y.Mix?.Advice ?? [],
                Taxa = y.Mix?.Taxa.Select(PlanCommand.Line) ?? [],
            }),
        },
        PlanCommand.Json) + "\n";
}
