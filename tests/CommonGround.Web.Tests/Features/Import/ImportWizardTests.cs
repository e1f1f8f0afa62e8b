using System.Text;
using CommonGround.Interchange.Csv;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

public class ImportJourneyTests
{
    private const string Head = "Yard code,Bed,Species,Date,Cover (m²)\n";

    private static ImportWizard Journey(Garden garden) => new(new ImportFiles(garden.Database, garden.Neighbourhood), garden.Clock);

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    [Fact]
    public async Task A_file_with_foreign_columns_unknown_names_and_bad_rows_is_mended_and_stored_and_again_changes_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        using var journey = Journey(garden);
        await journey.AddAsync("walk.csv",
            Bytes(Head + "N-1,front,Monardda fistulosa,8/4/2026,1\nN-1,front,Solidago rigida,8/4/2026,much\nN-1,front,Odd "
                + "plant,8/4/2026,1\n"));
        journey.Ready.ShouldBeFalse();
        journey.Files[0].WriteDays(DateOrder.MonthFirst);
        journey.Ready.ShouldBeTrue();
        await journey.CheckAsync(Garden.Organiser, () => { });
        journey.Step.ShouldBe(ImportStep.Names);
        journey.Names.Select(n => (n.Name, n.Rows)).ShouldBe([("Monardda fistulosa", 1), ("Odd plant", 1)]);
        journey.Names.First().Nearest[0].ShouldBe(Flora.Bergamot);
        journey.Decide(journey.Names.First(), Flora.Bergamot);
        journey.Decide(journey.Names.Last(), "Odd plant");
        await journey.CheckAsync(Garden.Organiser, () => { });
        journey.Step.ShouldBe(ImportStep.Correct);
        journey.Outcome!.Errors.ShouldHaveSingleItem().Line.ShouldBe(3);
        (await garden.SightingsAsync()).ShouldBeEmpty();

        var corrected = journey.ToCorrect(journey.FilesToCorrect.ShouldHaveSingleItem())!.Replace("much", "2", StringComparison.Ordinal);
        await journey.AddAsync("walk-to-correct (1).csv", Bytes(corrected));
        journey.Files.ShouldHaveSingleItem().WhyNotReady.ShouldBeEmpty();
        await journey.CheckAsync(Garden.Organiser, () => { });
        journey.Step.ShouldBe(ImportStep.Store);
        journey.Outcome!.Counts.ShouldContain(new ImportCount("sightings", 3, 0, 0));
        (await garden.SightingsAsync()).ShouldBeEmpty();
        await journey.StoreAsync(Garden.Organiser, () => { });
        (journey.Step, journey.Outcome!.Changed).ShouldBe((ImportStep.Done, true));
        (await garden.SightingsAsync()).Select(s => (s.ObservedOn, s.CoverSquareMetres))
            .ShouldBe([(new(2026, 8, 4), 2), (new(2026, 8, 4), 1), (new(2026, 8, 4), 1)], ignoreOrder: true);

        using var again = Journey(garden);
        await again.AddAsync("walk.csv", Bytes(corrected));
        await again.CheckAsync(Garden.Organiser, () => { });
        again.Outcome!.Errors.ShouldBeEmpty();
        again.Outcome.Changed.ShouldBeFalse();
    }

    [Fact]
    public async Task Of_two_rows_of_one_day_the_later_of_the_original_holds_after_mending_too()
    {
        using var garden = await Garden.WithOneYardAsync();
        using var journey = Journey(garden);
        await journey.AddAsync("s.csv",
            Bytes("yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\nN-1,front,Monarda "
                + "fistulosa,2026-08-01,much\n"));
        await journey.CheckAsync(Garden.Organiser, () => { });
        await journey.AddAsync("s-to-correct.csv",
            Bytes(journey.ToCorrect(journey.Files[0])!.Replace("much", "2", StringComparison.Ordinal)));
        await journey.StoreAsync(Garden.Organiser, () => { });
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(2);
    }

    [Fact]
    public async Task Cancelled_while_it_writes_it_leaves_nothing_and_says_so()
    {
        using var garden = await Garden.WithOneYardAsync();
        using var journey = Journey(garden);
        var rows = string.Concat(Enumerable.Range(0, 5_000)
            .Select(i => $"N-1,front,{Flora.All[i % 5].ScientificName},{new DateOnly(2000, 1, 1).AddDays(i):yyyy-MM-dd},1\n"));
        await journey.AddAsync("s.csv", Bytes("yard,bed,scientific_name,observed_on,cover_m2\n" + rows));
        await journey.StoreAsync(Garden.Organiser, () =>
        {
            if (journey.Progress is { Doing: "writing" })
            {
                journey.Cancel();
            }
        });
        journey.Said.ShouldStartWith("Stopped. Nothing was stored");
        journey.Step.ShouldNotBe(ImportStep.Done);
        (await garden.SightingsAsync()).ShouldBeEmpty();
        await journey.StoreAsync(Garden.Organiser, () => { });
        (await garden.SightingsAsync()).Count.ShouldBe(5_000);
    }

    [Fact]
    public async Task Who_may_not_organise_stores_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        using var journey = Journey(garden);
        await journey.AddAsync("rain.csv", Bytes("date,rain_mm\n2026-05-01,3\n"));
        await journey.StoreAsync(Garden.Visitor, () => { });
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.WeatherDays.CountAsync()).ShouldBe(0);
    }
}
