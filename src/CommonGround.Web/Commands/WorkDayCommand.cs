using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Invasives;

namespace CommonGround.Web.Commands;

/// <summary><c>workday --on DATE --people N --hours H [--licensed] --out FILE.json</c>: the places a group treats on a day, in order,
/// what was
/// left out and why, and the solver's bound.</summary>
internal static class WorkDayCommand
{
    public static Command Create()
    {
        var on = new Option<string>("--on") { Description = "The day, such as 2026-09-26", Required = true };
        var people = new Option<int>("--people") { Description = "How many come", Required = true };
        var hours = new Option<double>("--hours") { Description = "Hours of each", Required = true };
        var licensed = new Option<bool>("--licensed") { Description = "A licensed applicator comes" };
        var output = new Option<FileInfo>("--out") { Description = "JSON file to write", Required = true };
        var command = new Command("workday", "What a group treats on a day so that most future pressure of unwanted plants is removed")
        {
            on, people, hours, licensed, output,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            if (!DateOnly.TryParseExact(parsed.GetValue(on), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
            {
                return CommandLine.Refuse($"--on '{parsed.GetValue(on)}' is not a day. Write it as year-month-day, such as 2026-09-26.");
            }

            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            var wish = new WorkDayWish(day, parsed.GetValue(people), parsed.GetValue(hours), parsed.GetValue(licensed));
            if (wish.Check(services.GetRequiredService<GroupClock>().Today) is [var problem, ..])
            {
                return CommandLine.Refuse(problem.Message);
            }

            var plan = await services.GetRequiredService<WorkDayQueries>().PlanAsync(wish, PlanCommand.Keeper(customary: false), cancel);
            try
            {
                await File.WriteAllTextAsync(parsed.GetValue(output)!.FullName, Write(plan), new UTF8Encoding(false), cancel);
                return 0;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return CommandLine.Refuse(e.Message);
            }
        });
        return command;
    }

    internal static string Write(WorkDayPlan plan) => JsonSerializer.Serialize(
        new
        {
            On = plan.Wish.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            plan.Wish.People,
            plan.Wish.Hours,
            plan.Wish.Licensed,
            PersonHours = plan.Wish.People * plan.Wish.Hours,
            PersonHoursUsed = plan.Choice.PersonHoursUsed,
            WalkMetres = plan.Choice.WalkMetres,
            PressureM2 = plan.AllPressure,
            PressureRemovedM2 = plan.Choice.PressureRemoved,
            BoundM2 = plan.Choice.Bound,
            Proven = plan.Choice.IsProven,
            OneMorePersonAddsM2 = plan.OneMoreAdds,
            Stops = plan.Stops.Select((s, i) => new
            {
                Order = i + 1,
                s.Case.Place,
                Block = s.Case.BlockName,
                s.Case.Taxon.ScientificName,
                Method = s.Advice is null ? "look" : s.Advice.Method.ToString(),
                AreaM2 = s.Case.AreaSquareMetres,
                s.PersonHours,
                PressureRemovedM2 = s.PressureRemoved,
                Required = s.IsRequired,
            }),
            LeftOut = plan.LeftOut.Select(l => new { l.Case.Place, Block = l.Case.BlockName, l.Case.Taxon.ScientificName, l.Reason }),
        },
        PlanCommand.Json) + "\n";
}
