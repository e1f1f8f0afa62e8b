using CommonGround.Interchange.GeoJson;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Tests.Features.Streets;

public class StreetDrawingTests
{
    private static readonly GeoPoint Middle = new(41.87, -88.56);
    private readonly StreetDrawing drawing = new(DrawnGround.Empty);

    /// <summary>A minute of latitude is about a nautical mile, 1,852 m (International Hydrographic Conference, Monaco 1929).</summary>
    [Fact]
    public void A_minute_of_latitude_is_a_nautical_mile() =>
        DrawnLines.Metres(new(41.5, -88), new(41.5 + (1 / 60.0), -88)).ShouldBe(1852, 1852 * 0.002);

    [Fact]
    public void A_block_arises_between_two_crossings_and_is_named_by_what_crosses()
    {
        Kiln();
        drawing.EndStreet();
        Press(100, 0, "Wheelwright Avenue");
        Press(100, -150);
        drawing.Now.Blocks.Count.ShouldBe(3);
        DrawingWords.Blocks(drawing.Now).Values.ShouldBe(["west end to Wheelwright", "Wheelwright to east end", "Kiln to south end"]);
        DrawingWords.Headline(drawing.Now).ShouldBe("Three blocks so far, on two streets");
    }

    [Fact]
    public void A_street_drawn_across_another_splits_it_there_and_the_yards_go_with_their_half()
    {
        Kiln(twoBlocks: false);
        drawing.PlaceYard(At(20, 15)).ShouldBe("");
        drawing.PlaceYard(At(180, -15)).ShouldBe("");
        drawing.EndStreet();
        Press(100, 80, "Lathe Street");
        Press(100, -80);
        drawing.Now.Blocks.Count.ShouldBe(4);
        drawing.Now.Crossings.Count.ShouldBe(5);
        drawing.Now.Yards.Select(y => y.BlockId).Distinct().Count().ShouldBe(2);
        foreach (var yard in drawing.Now.Yards)
        {
            var nearest = drawing.Now.Blocks.MinBy(b => DrawnLines.Nearest(drawing.Now.LineOf(b), yard.At).Metres)!;
            yard.BlockId.ShouldBe(nearest.Id);
        }
    }

    [Fact]
    public void Every_step_can_be_undone_to_the_beginning()
    {
        Kiln();
        drawing.PlaceYard(At(50, 10)).ShouldBe("");
        drawing.Split(drawing.Now.Blocks[0].Id).ShouldBe("");
        drawing.RenameBlock(drawing.Now.Blocks[0].Id, "the corner");
        drawing.RenameStreet(drawing.Now.Streets[0].Id, "Furnace Street");
        drawing.MoveCrossing(drawing.Now.Crossings[0].Id, At(-20, 5));
        drawing.TakeCrossing(drawing.Now.Crossings[1].Id).ShouldBe("");
        drawing.Delete(drawing.Now.Blocks[0].Id, drawing.Now.Blocks[1].Id).ShouldBe("");
        drawing.IsChanged.ShouldBeTrue();
        for (var steps = 0; drawing.CanUndo; steps++)
        {
            steps.ShouldBeLessThan(100);
            drawing.Undo();
        }

        drawing.Now.ShouldBe(DrawnGround.Empty);
        drawing.IsChanged.ShouldBeFalse();
    }

    [Fact]
    public void Split_and_taken_out_again_a_block_is_as_long_as_before()
    {
        Kiln(twoBlocks: false);
        var block = drawing.Now.Blocks[0];
        var length = DrawnLines.Metres(drawing.Now.LineOf(block));
        drawing.Split(block.Id).ShouldBe("");
        drawing.Now.Blocks.ShouldAllBe(b => Math.Abs(DrawnLines.Metres(drawing.Now.LineOf(b)) - (length / 2)) < 0.01);
        drawing.TakeCrossing(drawing.Now.Crossings[^1].Id).ShouldBe("");
        DrawnLines.Metres(drawing.Now.LineOf(drawing.Now.Blocks.ShouldHaveSingleItem())).ShouldBe(length, 0.01);
        drawing.Now.Crossings.Count.ShouldBe(2);
    }

    [Fact]
    public void A_crossing_where_streets_meet_is_not_taken_out()
    {
        Kiln();
        drawing.EndStreet();
        Press(100, 0, "Wheelwright Avenue");
        Press(100, -150);
        drawing.TakeCrossing(drawing.Now.Crossings[1].Id).ShouldStartWith("More than two blocks meet here.");
        drawing.TakeCrossing(drawing.Now.Crossings[0].Id).ShouldStartWith("A street ends here.");
    }

    [Fact]
    public void A_block_with_yards_is_deleted_only_when_another_takes_them()
    {
        Kiln();
        var (first, second) = (drawing.Now.Blocks[0].Id, drawing.Now.Blocks[1].Id);
        drawing.AddYard(first).ShouldBe("");
        drawing.AddYard(first).ShouldBe("");
        drawing.Delete(first).ShouldBe("2 yards stand on this block. Choose which block takes them, then delete.");
        drawing.DeleteStreet(drawing.Now.Streets[0].Id).ShouldStartWith("2 yards stand on this street.");
        drawing.Delete(first, second).ShouldBe("");
        drawing.Now.YardsOn(second).ShouldBe(2);
        drawing.Now.Heirs[first].ShouldBe(second);
    }

    [Fact]
    public void Yards_placed_one_after_the_other_stand_beside_their_block_on_both_sides()
    {
        Kiln(twoBlocks: false);
        var block = drawing.Now.Blocks[0];
        for (var i = 0; i < 4; i++)
        {
            drawing.AddYard(block.Id).ShouldBe("");
        }

        drawing.Now.Yards.Select(y => y.Code).ShouldBe(["KI-01", "KI-02", "KI-03", "KI-04"]);
        drawing.Now.Yards.Count(y => y.At.Latitude > Middle.Latitude).ShouldBe(2);
        drawing.Now.Yards.ShouldAllBe(y => Math.Abs(DrawnLines.Nearest(drawing.Now.LineOf(block), y.At).Metres - 18) < 0.1);
        drawing.TakeYard(block.Id).ShouldBe("");
        drawing.Now.Yards.Count.ShouldBe(3);
    }

    [Fact]
    public void A_yard_far_from_every_block_is_not_placed()
    {
        drawing.PlaceYard(At(0, 0)).ShouldBe("Draw the street first; yards stand on its blocks.");
        Kiln();
        drawing.PlaceYard(At(0, 400)).ShouldStartWith("No block is near enough.");
        drawing.Press(new GeoPoint(-33, 151), 5, "South Street").ShouldContain("south of the equator");
    }

    [Fact]
    public void A_press_lands_where_it_was_made_however_wide_the_map_is_shown()
    {
        var session = new DrawingSession(DrawnGround.Empty, Middle);
        var wide = session.Map(narrow: false);
        var (x, y) = wide.At(At(60, 30).Longitude, At(60, 30).Latitude);
        session.Press(x / 2, y / 2, wide.Width / 2, narrow: false);
        DrawnLines.Metres(session.Ground.Crossings.ShouldHaveSingleItem().At, At(60, 30)).ShouldBeLessThan(0.2);
        session.Type("Mill Lane", 131, 90);
        session.Said.ShouldEndWith("131 m long.");
        DrawingWords.Blocks(session.Ground).Values.ShouldHaveSingleItem().ShouldBe("west end to Mill");
    }

    private void Kiln(bool twoBlocks = true)
    {
        Press(0, 0, "Kiln Street");
        if (twoBlocks)
        {
            Press(100, 0);
        }

        Press(200, 0);
    }

    private void Press(double east, double north, string street = "") => drawing.Press(At(east, north), 5, street).ShouldBe("");

    private static GeoPoint At(double east, double north) => DrawnLines.Moved(Middle, north, east);
}
