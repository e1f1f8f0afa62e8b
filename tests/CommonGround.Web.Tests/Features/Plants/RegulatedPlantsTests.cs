using CommonGround.Web.Features.Plants;

namespace CommonGround.Web.Tests.Features.Plants;

/// <summary>Laws by name and date: Illinois Exotic Weeds Act (525 ILCS 10; list moved into a rule on 2025-01-01, nine plants added
/// 2025-10-01, state magazine), Iowa Code 317.1A.</summary>
public class RegulatedPlantsTests
{
    [Theory]
    [InlineData("Alliaria petiolata")]
    [InlineData("Ailanthus altissima")]
    [InlineData("Vincetoxicum rossicum")]
    [InlineData("Euphorbia esula")]
    public void What_Illinois_added_on_1_October_2025_is_named_with_that_date(string name) =>
        RegulatedPlants.Of(name, "IL").Select(RegulatedPlants.Words).ShouldContain(w => w.StartsWith("Illinois: exotic weed;",
            StringComparison.Ordinal) && w.EndsWith("list of October 1, 2025", StringComparison.Ordinal));

    [Fact]
    public void Callery_pear_is_named_with_the_day_from_which_the_law_holds() =>
        RegulatedPlants.Words(RegulatedPlants.Of("Pyrus calleryana", "IL")[0])
            .ShouldBe("Illinois: exotic weed, in force from January 1, 2028; Illinois Exotic Weeds Act, list of October 1, 2025");

    [Fact]
    public void A_whole_genus_catches_its_native_species() => RegulatedPlants.Of("Cirsium discolor", "IL")
    .ShouldContain(r => r.Jurisdiction == "IA" && r.IsGenus);

    [Fact]
    public void The_statute_of_2016_is_not_passed_off_as_the_law_in_force() =>
        RegulatedPlants.Of("Lonicera maackii", "IL").Single(r => r.Jurisdiction == "IL").ListVersion
            .ShouldContain("on 2025-01-01 the list moved from the statute into a rule");

    [Fact]
    public void A_prairie_plant_is_named_in_none() => RegulatedPlants.Of("Echinacea pallida", "IL").ShouldBeEmpty();
}
