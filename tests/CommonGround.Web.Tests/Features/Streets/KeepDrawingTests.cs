using System.Text.Json;
using CommonGround.Interchange.GeoJson;
using CommonGround.Web.Features.Streets;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Streets;

public class KeepDrawingTests
{
    private const double Usual = 700;

    [Fact]
    public async Task Drawn_streets_blocks_and_yards_are_stored_in_one_change_and_undone_as_one()
    {
        using var garden = await Garden.LayAsync();
        var drawing = new StreetDrawing(await LoadAsync(garden));
        drawing.Press(new(41.87, -88.56), 5, "Kiln Street");
        drawing.Press(new(41.87, -88.558), 5, "");
        drawing.Press(new(41.87, -88.556), 5, "");
        drawing.AddYard(drawing.Now.Blocks[0].Id);
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldHaveSingleItem().Field.ShouldBe("yard");
        (await Keep(garden).SaveAsync(drawing.Now, Usual, Garden.Organiser)).ShouldBeEmpty();

        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Blocks.OrderBy(b => b.Id).Select(b => b.Name).ToListAsync()).ShouldBe(["west end to crossing 2",
            "crossing 2 to east end"]);
        var block = await db.Blocks.OrderBy(b => b.Id).FirstAsync();
        block.MiddleLongitude!.Value.ShouldBe(-88.559, 1e-9);
        var yard = await db.Yards.SingleAsync();
        (yard.Code, yard.AreaSquareMetres, yard.OwnerId, yard.Shared, yard.BlockId).ShouldBe(("KI-01", Usual, null, false, block.Id));
        var again = await LoadAsync(garden);
        again.Blocks.ShouldAllBe(b => b.Began != null);
        (await Keep(garden).SaveAsync(again, null, Garden.Organiser)).ShouldBeEmpty();
        var change = await db.Changes.OrderBy(c => c.Id).LastAsync();
        change.What.ShouldBe("drew streets: 2 blocks on 1 street");
        (await garden.Undo.UndoAsync(change.Id, Garden.Organiser)).ShouldBeEmpty();
        ((await db.Streets.CountAsync()), (await db.Blocks.CountAsync()), (await db.Yards.CountAsync())).ShouldBe((0, 0, 0));
    }

    [Fact]
    public async Task A_drawing_put_on_the_device_comes_back_whole_and_holds_no_place_of_an_untouched_yard()
    {
        using var garden = await Garden.WithOneYardAsync();
        await ShapeAsync(garden);
        var drawing = new StreetDrawing(await LoadAsync(garden));
        drawing.Split(drawing.Now.Blocks[0].Id).ShouldBe("");
        drawing.AddYard(drawing.Now.Blocks[^1].Id).ShouldBe("");
        var text = JsonSerializer.Serialize(DrawnChange.Of(drawing.Began, drawing.Now));
        text.ShouldNotContain("N-1");
        var back = JsonSerializer.Deserialize<DrawnChange>(text)!.Over(await LoadAsync(garden));
        back.Yards.Count.ShouldBe(2);
        (await Keep(garden).SaveAsync(back, Usual, Garden.Organiser)).ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Blocks.CountAsync()).ShouldBe(2);
    }

    /// <summary>What a browser tells the server in one message is 32 KB by default (SignalR's MaximumReceiveMessageSize): a large
    /// neighbourhood with a few changes stays far below.</summary>
    [Fact]
    public async Task Of_a_large_neighbourhood_only_what_changed_is_kept_on_the_device()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("streets.geojson", "{\"type\":\"FeatureCollection\",\"features\":[" + string.Join(',',
            Enumerable.Range(0, 300).Select(i => "{\"type\":\"Feature\",\"properties\":{\"street\":\"North\",\"block\":\"" + i
                + "\"},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[" + FormattableString.Invariant(
                    $"[{-88.5 + (i * .001)},41.5],[{-88.499 + (i * .001)},41.5]") + "]}}")) + "]}"));
        var drawing = new StreetDrawing(await LoadAsync(garden));
        drawing.Split(drawing.Now.Blocks[7].Id).ShouldBe("");
        drawing.Delete(drawing.Now.Blocks[^1].Id).ShouldBe("");
        var text = JsonSerializer.Serialize(DrawnChange.Of(drawing.Began, drawing.Now));
        text.Length.ShouldBeLessThan(8_000);
        var back = JsonSerializer.Deserialize<DrawnChange>(text)!.Over(await LoadAsync(garden));
        back.Blocks.Select(b => b.Id).Order().ShouldBe(drawing.Now.Blocks.Select(b => b.Id).Order());
        back.Crossings.Count.ShouldBe(drawing.Now.Crossings.Count);
    }

    [Fact]
    public async Task What_nobody_touched_stays_as_it_is_stored()
    {
        using var garden = await Garden.WithOneYardAsync();
        // Ends that lie two metres apart are one crossing in the drawing; stored lines keep their own ends.
        await garden.StoreAsync(("streets.geojson", Lines("[-88.501,41.5],[-88.5,41.5]", "[-88.49998,41.5],[-88.499,41.5]")));
        await using var db = await garden.Database.CreateDbContextAsync();
        var before = await db.Blocks.AsNoTracking().OrderBy(b => b.Id).Select(b => b.Geometry).ToListAsync();
        var ground = await LoadAsync(garden);
        ground.Crossings.Count.ShouldBe(3);
        var drawing = new StreetDrawing(ground);
        drawing.RenameStreet(ground.Streets[0].Id, "North Road");
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldBeEmpty();
        (await db.Blocks.AsNoTracking().OrderBy(b => b.Id).Select(b => b.Geometry).ToListAsync()).ShouldBe(before);
        (await db.Streets.AsNoTracking().SingleAsync()).Name.ShouldBe("North Road");
    }

    [Fact]
    public async Task Two_people_at_one_block_the_second_is_told_and_nothing_is_overwritten()
    {
        using var garden = await Garden.WithOneYardAsync();
        await ShapeAsync(garden);
        var (first, second) = (new StreetDrawing(await LoadAsync(garden)), new StreetDrawing(await LoadAsync(garden)));
        first.RenameBlock(first.Now.Blocks[0].Id, "the long block");
        second.RenameBlock(second.Now.Blocks[0].Id, "the short block");
        (await Keep(garden).SaveAsync(first.Now, null, Garden.Organiser)).ShouldBeEmpty();
        (await Keep(garden).SaveAsync(second.Now, null, Garden.Organiser)).ShouldHaveSingleItem().Message
            .ShouldStartWith("Somebody else changed the block");
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Blocks.SingleAsync()).Name.ShouldBe("the long block");
    }

    /// <summary>Unwanted plants of the block itself need somebody to take them over; those of a yard go with the yard.</summary>
    [Fact]
    public async Task A_deleted_block_leaves_its_yards_and_records_to_the_block_that_takes_them()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("streets.geojson", Lines("[-88.501,41.5],[-88.5,41.5]", "[-88.5,41.5],[-88.499,41.5]")),
            ("infestations.csv", "yard,block,scientific_name,observed_on,area_m2,cover_percent\n"
                + $",A to B,{Flora.All[0].ScientificName},2026-06-01,4,50\nN-1,,{Flora.All[0].ScientificName},2026-06-01,2,50\n"));
        var drawing = new StreetDrawing(await LoadAsync(garden));
        var (gone, heir) = (drawing.Now.Yards[0].BlockId, drawing.Now.Blocks.First(b => b.Id != drawing.Now.Yards[0].BlockId).Id);
        drawing.MoveYard(drawing.Now.Yards[0].Id, drawing.Now.MiddleOf(drawing.Now.Block(heir)!)!.Value).ShouldBe("");
        drawing.Delete(gone).ShouldBe("");
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldHaveSingleItem().Message
            .ShouldStartWith("Unwanted plants are recorded on North, A to B");
        drawing.Undo();
        drawing.Delete(gone, heir).ShouldBe("");
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Blocks.SingleAsync()).Id.ShouldBe(heir);
        (await db.Infestations.ToListAsync()).Select(i => i.BlockId).ShouldBe([heir, heir]);
        (await db.Yards.SingleAsync()).BlockId.ShouldBe(heir);
    }

    /// <summary>Otherwise the public could subtract what a deleted block showed from what its heir shows: a single yard would be left
    /// (differencing; Hundepool et al., Handbook on Statistical Disclosure Control, 2010, chapter 4).</summary>
    [Fact]
    public async Task What_the_public_saw_of_a_block_is_remembered_when_the_block_is_joined_to_another()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("streets.geojson", Lines("[-88.501,41.5],[-88.5,41.5]", "[-88.5,41.5],[-88.499,41.5]")),
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\n" + string.Concat(Enumerable.Range(1, 3)
            .Select(n => $"North,A to B,N-{n},41.5001,-88.5005,100,yes\n")) + "North,B to C,N-4,41.5001,-88.4995,100,yes\n"));
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.PublishedYards.CountAsync()).ShouldBe(1);
        var drawing = new StreetDrawing(await LoadAsync(garden));
        var (large, small) = (drawing.Now.Yards[0].BlockId, drawing.Now.Yards[3].BlockId);
        drawing.Delete(large, small).ShouldBe("");
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldBeEmpty();
        var seen = await db.PublishedYards.AsNoTracking().ToListAsync();
        seen.ShouldAllBe(p => p.BlockId == small);
        seen.ShouldHaveSingleItem().Yards.Split(' ').Length.ShouldBe(3);
    }

    [Fact]
    public async Task Nobody_but_an_organiser_sees_or_stores_a_drawing()
    {
        using var garden = await Garden.WithOneYardAsync();
        await ShapeAsync(garden);
        (await new DrawingQueries(garden.Database, garden.Neighbourhood).LoadAsync(Garden.Visitor)).ShouldBe(DrawnGround.Empty);
        (await Keep(garden).SaveAsync(await LoadAsync(garden), null, Garden.Visitor)).ShouldHaveSingleItem();
    }

    [Fact]
    public void Names_are_asked_for_and_told_apart()
    {
        var drawing = new StreetDrawing(DrawnGround.Empty);
        drawing.Press(new(41.87, -88.56), 5, "");
        drawing.Press(new(41.87, -88.558), 5, "");
        KeepDrawing.Check(drawing.Now, null).ShouldHaveSingleItem().Message.ShouldStartWith("A street has no name yet.");
        drawing.RenameStreet(drawing.Now.Streets[0].Id, new string('k', 201));
        KeepDrawing.Check(drawing.Now, null).ShouldHaveSingleItem().Message.ShouldContain("200 characters");
    }

    private static KeepDrawing Keep(Garden garden) => new(garden.Database, garden.Neighbourhood, garden.Clock);

    private static Task<DrawnGround> LoadAsync(Garden garden) =>
        new DrawingQueries(garden.Database, garden.Neighbourhood).LoadAsync(Garden.Organiser);

    private static Task<Web.Features.Import.ImportOutcome> ShapeAsync(Garden garden) =>
        garden.StoreAsync(("streets.geojson", Lines("[-88.501,41.5],[-88.499,41.5]")));

    private static string Lines(params string[] lines) => "{\"type\":\"FeatureCollection\",\"features\":[" + string.Join(',',
        lines.Select((line, i) => "{\"type\":\"Feature\",\"properties\":{\"street\":\"North\",\"block\":\"" + "ABC"[i] + " to "
            + "ABC"[i + 1] + "\"},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[" + line + "]}}")) + "]}";
}
