using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

public class PriceImportTests
{
    private const string Head = "scientific_name,seed_per_gram,plug_each\n";

    [Fact]
    public async Task A_later_file_replaces_a_price_and_the_same_file_changes_nothing()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("prices.csv", Head + "Monarda fistulosa,0.8,2.5\n"));
        var again = await garden.ImportAsync(("prices.csv", Head + "Monarda fistulosa,0.8,2.5\n"));
        again.Counts.ShouldHaveSingleItem().Unchanged.ShouldBe(1);
        await garden.StoreAsync(("prices.csv", Head + "Monarda fistulosa,,3\n"));
        await using var db = await garden.Database.CreateDbContextAsync();
        var price = await db.Prices.SingleAsync();
        (price.SeedPerGram, price.PlugEach).ShouldBe((null, 3));
    }

    [Fact]
    public async Task A_name_nobody_knows_is_refused_and_no_price_is_kept()
    {
        using var garden = await Garden.LayAsync();
        var outcome = await garden.ImportAsync(("prices.csv", Head + "Monarda fistulosa,0.8,2.5\nMonarda fistulosissima,1,2\n"));
        outcome.Errors.ShouldHaveSingleItem().Line.ShouldBe(3);
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Prices.CountAsync()).ShouldBe(0);
    }
}
