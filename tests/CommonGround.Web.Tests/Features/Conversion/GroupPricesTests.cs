using CommonGround.Planning.Conversion;
using CommonGround.Web.Features.Conversion;

namespace CommonGround.Web.Tests.Features.Conversion;

public class GroupPricesTests
{
    [Fact]
    public async Task What_organisers_set_is_what_plans_read()
    {
        using var garden = await Garden.LayAsync();
        var prices = new GroupPrices(garden.Database, garden.Neighbourhood);
        var lines = await prices.LinesAsync();
        lines.ShouldNotContain(l => l.ScientificName == Flora.Mustard);
        lines.Single(l => l.ScientificName == Flora.Bergamot).SeedPerGram = 1.25;
        var rates = (await prices.ReadAsync()) with { DiscountRate = 0.05, PreparePerSquareMetre = new Spread(1, 2, 3) };
        (await prices.SaveAsync(rates, lines, Garden.Organiser)).ShouldBeEmpty();
        var read = await prices.ReadAsync();
        (read.DiscountRate, read.PreparePerSquareMetre, read.Invented).ShouldBe((0.05, new Spread(1, 2, 3), false));
        read.Taxa.Keys.ShouldBe([Flora.Bergamot]);
        read.Taxa[Flora.Bergamot].ShouldBe(new TaxonPrice(1.25, null));
    }

    [Fact]
    public async Task A_figure_that_cannot_be_is_refused_by_its_words_and_nothing_is_kept()
    {
        using var garden = await Garden.LayAsync();
        var prices = new GroupPrices(garden.Database, garden.Neighbourhood);
        var lines = await prices.LinesAsync();
        lines[0].PlugEach = -1;
        var problems = await prices.SaveAsync(new PriceTable { MowingsPerYear = new Spread(30, 20, 40), Germination = 0 }, lines,
            Garden.Organiser);
        problems.Select(p => p.Field).ShouldBe([nameof(PriceTable.MowingsPerYear), nameof(PriceTable.Purity), lines[0].ScientificName],
            ignoreOrder: true);
        (await prices.ReadAsync()).MowingsPerYear.ShouldBe(new PriceTable().MowingsPerYear);
    }

    [Fact]
    public async Task Only_organisers_set_prices()
    {
        using var garden = await Garden.LayAsync();
        (await new GroupPrices(garden.Database, garden.Neighbourhood).SaveAsync(new PriceTable(), [],
            Garden.Visitor)).ShouldHaveSingleItem();
    }
}
