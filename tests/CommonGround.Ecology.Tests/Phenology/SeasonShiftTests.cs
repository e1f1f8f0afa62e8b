using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Phenology;

public class SeasonShiftTests
{
    private static readonly DateOnly s_newYear = new(2026, 1, 1);

    [Theory(DisplayName = "Spring comes later by Hopkins' law (Hopkins 1919, checks PH-023 to PH-025)")]
    [InlineData("PH-023")]
    [InlineData("PH-024")]
    [InlineData("PH-025")]
    public void Spring_comes_later_by_Hopkins_law(string id)
    {
        var (i, expected) = CheckFile.Check("07_phenology.json", id);
        HopkinsLaw.DaysLaterInSpring(i.Number("deltaLatNorth"), i.Number("deltaLonEast"), i.Number("deltaElevFt") * 0.3048)
            .ShouldBe(expected.Number("daysLater"), 1e-9);
    }

    [Fact]
    public void The_worked_example_of_a_colder_place_and_a_warm_spring_comes_out()
    {
        var (i, expected) = CheckFile.WorkedExample("phenology");
        var days = HopkinsLaw.DaysLaterInSpring(i.Number("degreesNorth"), 0, i.Number("metresUp"));
        days.ShouldBeNear(expected.Number("daysLater"), 1e-12, "days");
        HopkinsLaw.Shift(new(8, 11), days).ShouldBe(new BloomWindow((int)expected.Numbers("springWindow")[0],
            (int)expected.Numbers("springWindow")[1]));
        HopkinsLaw.Shift(new(16, 19), days).ShouldBe(new BloomWindow((int)expected.Numbers("autumnWindow")[0],
            (int)expected.Numbers("autumnWindow")[1]));
        DegreeDays.AverageThenZero(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("averageThenZero"));
        DegreeDays.ClipThenAverage(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("clipThenAverage"));
        DegreeDays.SingleTriangle(i.Number("minimum"), i.Number("maximum"), i.Number("base")).ShouldBe(expected.Number("singleTriangle"));
        WarmthShift.DaysLater(i.Numbers("referenceDegreeDays"), i.Numbers("degreeDays"), 4)
            .ShouldBe((int)expected.Number("warmthDaysLater"));
    }

    [Fact]
    public void Warmth_not_yet_gathered_says_nothing()
    {
        WarmthShift.DaysLater([5, 5, 5], [1, 1], 3).ShouldBeNull();
        WarmthShift.DaysLater([0, 0, 5], [0, 0, 5], 2).ShouldBeNull();
        WarmthShift.Shift(new(8, 11), null).ShouldBe(new BloomWindow(8, 11));
        WarmthShift.Shift(new(8, 11), -15).ShouldBe(new BloomWindow(7, 10));
        WarmthShift.Shift(new(8, 11), 7).ShouldBe(new BloomWindow(8, 11));
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

    [Fact]
    public void A_sighting_in_flower_stretches_the_window_to_its_half_month()
    {
        var table = new BloomWindow(10, 13);
        ObservedFlowering.Extend(table, LifeForm.Forb, [At(15)]).ShouldBe(new BloomWindow(10, 15));
        ObservedFlowering.Extend(table, LifeForm.Forb, [At(8), At(14)]).ShouldBe(new BloomWindow(8, 14));
        ObservedFlowering.Extend(table, LifeForm.Forb, [At(12)]).ShouldBe(table);
        ObservedFlowering.Extend(new(22, 1), LifeForm.Shrub, [At(2)]).ShouldBe(new BloomWindow(22, 2));
    }

    [Fact]
    public void Other_stages_change_nothing_and_a_taxon_without_a_window_gains_one_unless_it_is_a_grass()
    {
        ObservedFlowering.Extend(new(10, 13), LifeForm.Forb, [At(15, 5), At(16, null)]).ShouldBe(new BloomWindow(10, 13));
        ObservedFlowering.Extend(null, LifeForm.Forb, []).ShouldBeNull();
        ObservedFlowering.Extend(null, LifeForm.Forb, [At(9)]).ShouldBe(new BloomWindow(9, 9));
        ObservedFlowering.Extend(null, LifeForm.Grass, [At(9)]).ShouldBeNull();
        ObservedFlowering.Extend(null, LifeForm.Sedge, [At(9)]).ShouldBeNull();
    }

    [Fact]
    public void A_taxon_in_flower_all_year_stays_so() =>
        ObservedFlowering.Extend(new(1, 23), LifeForm.Forb, [At(0)])!.Value.ShouldSatisfyAllConditions(
            w => Enumerable.Range(0, 24).ShouldAllBe(t => w.Contains(t)));

    [Property]
    public void The_stretched_window_holds_the_table_and_every_sighting_in_any_order(int seed)
    {
        var random = new Random(seed);
        var table = new BloomWindow(random.Next(24), random.Next(24));
        StageSighting[] sightings = [.. Enumerable.Range(0, random.Next(1, 5)).Select(_ => At(random.Next(24)))];
        var window = ObservedFlowering.Extend(table, LifeForm.Forb, sightings)!.Value;
        Enumerable.Range(0, 24).Where(table.Contains).ShouldAllBe(t => window.Contains(t));
        sightings.ShouldAllBe(s => window.Contains(HalfMonth.Of(s.On)));
        ObservedFlowering.Extend(table, LifeForm.Forb, sightings.Reverse()).ShouldBe(window);
    }

    private static StageSighting At(int halfMonth, int? stage = GrowthStage.Flowering) =>
        new(HalfMonth.FirstDay(halfMonth, s_newYear.Year), stage);
}
