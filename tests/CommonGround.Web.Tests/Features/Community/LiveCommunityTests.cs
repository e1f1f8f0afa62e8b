using System.Text.Json;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Tests.Features.Community;

public class LiveCommunityTests
{
    private const string Places =
        "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A to B,N-1,41.5,-88.5,100,yes\nNorth,A to B,N-2,41.5,-88.502,100,yes\n"
        + "North,A to B,N-3,41.5,-88.504,100,no\n";

    [Fact]
    public async Task After_a_save_the_live_figures_are_those_of_a_fresh_load()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places), ("beds.csv", "yard,bed,area_m2\nN-1,front,50\nN-2,front,50\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-07-01,4\nN-2,front,Monarda "
                    + "fistulosa,2026-07-01,2\n"),
            ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\nN-1,Alliaria petiolata,2026-05-02,4,30\n"));
        var before = await garden.Live.FiguresAsync(organiser: true);
        var receipt = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 3), Garden.Line(Flora.Bergamot, 0),
            Garden.Line(Flora.Mustard, 7))).ChangeId!.Value;
        var after = await garden.Live.FiguresAsync(organiser: true);
        Text(after).ShouldBe(Text(Figures.Of((await garden.Queries.LoadAsync(Garden.Today, default)).Matrix, sharedOnly: false)));
        Text(after).ShouldNotBe(Text(before));
        await garden.Undo.UndoAsync(receipt, Garden.Organiser);
        Text(await garden.Live.FiguresAsync(organiser: true)).ShouldBe(Text(before));
    }

    [Fact]
    public async Task An_import_and_a_new_yard_show_at_once()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.Live.NowAsync()).Yards.Count.ShouldBe(1);
        await garden.StoreAsync(("places.csv", Places));
        (await garden.Live.NowAsync()).Yards.Count.ShouldBe(3);
        var block = (await garden.Register.BlocksAsync()).Single();
        await garden.Register.SaveAsync(new()
        {
            BlockId = block.Id,
            Code = block.NextCode,
            Latitude = 41.5,
            Longitude = -88.5,
            AreaSquareMetres = 100,
            Light = Ecology.Taxa.Light.Shade,
            Moisture = Ecology.Taxa.Moisture.Dry
        }, Garden.Organiser);
        (await garden.Live.NowAsync()).Yards.Count.ShouldBe(4);
    }

    [Fact]
    public async Task A_new_day_is_read_anew()
    {
        using var garden = await Garden.WithOneYardAsync();
        var yesterday = await garden.Live.NowAsync();
        (await garden.Live.NowAsync()).ShouldBeSameAs(yesterday);
        garden.Time.Now = garden.Time.Now.AddDays(1);
        (await garden.Live.NowAsync()).AsOf.ShouldBe(Garden.Today.AddDays(1));
    }

    [Fact]
    public async Task A_yard_that_does_not_share_takes_no_part_in_what_the_public_sees_not_even_its_infestations()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places + "North,A to B,N-4,41.5,-88.504,100,yes\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-07-01,4\nN-3,front,Symphyotrichum "
                    + "laeve,2026-07-01,2\n"),
            ("infestations.csv",
                "yard,block,scientific_name,observed_on,area_m2,cover_percent\nN-3,,Alliaria petiolata,2026-05-02,4,50\n"));
        var (all, shared) = (await garden.Live.FiguresAsync(organiser: true), await garden.Live.FiguresAsync(organiser: false));
        (all.Neighbourhood.Yards, all.Neighbourhood.Richness).ShouldBe((4, 3));
        all.Neighbourhood.InvasivePressureSquareMetres!.Value.ShouldBeGreaterThan(0);
        (shared.Neighbourhood.Yards, shared.Neighbourhood.Richness).ShouldBe((3, 1));
        shared.Neighbourhood.InvasivePressureSquareMetres.ShouldBe(0);
        shared.Matrix.Yards.ShouldAllBe(y => y.Shared);
        shared.Matrix.Infestations.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_block_of_fewer_than_three_yards_that_share_is_not_shown()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places));
        (await garden.Live.FiguresAsync(organiser: true)).Shown.Count.ShouldBe(1);
        (await garden.Live.FiguresAsync(organiser: false)).Shown.ShouldBeEmpty();
    }

    private static string Text(Figures figures) => JsonSerializer.Serialize(new { figures.Blocks, figures.Streets, figures.Neighbourhood });
}
