using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Tests.Features.Record;

/// <summary>A walk sheet typed from paper.</summary>
public class SheetDraftTests
{
    [Fact]
    public async Task A_sheet_is_stored_row_by_row_and_what_is_blank_stays_as_it_was()
    {
        using var garden = await SheetAsync();
        var beds = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        var order = SheetDraft.Order(beds);
        // The paper's order: by bloom, then three empty rows.
        order.Select(r => r.Planting?.Taxon.ScientificName).ShouldBe([Flora.Columbine, Flora.Bergamot, Flora.Smooth, null, null, null]);
        var draft = Typed(order, ("", "", "", ""), ("1", "6", "", "2"), ("0", "", "", ""));
        draft.Rows.Add(new SheetRow { Key = order[3].Key, Name = "stiff goldenrod", Cover = "0,5", Stage = "5", Remark = "by the gate" });
        (await Recording(garden).SaveAsync("N-1", beds, draft, Garden.Organiser)).ShouldBeEmpty();

        var rows = (await garden.SightingsAsync()).Where(s => s.ObservedOn == new DateOnly(2026, 8, 10)).ToList();
        rows.Count.ShouldBe(3);
        var bergamot = rows.Single(r => r.GrowthStage == 6);
        (bergamot.CoverSquareMetres, bergamot.Certainty, bergamot.Finding,
            bergamot.Observer).ShouldBe((2, Certainty.Probable, Finding.Growing, "walker 3"));
        rows.Single(r => r.Finding == Finding.NotFound).CoverSquareMetres.ShouldBe(0);
        var added = rows.Single(r => r.GrowthStage == 5);
        (added.CoverSquareMetres, added.Remarks).ShouldBe((0.5, "by the gate"));

        // Typed twice, it stands once.
        (await Recording(garden).SaveAsync("N-1", (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!, draft,
            Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync()).Count(s => s.ObservedOn == new DateOnly(2026, 8, 10)).ShouldBe(3);
    }

    [Theory]
    [InlineData("5", "", "", "", "Row 1: “5” under Here")]
    [InlineData("1", "x", "", "", "Row 1: “x” is no stage")]
    [InlineData("1", "", "much", "", "Row 1: “much” is no cover")]
    [InlineData("1", "", "", "9", "Row 1: “9” under Sure")]
    public async Task A_wrong_code_is_named_with_its_row_and_nothing_is_stored(string here, string stage, string cover, string sure,
    string message)
    {
        using var garden = await SheetAsync();
        var beds = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        var before = (await garden.SightingsAsync()).Count;
        var draft = Typed(SheetDraft.Order(beds), (here, stage, cover, sure), ("1", "", "", ""));
        var problems = await Recording(garden).SaveAsync("N-1", beds, draft, Garden.Organiser);
        problems.ShouldHaveSingleItem().Message.ShouldStartWith(message);
        problems[0].Field.ShouldBe("Rows[0]");
        (await garden.SightingsAsync()).Count.ShouldBe(before);
    }

    [Fact]
    public async Task A_list_that_changed_meanwhile_moves_no_row_to_another_plant()
    {
        using var garden = await SheetAsync();
        var beds = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        var draft = Typed(SheetDraft.Order(beds), ("1", "7", "", ""));
        // The columbine is taken out before the sheet is sent.
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Columbine, 0))).Problems.ShouldBeEmpty();
        var now = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        (await Recording(garden).SaveAsync("N-1", now, draft, Garden.Organiser)).ShouldHaveSingleItem(
            ).Message.ShouldContain($"{Flora.Columbine} stands in it no more");
    }

    [Fact]
    public async Task A_day_to_come_an_empty_sheet_a_vague_name_and_too_much_cover_are_refused_in_words()
    {
        using var garden = await SheetAsync();
        var beds = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        var order = SheetDraft.Order(beds);
        async Task<string> RefusedAsync(SheetDraft draft) =>
            (await Recording(garden).SaveAsync("N-1", beds, draft, Garden.Organiser)).ShouldHaveSingleItem().Message;
        var late = Typed(order, ("1", "", "", ""));
        late.Day = "2026-12-01";
        (await RefusedAsync(late)).ShouldBe("Give the day of the walk; today is August 19, 2026.");
        (await RefusedAsync(Typed(order))).ShouldBe("No row is filled in yet.");
        var vague = Typed(order);
        vague.Rows.Add(new SheetRow { Key = order[3].Key, Name = "aster", Cover = "1" });
        (await RefusedAsync(vague)).ShouldStartWith("Row 4: the catalogue has no single plant called “aster”: is it ");
        (await RefusedAsync(Typed(order, ("1", "", "500", "")))).ShouldContain("more than the bed");
        (await Recording(garden).SaveAsync("N-1", beds, Typed(order, ("1", "", "", "")), Garden.Visitor)).ShouldHaveSingleItem();
    }

    [Fact]
    public async Task Cover_is_read_in_the_readers_unit()
    {
        using var garden = await SheetAsync();
        var beds = (await garden.Yards.BedsAsync("N-1", Garden.Organiser))!;
        (await Recording(garden).SaveAsync("N-1", beds, Typed(SheetDraft.Order(beds), ("1", "", "21.5", "")),
            Garden.Organiser with { Customary = true })).ShouldBeEmpty();
        // 10.7639 ft² to the m² (international foot).
        (await garden.SightingsAsync())[^1].CoverSquareMetres.ShouldBe(21.5 * 0.3048 * 0.3048, 1e-9);
    }

    private static RecordSheetRows Recording(Garden garden) => new(garden.Record, garden.Yards, garden.Live, garden.Clock);

    private static SheetDraft Typed(IReadOnlyList<(string Key, BedView Bed, PlantingLine? Planting)> order,
        params (string Here, string Stage, string Cover, string Sure)[] rows) => new()
        {
            Day = "2026-08-10",
            Observer = "walker 3",
            Rows = [.. rows.Select((r, i) => new SheetRow { Key = order[i].Key, Here = r.Here, Stage = r.Stage, Cover = r.Cover,
            Sure = r.Sure })],
        };

    private static async Task<Garden> SheetAsync()
    {
        var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,{Flora.Smooth},2026-06-01,2\n"
                + $"N-1,front,{Flora.Bergamot},2026-06-01,2\nN-1,front,{Flora.Columbine},2026-06-01,1\n"));
        return garden;
    }
}
