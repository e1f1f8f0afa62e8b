using CommonGround.Ecology.Seeding;
using FsCheck;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Seeding;

public class SeedingLawTests
{
    [Property]
    public void Doubling_the_area_doubles_the_grams(PositiveInt seeds, PositiveInt area, PositiveInt perGram) =>
        SeedRate.Grams(seeds.Get, 2.0 * area.Get, perGram.Get).ShouldBe(2 * SeedRate.Grams(seeds.Get, area.Get, perGram.Get),
            1e-9 * area.Get * seeds.Get);

    [Property]
    public void Grams_and_seeds_lead_back_to_each_other(PositiveInt seeds, PositiveInt area, PositiveInt perGram) =>
        SeedRate.SeedsPerSquareMetre(SeedRate.Grams(seeds.Get, area.Get, perGram.Get), area.Get, perGram.Get).ShouldBe(seeds.Get,
            1e-9 * seeds.Get);

    [Property]
    public void Square_feet_and_square_metres_lead_back_to_each_other(PositiveInt seeds) =>
        SeedRate.PerSquareMetre(SeedRate.PerSquareFoot(seeds.Get)).ShouldBe(seeds.Get, 1e-9 * seeds.Get);

    [Property]
    public void Plants_of_the_areas_add_up_and_none_is_a_plant_off(PositiveInt plants, NonEmptyArray<PositiveInt> areas)
    {
        double[] squareMetres = [.. areas.Get.Select(a => (double)a.Get)];
        var parts = PlugSpacing.Apportion(plants.Get, squareMetres);
        parts.Sum().ShouldBe(plants.Get);
        foreach (var (part, area) in parts.Zip(squareMetres))
        {
            Math.Abs(part - (plants.Get * area / squareMetres.Sum())).ShouldBeLessThan(1 + 1e-6);
        }
    }

    [Fact]
    public void Seven_plants_on_two_large_areas_and_a_tiny_one_leave_the_tiny_one_empty() =>
        PlugSpacing.Apportion(7, [10, 10, 1]).ShouldBe([4, 3, 0]);

    [Fact]
    public void Plants_are_whole_and_rounded_up_but_no_ground_takes_none()
    {
        PlugSpacing.WholePlants(1, 0.35).ShouldBe(10); // 9.43
        PlugSpacing.WholePlants(0.01, 1).ShouldBe(1);
        PlugSpacing.WholePlants(0.866 * 12 * 0.3 * 0.3, 0.3).ShouldBe(12);
        PlugSpacing.WholePlants(0, 1).ShouldBe(0);
    }

    [Fact]
    public void Figures_that_cannot_be_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => PureLiveSeed.Fraction(0, 0.8));
        Should.Throw<ArgumentOutOfRangeException>(() => PureLiveSeed.Fraction(1.01, 0.8));
        Should.Throw<ArgumentOutOfRangeException>(() => PureLiveSeed.Fraction(0.9, 0.8, 0.3));
        Should.Throw<ArgumentOutOfRangeException>(() => PureLiveSeed.Bulk(-1, 0.8));
        Should.Throw<ArgumentOutOfRangeException>(() => SeedRate.Grams(1, 1, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => PlugSpacing.Triangular(1, 0));
        Should.Throw<ArgumentException>(() => PlugSpacing.Apportion(1, [1, 0]));
    }
}
