using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Reports.ConversionReports;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.More;

namespace CommonGround.Web.Tests.Features.More;

public sealed class GroupRulesTests
{
    private static readonly GroupRules Short = new(new Season(8, 17, 15, 2), PressureConvention.Default with { HighWeight = 0.9 });

    [Fact]
    public void Rules_come_back_as_they_were_stored_and_the_usual_ones_store_nothing()
    {
        GroupRules.Read(Short.Write()).ShouldBe(Short);
        GroupRules.Default.Write().ShouldBe("");
        GroupRules.Read("").ShouldBe(GroupRules.Default);
    }

    [Theory]
    [InlineData(10, 8, 17, 3)] // late season before the season
    [InlineData(6, 18, 17, 3)] // ends before the late season
    [InlineData(6, 15, 24, 3)] // no such half-month
    [InlineData(6, 15, 19, 0)] // covered by nothing
    public void A_season_out_of_order_is_refused(int first, int late, int last, int norm) =>
        (GroupRules.Default with { Season = new Season(first, last, late, norm) }).Check().ShouldNotBeEmpty();

    [Theory]
    [InlineData(1.1, 25)]
    [InlineData(-0.1, 25)]
    [InlineData(double.NaN, 25)]
    [InlineData(1, 0)]
    public void Absurd_weights_are_refused(double high, double dispersal) =>
        (GroupRules.Default with
        {
            Pressure = PressureConvention.Default with
            {
                HighWeight = high,
                DefaultDispersalMetres = dispersal
            }
        }).Check().ShouldNotBeEmpty();

    [Fact]
    public async Task New_rules_reach_every_figure_at_once()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.Live.FiguresAsync(organiser: true)).Season.ShouldBe(Season.Default);
        (await new SaveRules(garden.Database, garden.Neighbourhood).SaveAsync(Short, Garden.Organiser)).ShouldBeEmpty();
        var figures = await garden.Live.FiguresAsync(organiser: true);
        figures.Season.ShouldBe(Short.Season);
        figures.Convention.HighWeight.ShouldBe(0.9);
        figures.SeasonHalves.ShouldBe(10);
    }

    [Fact]
    public async Task What_is_printed_of_town_and_growers_is_kept_beside_the_rules()
    {
        using var garden = await Garden.WithOneYardAsync();
        var local = new LocalNotes
        {
            Ordinance = "Beds may stand\ntwo feet high.",
            OrdinanceSource = "read in May",
            WhereToGetPlants = "Sale at the mill"
        };
        var save = new SaveRules(garden.Database, garden.Neighbourhood);
        (await save.SaveAsync((await garden.Live.LoadedAsync()).Rules with { Local = local }, Garden.Organiser)).ShouldBeEmpty();
        var rules = (await garden.Live.LoadedAsync()).Rules;
        rules.Local.ShouldBe(local);
        (rules with { Local = new() }).ShouldBe(GroupRules.Default);
    }

    [Theory]
    [InlineData(GroupRules.MostWords + 1, 0, 0, "ordinance")]
    [InlineData(0, GroupRules.MostSource + 1, 0, "source")]
    [InlineData(0, 0, GroupRules.MostWords + 1, "growers")]
    public void What_would_not_fit_on_the_page_is_refused_at_its_field(int ordinance, int source, int growers, string field) =>
        (GroupRules.Default with
        {
            Local = new()
            {
                Ordinance = new('a', ordinance),
                OrdinanceSource = new('a', source),
                WhereToGetPlants = new('a', growers),
            }
        }).Check().ShouldHaveSingleItem().Field.ShouldBe(field);

    [Fact]
    public async Task Only_organisers_set_them()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await new SaveRules(garden.Database, garden.Neighbourhood).SaveAsync(Short, Garden.Visitor)).ShouldNotBeEmpty();
        (await garden.Live.FiguresAsync(organiser: true)).Season.ShouldBe(Season.Default);
    }
}
