using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Tests;

public class BadInputTests
{
    private static readonly CatalogueTaxon Unknown = new()
    {
        ScientificName = "Nova incognita",
        CommonNames = ["unknown shrub"],
        LifeForm = LifeForm.Shrub,
        HeightMinMetres = 1,
        HeightMaxMetres = 2
    };

    private static readonly GroundPoint[] Square = [new(0, 0), new(4, 0), new(4, 2), new(0, 2)];

    [Fact]
    public void A_taxon_without_characters_gets_its_life_forms_silhouette_and_says_so()
    {
        var plain = Likeness.Plain(Unknown);
        plain.IsPlain.ShouldBeTrue();
        plain.Note.ShouldBe("unknown shrub has not been described for drawing yet: this is the plain shape of a shrub.");
        foreach (var form in Enum.GetValues<LifeForm>())
        {
            var likeness = Likeness.Plain(Unknown with { LifeForm = form });
            Bounds.Of(likeness.Draw(13, 3, "a", 1))!.Value.Top.ShouldBe(-150, 14);
        }

        var picture = BedScene.Of(new Bed(Square, [new DriftOf(plain, 3, Spread.Dot)], "x"), 12, 3);
        picture.Description.ShouldContain("Shown as plain shapes, since they have not been described for drawing: unknown shrub.");
        Should.Throw<InvalidOperationException>(() => plain.Mark("leaf", 4)).Message.ShouldContain("Nova incognita");
    }

    [Fact]
    public void A_height_nobody_knows_is_taken_from_the_life_form_and_said()
    {
        var plain = Likeness.Plain(Unknown with { HeightMinMetres = null, HeightMaxMetres = null });
        plain.HeightCm.ShouldBe(200);
        plain.Note.ShouldEndWith("and its height is not known.");
        Likeness.Plain(Unknown with { HeightMinMetres = null }).HeightCm.ShouldBe(200);
    }

    [Fact]
    public void A_bed_without_area_or_plants_is_drawn_empty_and_says_so()
    {
        foreach (var bed in new[] { new Bed([], [], "a"), new Bed([new(0, 0), new(3, 0)], Drift(9), "b"),
            new Bed([new(0, 0), new(3, 0), new(5, 0)], Drift(9), "c"), new Bed(Square, Drift(0), "d") })
        {
            var picture = BedScene.Of(bed, 12, 3);
            picture.Items.OfType<Placed>().ShouldBeEmpty();
            picture.Description.ShouldContain("nothing is planted here yet, or the bed has no area");
            SvgPen.File(picture).ShouldNotContain("NaN");
        }

        static DriftOf[] Drift(int count) => [new DriftOf(SeedTable.Of("Liatris aspera"), count, Spread.Drift)];
    }

    [Fact]
    public void Five_thousand_plants_are_thinned_by_density_and_it_is_said()
    {
        var bed = new Bed([new(0, 0), new(30, 0), new(30, 12), new(0, 12)],
            [new DriftOf(SeedTable.Of("Schizachyrium scoparium"), 4000, Spread.Matrix),
                new DriftOf(SeedTable.Of("Liatris aspera"), 999, Spread.Drift),
                new DriftOf(SeedTable.Of("Silphium laciniatum"), 1, Spread.Dot)], "big");
        var (spots, each) = Planting.Of(bed);
        spots.Count.ShouldBeInRange(590, Planting.Most + 3);
        each.ShouldBe(5000 / 600.0, 1e-9);
        spots.Count(s => s.Plant.ScientificName == "Silphium laciniatum").ShouldBe(1);
        (spots.Count(s => s.Plant.ScientificName == "Liatris aspera") / (double)spots.Count).ShouldBe(.2, .02);
        BedScene.Of(bed, 16, 3).Description.ShouldContain("So many plants are thinned in the drawing: one drawn stands for about 8.3.");
    }

    [Fact]
    public void Half_months_years_and_scales_out_of_range_are_refused()
    {
        var plant = SeedTable.Of("Liatris aspera");
        Should.Throw<ArgumentOutOfRangeException>(() => plant.Draw(24, 3, "a", 1));
        Should.Throw<ArgumentOutOfRangeException>(() => plant.Draw(-1, 3, "a", 1));
        Should.Throw<ArgumentOutOfRangeException>(() => plant.Draw(12, 0, "a", 1));
        Should.Throw<ArgumentOutOfRangeException>(() => plant.Draw(12, 3, "a", 0));
        Should.Throw<ArgumentException>(() => Inks.Of("f-mauve", Theme.Light)).Message.ShouldContain("mauve");
    }
}
