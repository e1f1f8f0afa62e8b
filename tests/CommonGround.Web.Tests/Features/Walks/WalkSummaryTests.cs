using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Walk;

namespace CommonGround.Web.Tests.Features.Walks;

/// <summary>The walk's list and what it tells at its end; August 19 is half-month 15.</summary>
public sealed class WalkSummaryTests
{
    private static readonly DateOnly Today = new(2026, 8, 19);

    [Fact]
    public void The_list_goes_by_bed_and_begins_with_what_should_show_now()
    {
        var yard = new WalkYard("N-1", 100, [new(1, "back", 5, [Plant("b", new(4, 8))]),
            new(2, "front", 10, [Plant("over", new(8, 12)), Plant("old", new(14, 16), old: true), Plant("grass", null),
            Plant("now", new(14, 16))])], []);
        WalkItem.InOrder(yard, HalfMonth.Of(Today)).Select(i => i.Plant.Taxon).ShouldBe(["b", "now", "grass", "over", "old"]);
    }

    [Theory]
    [InlineData(14, 16, Answer.InFlower)]
    [InlineData(15, 15, Answer.InFlower)]
    [InlineData(8, 14, Answer.Finished)]
    [InlineData(16, 18, Answer.StillHere)]
    [InlineData(22, 1, Answer.StillHere)]
    public void What_is_expected_follows_the_usual_dates(int from, int to, Answer expected) =>
        new WalkItem(new(1, "", null, []), Plant("x", new(from, to))).Expected(HalfMonth.Of(Today)).ShouldBe(expected);

    [Fact]
    public void The_end_tells_what_is_new_gone_moved_out_of_time_doubtful_and_unwanted()
    {
        var bed = new WalkBed(1, "front", 10, []);
        WalkItem[] items = [new(bed, Plant("Moved", new(13, 16)) with { GrowthStage = 5, SeenOn = new(2026, 7, 1) }),
            new(bed, Plant("Late", new(8, 12))), new(bed, Plant("Early", new(17, 19))), new(bed, Plant("Lost", null)),
            new(bed, Plant("Unsure", null) with { Certainty = Certainty.Tentative }), new(bed, Plant("Same", null))];
        WalkNote[] notes = [Look("Moved", new() { GrowthStage = 6 }), Look("Late", new() { GrowthStage = 6 }),
            Look("Early", new() { GrowthStage = 6 }), Look("Lost", new() { Finding = Finding.NotFound }), Look("Unsure", new()),
            Look("Same", new()),
            Look("Fresh", new() { CoverSquareMetres = 1 }), Note(WalkNoteKind.Unwanted,
                Flora.Mustard) with { Unwanted = new(2, 50, 8, Certainty.Certain, "") },
                Note(WalkNoteKind.Wildlife, "Same") with { Wildlife = new(WildlifeKind.Butterfly, CountClass.One, "monarch") }];
        var parts = WalkSummary.Of(items, notes, name => Flora.All.FirstOrDefault(t => t.ScientificName == name) is { } t
            ? WalkTaxon.Of(t, true) : null, Today, customary: false);
        parts.Select(p => $"{p.Heading}: {string.Join(", ", p.Lines.Select(l => l.Name))}").ShouldBe(
        [
            "New: Fresh", "Gone or not found: Lost", "Moved on: Moved", "Earlier or later than usual: Late, Early", "Look at again: Unsure",
            "Come back to: garlic mustard", "Animals: monarch (butterfly)",
        ]);
        // Its control calendar: half-months 6 to 9, invented for the small catalogue.
        parts.Single(p => p.Heading == "Come back to").Lines[0].Words.ShouldBe("2 m², ripe seed. Usually treated from April 1 to May 31");
    }

    private static WalkPlant Plant(string name, BloomWindow? bloom, bool old = false) =>
        new(1, name, name, "", new(2025, 8, 1), 1, null, null, Certainty.Certain, "", "", bloom, "", old);

    private static WalkNote Note(WalkNoteKind kind, string taxon) =>
        new(Guid.NewGuid(), Guid.Empty, kind, 1, 1, Walking.Noon, Walking.Noon, "N-1") { BedId = 1, Taxon = taxon };

    private static WalkNote Look(string taxon, LookSaid said) => Note(WalkNoteKind.Look, taxon) with { Look = said };
}
