using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Tests.Published;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Phenology;

public class SeasonShiftTests
{
    [Theory(DisplayName = "Spring comes later by Hopkins' law (Hopkins 1919, checks PH-023 to PH-025)")]
    [InlineData("PH-023")]
    [InlineData("PH-024")]
    [InlineData("PH-025")]
    public void Spring_comes_later_by_Hopkins_law(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        SpringDays(i.Number("deltaLatNorth"), i.Number("deltaLonEast"), i.Number("deltaElevFt") * 0.3048)
            .ShouldBe(expected.Number("daysLater"), 1e-9);
    }

    [Fact]
    public void The_worked_example_of_a_colder_place_and_a_warm_spring_comes_out()
    {
        var (i, expected) = CheckFile.WorkedExample("phenology");
        var days = SpringDays(i.Number("degreesNorth"), 0, i.Number("metresUp"));
        days.ShouldBeNear(expected.Number("daysLater"), 1e-9, "days");
        SpringShift.Shifted(new(8, 11), days).ShouldBe(new BloomWindow((int)expected.Numbers("springWindow")[0],
            (int)expected.Numbers("springWindow")[1]));
        SpringShift.Shifted(new(16, 19), days).ShouldBe(new BloomWindow((int)expected.Numbers("autumnWindow")[0],
            (int)expected.Numbers("autumnWindow")[1]));
        DegreeDays.AverageThenZero(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("averageThenZero"));
        DegreeDays.ClipThenAverage(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("clipThenAverage"));
        DegreeDays.SingleTriangle(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("singleTriangle"));
        WarmthShift.DaysLater(i.Numbers("referenceDegreeDays"), i.Numbers("degreeDays"), 4)
            .ShouldBe((int)expected.Number("warmthDaysLater"));
    }

    [Theory(DisplayName = "Growth stages carry the titles of the BBCH monograph, table 1 (Meier 2001)")]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    public void Growth_stages_carry_the_standard_titles(int stage) =>
        GrowthStage.Name(stage).ShouldBe(CheckFile.Check("07_phenology.json",
            "PH-018").Expected.GetProperty(stage.ToString(CultureInfo.InvariantCulture)).GetString());

    /// <summary>From the reference place to one that lies so far off.</summary>
    private static double SpringDays(double north, double east, double metresUp) => SpringShift.Days(
        SpringShift.ReferenceLatitude + north, SpringShift.ReferenceLongitudeWest - east, SpringShift.ReferenceElevationMetres + metresUp);
}
