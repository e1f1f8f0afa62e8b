using CommonGround.Web.Features.ThisHalfMonth;

namespace CommonGround.Web.Tests.Features.ThisHalfMonth;

/// <summary>What everybody is told of unwanted plants to treat.</summary>
public sealed class ToDoTests
{
    private const int EarlyApril = 6;

    [Theory]
    [InlineData(1, false)]
    [InlineData(2, false)]
    [InlineData(3, true)]
    public async Task A_plant_in_fewer_than_three_yards_is_told_to_the_public_without_place_or_amount(int yards, bool told)
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\n" + string.Concat(Enumerable.Range(1, 4)
                .Select(i => $"North,A to B,N-{i},41.5,-88.5,100,yes\n"))),
            ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\n" + string.Concat(Enumerable.Range(1, yards)
                .Select(i => $"N-{i},{Flora.Mustard},2026-05-02,4,50\n"))));
        var seen = await garden.Live.FiguresAsync(organiser: false);
        seen.Shown.ShouldHaveSingleItem();
        var open = ToDo.Controls(seen, EarlyApril, Garden.Today, organiser: false).ShouldHaveSingleItem();
        (open.AreaSquareMetres is not null, open.Places.Count > 0).ShouldBe((told, told));
        var own = ToDo.Controls(await garden.Live.FiguresAsync(organiser: true), EarlyApril, Garden.Today, organiser: true)
            .ShouldHaveSingleItem();
        (own.AreaSquareMetres, own.Places.Count).ShouldBe((4.0 * yards, 1));
    }
}
