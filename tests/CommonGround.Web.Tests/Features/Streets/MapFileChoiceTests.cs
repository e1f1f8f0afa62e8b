using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.MapFiles;
using CommonGround.Web.Features.Streets;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Streets;

/// <summary>A town's files, made by another program (see the tests of Interchange), become streets and blocks.</summary>
public class MapFileChoiceTests
{
    private static readonly GeoPoint Group = new(41.8715, -88.5594);

    [Theory]
    [InlineData("stateplane.zip")]
    [InlineData("utm.gpkg")]
    [InlineData("feet-unsaid.geojson")]
    public async Task Blocks_near_the_group_are_taken_named_and_stored_and_the_same_file_again_changes_nothing(string file)
    {
        using var garden = await Garden.LayAsync();
        var choice = Choice(file);
        choice.LeftOut.ShouldBe("1 line further off, 1 line without a street’s name");
        var drawing = new StreetDrawing(DrawnGround.Empty);
        drawing.Bring(choice.Blocks).ShouldBe((6, 0));
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Blocks.Join(db.Streets, b => b.StreetId, s => s.Id, (b, s) => s.Name + ", " + b.Name).OrderBy(n => n).ToListAsync())
            .ShouldBe(["Kiln Street, crossing 3 to east end", "Kiln Street, west end to Wheelwright",
                "Kiln Street, Wheelwright to crossing 3", "Lathe Street, west end to Wheelwright",
                "Lathe Street, Wheelwright to east end", "Wheelwright Avenue, Kiln to Lathe"], ignoreOrder: true);
        var again = new StreetDrawing(await new DrawingQueries(garden.Database, garden.Neighbourhood).LoadAsync(Garden.Organiser));
        again.Bring(choice.Blocks).ShouldBe((0, 0));
    }

    [Fact]
    public void Another_column_and_another_reading_can_be_chosen()
    {
        var choice = Choice("wgs84.geojson");
        choice.ChooseColumns(choice.Layer.Columns.ToList().IndexOf("ROADCLASS"), null);
        choice.Blocks.Select(b => b.Street).Distinct().ShouldBe(["local", "alley"]);
        choice.WithinKilometres = null;
        choice.Blocks.Count.ShouldBe(8);
        choice.ChooseSystem(PlacingKind.Swapped, 0);
        choice.Blocks.ShouldBeEmpty();
        choice.LeftOut.ShouldBe("8 lines without a place on the earth");
        choice.ChooseSystem(PlacingKind.Plane, 3857);
        choice.WithinKilometres = 1;
        choice.Blocks.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_block_of_the_same_name_gets_the_files_shape_and_keeps_its_yards()
    {
        using var garden = await Garden.WithOneYardAsync();
        var queries = new DrawingQueries(garden.Database, garden.Neighbourhood);
        var drawing = new StreetDrawing(await queries.LoadAsync(Garden.Organiser));
        drawing.Now.Blocks.ShouldHaveSingleItem().IsLine.ShouldBeFalse();
        drawing.Bring([new("north", "a to b", false, [new(41.5, -88.501), new(41.5, -88.499)])]).ShouldBe((0, 1));
        (await Keep(garden).SaveAsync(drawing.Now, null, Garden.Organiser)).ShouldBeEmpty();
        var stored = await queries.LoadAsync(Garden.Organiser);
        stored.Blocks.ShouldHaveSingleItem().IsLine.ShouldBeTrue();
        stored.YardsOn(stored.Blocks[0].Id).ShouldBe(1);
    }

    private static MapFileChoice Choice(string file) => new(MapFile.Read(file, File.ReadAllBytes(Path.Combine(TempFolder.Repository(),
        "tests/CommonGround.Interchange.Tests/MapFiles/Files", file))), Group);

    private static KeepDrawing Keep(Garden garden) => new(garden.Database, garden.Neighbourhood, garden.Clock);
}
