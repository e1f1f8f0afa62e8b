using System.CommandLine;
using System.Globalization;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Regions;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary>
/// <c>begin --state MO --latitude 37.21 --longitude -93.29 [--elevation-feet 1300] [--place TOWN] [--name GROUP] [--time-zone
/// America/Chicago]</c>: sets up the folder of a real group without a browser. Its people are made on the site, with the code of the first
/// start.
/// </summary>
internal static class BeginCommand
{
    public static Command Create()
    {
        var state = new Option<string>("--state") { Description = "Two letters or the name of the state, or other", Required = true };
        var latitude = new Option<string>("--latitude") { Description = "Degrees north, such as 37.21", Required = true };
        var longitude = new Option<string>("--longitude") { Description = "Degrees, below 0 in America, such as -93.29", Required = true };
        var elevation = new Option<string?>("--elevation-feet") { Description = "Height above the sea, feet" };
        var place = new Option<string?>("--place") { Description = "Town or place, for people" };
        var table = new Option<string?>("--table") { Description = "Another table of natives, where the place offers a choice" };
        var name = new Option<string?>("--name") { Description = "Name of the group" };
        var zone = new Option<string?>("--time-zone") { Description = "Such as America/Chicago" };
        var command = new Command("begin", "Sets up the folder of a real group at its place") { state, latitude, longitude, elevation,
            place, table, name, zone };
        command.SetAction(async (parsed, cancel) =>
        {
            var draft = new PlaceDraft
            {
                State = parsed.GetValue(state)!,
                Latitude = parsed.GetValue(latitude)!,
                Longitude = parsed.GetValue(longitude)!,
                ElevationFeet = parsed.GetValue(elevation) ?? "",
                PlaceName = parsed.GetValue(place) ?? "",
                Table = parsed.GetValue(table) ?? "",
            };
            var (locality, problems) = draft.Read();
            if (locality is null)
            {
                return CommandLine.Refuse(string.Join(" ", problems.Select(p => p.Message)));
            }

            if (parsed.GetValue(zone) is { } typed && TimeZones.Fault(typed) is { } fault)
            {
                return CommandLine.Refuse($"--time-zone: {fault}");
            }

            await using var services = await CommandLine.OpenAsync(parsed, cancel, options => options with { Demo = false });
            var neighbourhood = services.GetRequiredService<CurrentNeighbourhood>();
            if (neighbourhood.IsDemo)
            {
                return CommandLine.Refuse(
                    "This folder holds the demo, which is never mixed with a real group. Name another folder with --data.");
            }

            var saved = await services.GetRequiredService<NeighbourhoodDatabase>().WriteAsync(
                async db =>
                {
                    var row = await db.Neighbourhoods.SingleAsync(n => n.Id == neighbourhood.Id, cancel);
                    RegionSettings.Put(row, locality, draft.PlaceName);
                    (row.Name, row.TimeZone) = (parsed.GetValue(name)?.Trim() is { Length: > 0 and <= 200 } given ? given : row.Name,
                        parsed.GetValue(zone) ?? row.TimeZone);
                    return ChangeNote.OfProgram(neighbourhood.Id, "set where the group is");
                }, cancel);
            if (!saved.IsStored)
            {
                return CommandLine.Refuse(saved.Problems[0].Message);
            }

            if (!CommandLine.IsQuiet(parsed))
            {
                foreach (var line in RegionSettings.Compare(null, locality, [], []).Where(l => l.Then != "0"))
                {
                    await Console.Out.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{line.What}: {line.Then}"));
                }
            }

            return 0;
        });
        return command;
    }
}
