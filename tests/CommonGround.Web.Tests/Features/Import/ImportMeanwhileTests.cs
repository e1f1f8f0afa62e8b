using System.Text;
using CommonGround.Interchange;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

/// <summary>While files are checked others go on saving; what they save to the same places is checked again.</summary>
public class ImportMeanwhileTests
{
    private const string Head = "yard,bed,scientific_name,observed_on,cover_m2\n";

    [Fact]
    public async Task A_neighbour_saves_while_a_large_file_is_checked_and_both_are_stored()
    {
        using var garden = await Garden.WithOneYardAsync();
        var saves = 0;
        var outcome = await RunAsync(garden, Rows(20_000), async at =>
        {
            // Each of these would wait in vain if the check held the write lock.
            if (at.Doing.StartsWith("checking", StringComparison.Ordinal) && saves < 3)
            {
                (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.All[saves].ScientificName, 1))).Problems.ShouldBeEmpty();
                saves++;
            }
        });
        outcome.Errors.ShouldBeEmpty();
        saves.ShouldBe(3);
        (await garden.SightingsAsync()).Count.ShouldBe(20_003);
        outcome.Counts.Single(c => c.Kind == "sightings").Added.ShouldBe(20_000);
    }

    [Fact]
    public async Task The_write_begins_only_after_the_last_check()
    {
        using var garden = await Garden.WithOneYardAsync();
        var told = new List<string>();
        using var heard = new TransactionLog(garden, told);
        (await RunAsync(garden, Rows(2_000), at =>
        {
            told.Add(at.Doing);
            return Task.CompletedTask;
        })).Errors.ShouldBeEmpty();
        var begin = told.IndexOf("begin");
        told.Count(t => t == "begin").ShouldBe(1);
        told.Take(begin).ShouldContain("writing");
        told.Skip(begin).Where(t => t.StartsWith("checking", StringComparison.Ordinal)).ShouldBeEmpty();
    }

    [Fact]
    public async Task The_same_sighting_recorded_meanwhile_is_checked_again_and_not_doubled()
    {
        using var garden = await Garden.WithOneYardAsync();
        var done = false;
        var outcome = await RunAsync(garden, $"N-1,front,{Flora.Bergamot},{Garden.Today:yyyy-MM-dd},2\n", async at =>
        {
            if (!done && at.Doing == "writing")
            {
                done = true;
                (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Bergamot, 1))).Problems.ShouldBeEmpty();
            }
        });
        outcome.Errors.ShouldBeEmpty();
        var count = outcome.Counts.Single(c => c.Kind == "sightings");
        (count.Added, count.Changed).ShouldBe((0, 1));
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(2);
    }

    [Fact]
    public async Task A_bed_made_too_small_meanwhile_is_found_by_the_second_check()
    {
        using var garden = await Garden.WithOneYardAsync();
        var done = false;
        var outcome = await RunAsync(garden, $"N-1,front,{Flora.Bergamot},{Garden.Today:yyyy-MM-dd},9\n", async at =>
        {
            if (!done && at.Doing == "writing")
            {
                done = true;
                await garden.StoreAsync(("beds.csv", "yard,bed,area_m2\nN-1,front,5\n"));
            }
        });
        outcome.Errors.ShouldHaveSingleItem().What.ShouldContain("more than the bed, which is 5 m²");
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Overtaken_every_time_it_stores_nothing_and_says_why()
    {
        using var garden = await Garden.WithOneYardAsync();
        var area = 20;
        var outcome = await RunAsync(garden, $"N-1,front,{Flora.Bergamot},{Garden.Today:yyyy-MM-dd},2\n", async at =>
        {
            if (at.Doing == "writing")
            {
                await garden.StoreAsync(("beds.csv", $"yard,bed,area_m2\nN-1,front,{area++}\n"));
            }
        });
        outcome.Errors.ShouldHaveSingleItem().What.ShouldStartWith("Others kept saving to the same beds and yards");
        area.ShouldBe(23);
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Whoever_types_into_a_bed_that_files_bring_sightings_to_is_told_before_they_overwrite()
    {
        using var garden = await Garden.WithOneYardAsync();
        var before = (await garden.BedAsync()).Bed.Version;
        await garden.StoreAsync(("s.csv", Head + $"N-1,front,{Flora.Bergamot},{Garden.Today:yyyy-MM-dd},2\n"));
        (await garden.BedAsync()).Bed.Version.ShouldNotBe(before);
    }

    private static string Rows(int count) => string.Concat(Enumerable.Range(0, count)
        .Select(i => $"N-1,front,{Flora.All[i % 5].ScientificName},{Garden.Today.AddDays(-1 - (i / 5)):yyyy-MM-dd},1\n"));

    private static Task<ImportOutcome> RunAsync(Garden garden, string rows, Func<ImportProgress, Task> told) =>
        new ImportFiles(garden.Database, garden.Neighbourhood).RunAsync([ImportFile.Read("s.csv", Encoding.UTF8.GetBytes(Head + rows))],
            new ImportChoices(false, false, Garden.Today), new AtOnce(told), CancellationToken.None);

    /// <summary>Tells on the thread of the import, so that what is done there is done in the middle of it.</summary>
    private sealed class AtOnce(Func<ImportProgress, Task> told) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value) => told(value).GetAwaiter().GetResult();
    }
}
