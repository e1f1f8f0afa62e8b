using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class ConversionCheckTests
{
    public static TheoryData<string, ConversionRequest> Mistakes() => new()
    {
        { "Area 1 has 0 m². Give it a size above 0, or remove it.", InventedFlora.Request(0) },
        { "There is no area to convert. Draw one or type its size.", InventedFlora.Request() with { Areas = [] } },
        { "Two areas are called Strip. Name each differently.",
            InventedFlora.Request() with { Areas = [new("Strip", 1, []), new("strip", 2, [])] } },
        { "At least 700 and at most 645 seeds per m² contradict each other. Lower the first or raise the second.",
            InventedFlora.Request() with { FewestSeedsPerSquareMetre = 700, MostSeedsPerSquareMetre = 645 } },
        { "At least 60 % and at most 50 % grass contradict each other. Lower the first or raise the second.",
            InventedFlora.Request() with { LeastGrassShare = 0.6, MostGrassShare = 0.5 } },
        { "At least 30 and at most 24 taxa contradict each other. Lower the first or raise the second.",
            InventedFlora.Request() with { FewestTaxa = 30, MostTaxa = 24 } },
        { "Flos a is wanted and not wanted. Take it off one of the two lists.",
            InventedFlora.Request() with { MustHave = ["Flos a"], Never = ["Flos a"] } },
        { "Flos a is locked at -1 seeds per m² and 0 plugs. A lock keeps seed, plugs or both, each 0 or more. Unlock it.",
            InventedFlora.Request() with { LockedAmounts = new Dictionary<string, PlantedAmount> { ["Flos a"] = new(-1, 0) } } },
        { "A budget is 0 or more. Leave it empty for no limit.", InventedFlora.Request() with { Budget = -1 } },
        { "The height limit is above 0 m. Leave it empty when there is none.",
            InventedFlora.Request() with { TallestMetres = double.NaN } },
        { "Slope is 0 to 100 percent: a rise of 1 m over 10 m is 10.", InventedFlora.Request() with { SlopePercent = 101 } },
    };

    [Theory]
    [MemberData(nameof(Mistakes), DisableDiscoveryEnumeration = true)]
    public void A_mistake_is_said_in_one_plain_message_and_nothing_is_solved(string message, ConversionRequest request)
    {
        request.Check().Select(p => p.Message).ShouldBe([message]);
        var none = ConversionPlanner.Solve(request, InventedFlora.Around(InventedFlora.Plain()),
            InventedFlora.Prices).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([message]);
    }

    [Fact]
    public void An_area_larger_than_the_lawn_is_refused()
    {
        var around = InventedFlora.Around(InventedFlora.Plain());
        InventedFlora.Request(30, 31).Check(around, 60.5).ShouldHaveSingleItem(
            ).Message.ShouldStartWith("The areas add up to 61 m², more than the yard's 60.5 m² of lawn.");
        InventedFlora.Request(30, 30.5).Check(around, 60.5).ShouldBeEmpty();
        InventedFlora.Request(30, 31).Check(around).ShouldBeEmpty();
    }

    [Fact]
    public void Must_haves_that_do_not_suit_or_do_not_exist_are_named_with_the_reason()
    {
        CatalogueTaxon[] catalogue = [.. InventedFlora.Plain(), InventedFlora.Forb("Palustris") with { Moisture = [Moisture.Wet] }];
        var problems = (InventedFlora.Request() with { MustHave = ["Palustris", "Nullus", "Flos a"] }).Check(
            InventedFlora.Around(catalogue));
        problems.Select(p => p.Field).ShouldBe(["MustHave", "MustHave"]);
        problems[0].Message.ShouldStartWith("Palustris does not suit: wants other soil moisture.");
        problems[1].Message.ShouldStartWith("The catalogue has no Nullus.");
    }

    [Fact]
    public void Prices_that_cannot_be_are_refused()
    {
        new PriceTable().Check().ShouldBeEmpty();
        new PriceTable { DiscountRate = 0.3 }.Check().ShouldHaveSingleItem().Field.ShouldBe("DiscountRate");
        new PriceTable { Germination = 0 }.Check().ShouldHaveSingleItem().Field.ShouldBe("Germination");
        new PriceTable { MowingsPerYear = new(3, 2, 4) }.Check().ShouldHaveSingleItem().Field.ShouldBe("MowingsPerYear");
        new PriceTable { Taxa = new Dictionary<string, TaxonPrice> { ["Flos a"] = new(-1, null) } }.Check()
            .ShouldHaveSingleItem().Field.ShouldBe("Taxa Flos a");
    }

    [Fact]
    public void Prices_missing_for_half_of_the_list_are_said_with_what_to_do()
    {
        var taxa = InventedFlora.Plain();
        string? Note(int priced)
        {
            PlannedTaxon[] lines = [.. taxa.Select((t, i) => new PlannedTaxon(t, PlantedAs.Seed, 1.0 / 9, 1, 1, 1, 1, 0, 1, i >= priced,
                []))];
            return PriceNote.Of(new ConversionMix(lines, [], [], 9, new(0, 14, 0, 0, 0, 0, true), []));
        }

        Note(9).ShouldBeNull();
        Note(8).ShouldBe(
            "The group has no price for 1 of 9 taxa: Gramen c. A default stands in for it; enter it in the price table to be sure of "
                + "the cost.");
        Note(4).ShouldBe(
            "The group has no price for 5 of 9 taxa, half of the list or more. Defaults stand in for them, so the cost is a rough guess: "
                + "enter their prices in the price table before you rely on it.");
    }
}
