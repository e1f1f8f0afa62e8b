using CommonGround.Ecology.Phenology;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.More;

namespace CommonGround.Web.Tests.Features.More;

/// <summary>The group's own season, norm and weights.</summary>
public class SaveRulesTests
{
    [Fact]
    public async Task A_rule_that_is_set_shows_in_every_figure_at_once()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\n"),
            ("infestations.csv",
                "yard,scientific_name,observed_on,area_m2,cover_percent,growth_stage\nN-1,Alliaria petiolata,2026-05-02,8,25,6\n"));
        var before = (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood;
        (before.CoveredShare, before.InvasivePressureSquareMetres).ShouldBe((0, 2));
        // Bergamot flowers 11–15: with a norm of one and a season of 10–19 five of ten half-months are covered, of the late 15–19 one.
        var rules = GroupRules.Default with
        {
            Season = new Season(10, 19, 15, 1),
            Pressure = GroupRules.Default.Pressure with { HighWeight = 0.5 }
        };
        (await Save(garden).SaveAsync(rules, Garden.Organiser)).ShouldBeEmpty();
        var after = (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood;
        (after.CoveredShare, after.LateSeasonCoveredShare).ShouldBe((0.5, 0.2));
        after.InvasivePressureSquareMetres.ShouldBe(1);
        (await garden.Queries.LoadAsync(Garden.Today, default)).Rules.ShouldBe(rules);
        (await Save(garden).SaveAsync(GroupRules.Default, Garden.Organiser)).ShouldBeEmpty();
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.CoveredShare.ShouldBe(0);
    }

    [Fact]
    public async Task Only_organisers_set_rules()
    {
        using var garden = await Garden.WithOneYardAsync();
        foreach (var stranger in new[] { Garden.Visitor, await garden.MemberOfAsync("N-1") })
        {
            (await Save(garden).SaveAsync(GroupRules.Default with { Season = new Season(0, 23, 12, 1) }, stranger)).ShouldHaveSingleItem();
        }

        (await garden.Queries.LoadAsync(Garden.Today, default)).Rules.ShouldBe(GroupRules.Default);
    }

    [Theory]
    [InlineData(10, 9, 10, 3, 1.0, 25.0, "season")]
    [InlineData(10, 19, 9, 3, 1.0, 25.0, "season")]
    [InlineData(-1, 19, 9, 3, 1.0, 25.0, "season")]
    [InlineData(6, 24, 9, 3, 1.0, 25.0, "season")]
    [InlineData(6, 19, 15, 0, 1.0, 25.0, "norm")]
    [InlineData(6, 19, 15, 3, 1.5, 25.0, "weights")]
    [InlineData(6, 19, 15, 3, double.NaN, 25.0, "weights")]
    [InlineData(6, 19, 15, 3, 1.0, 0.0, "dispersal")]
    [InlineData(6, 19, 15, 3, 1.0, double.NaN, "dispersal")]
    public async Task Rules_that_cannot_be_are_refused(int first, int last, int late, int norm, double weight, double metres, string field)
    {
        using var garden = await Garden.WithOneYardAsync();
        var rules = new GroupRules(new Season(first, last, late, norm),
            GroupRules.Default.Pressure with { HighWeight = weight, DefaultDispersalMetres = metres });
        (await Save(garden).SaveAsync(rules, Garden.Organiser)).ShouldHaveSingleItem().Field.ShouldBe(field);
        (await garden.Queries.LoadAsync(Garden.Today, default)).Rules.ShouldBe(GroupRules.Default);
    }

    private static SaveRules Save(Garden garden) => new(garden.Database, garden.Neighbourhood);
}
