using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>A process that saves plantings the way the page does, and says each on its output once the save was answered. The fault tests
/// kill it.</summary>
internal static class WritingProgram
{
    /// <summary>PROVIDER CONNECTION BED FIRST MOST: saves with the counts FIRST, FIRST + 1, … each on a day of its own.</summary>
    public static async Task<int> Main(string[] args)
    {
        if (args is not [var provider, var connection, var name, var first, var most])
        {
            return 2;
        }

        var database = StorageRegistration.Open(new StorageLocation(provider, connection)).In(1);
        var neighbourhood = new CurrentNeighbourhood(1, "Testgrund", false);
        var clock = new GroupClock(TestClock.On(2026, 8, 19), "America/Chicago", null);
        var record = new RecordPlantings(database, neighbourhood, clock);
        for (var number = int.Parse(first); number < int.Parse(first) + int.Parse(most); number++)
        {
            await using var db = await database.CreateDbContextAsync();
            var bed = await db.Beds.AsNoTracking().SingleAsync(b => b.Name == name);
            var line = new PlantingDraft { Taxon = Flora.Named(Flora.Bergamot), CoverSquareMetres = 1, Count = number };
            var result = await record.SaveAsync(new RecordSheet(bed.YardId, bed.Id, bed.Version, Garden.Today.AddDays(-number), "walker",
                [line]), new CurrentUser(Role.Organiser, null, "an organiser", false));
            var id = await db.Sightings.Where(s => s.BedId == bed.Id && s.ObservedOn == Garden.Today.AddDays(-number)).Select(s => s.Id)
                .SingleOrDefaultAsync();
            // One write to the pipe a line, and only after the save: what the parent reads was acknowledged.
            await Console.Out.WriteLineAsync(result.ChangeId is not null ? $"saved {number} {id} {result.BedVersion}"
                : $"refused {number} {string.Join(' ', result.Problems.Select(p => p.Message))}");
            await Console.Out.FlushAsync();
            if (result.ChangeId is null)
            {
                return 1;
            }
        }

        return 0;
    }
}
