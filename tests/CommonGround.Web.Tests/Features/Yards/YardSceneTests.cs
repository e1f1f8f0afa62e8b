using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Tests.Features.Yards;

/// <summary>A bed's record as a bed that can be drawn.</summary>
public class YardSceneTests
{
    private static readonly DateOnly Today = new(2026, 8, 19);

    [Fact]
    public void Plants_are_counted_from_their_cover_and_the_bed_has_its_area()
    {
        // A circle of 0.5 m across covers π/16 = 0.196 m² (geometry): 2 m² are ten of them.
        var scene = YardScene.Of(Bed(12, (Forb("Aster parvus", .5), 2)), Today, Likeness.Plain).ShouldNotBeNull();
        scene.Bed.AreaSquareMetres.ShouldBe(12, .001);
        var likeness = Likeness.Plain(Forb("Aster parvus", .5));
        scene.Bed.Drifts.Single().Count.ShouldBe((int)Math.Round(2 / (Math.PI / 4 * Math.Pow(likeness.SpreadCm / 100, 2))));
        YardScene.Individuals(2, 50).ShouldBe(10);
        YardScene.Individuals(.001, 50).ShouldBe(1);
    }

    [Fact]
    public void A_bed_of_unknown_area_gets_room_for_its_cover_and_an_empty_one_is_not_drawn()
    {
        YardScene.Of(Bed(null, (Forb("Aster parvus", .5), 4)), Today, Likeness.Plain)!.Bed.AreaSquareMetres.ShouldBe(5, .001);
        YardScene.Of(Bed(12), Today, Likeness.Plain).ShouldBeNull();
    }

    [Fact]
    public void A_tree_is_drawn_and_its_cut_off_top_is_said()
    {
        var oak = Forb("Quercus magna", 20) with { LifeForm = LifeForm.Tree };
        var scene = YardScene.Of(Bed(12, (Forb("Aster parvus", .5), 1), (oak, 6)), Today, Likeness.Plain)!;
        scene.Bed.Drifts.Select(d => d.Plant.ScientificName).ShouldBe(["Aster parvus", "Quercus magna"]);
        BedScene.Of(scene.Bed, 17, 3).Description
            .ShouldContain($"Taller than this picture and cut off at its top: {oak.DisplayName}.");
        // By itself it is drawn whole, so that a yard of one tree is no empty picture.
        var alone = BedScene.Of(YardScene.Of(Bed(12, (oak, 6)), Today, Likeness.Plain)!.Bed, 17, 3, widthPx: 240, title: null);
        alone.Description.ShouldNotContain("cut off");
        alone.Items.OfType<Drawings.Pens.Placed>().ShouldNotBeEmpty();
        alone.Height.ShouldBeLessThan(240);
    }

    [Theory]
    [InlineData(null, 3)]
    [InlineData("2026-05-01", 1)]
    [InlineData("2025-10-01", 2)]
    [InlineData("1998-05-16", 3)]
    public void A_young_bed_is_drawn_young(string? made, int year) =>
        YardScene.Of(Bed(12, (Forb("Aster parvus", .5), 1)) with { EstablishedOn = made is null ? null : DateOnly.Parse(made, null) },
            Today, Likeness.Plain)!.Year.ShouldBe(year);

    [Fact]
    public void A_piece_is_as_dense_as_the_whole()
    {
        var scene = YardScene.Of(Bed(75, (Forb("Aster parvus", .5), 40)), Today, Likeness.Plain)!;
        var piece = scene.Piece(5);
        piece.Outline.Max(p => p.X).ShouldBe(5);
        (piece.Drifts.Single().Count / piece.AreaSquareMetres).ShouldBe(scene.Bed.Drifts.Single().Count / 75.0, .05);
        scene.Piece(100).ShouldBe(scene.Bed);
    }

    private static BedView Bed(double? area, params (CatalogueTaxon Taxon, double Cover)[] plantings) =>
        new(7, "front", area, null, null, null, Guid.Empty,
        [.. plantings.Select(p => new PlantingLine(p.Taxon, p.Cover, Origin.Planted, Certainty.Certain, "", null, Today, "", false))]);

    private static CatalogueTaxon Forb(string name, double height) => Flora.All[0] with
    {
        ScientificName = name,
        LifeForm = LifeForm.Forb,
        HeightMinMetres = height,
        HeightMaxMetres = height
    };
}
