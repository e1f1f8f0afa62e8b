using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.More;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Regions;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Tests.Features.Regions;

/// <summary>Dates of bloom by the group's own records and by the year's warmth, and what each reader may know of them.</summary>
public class BloomDatesTests
{
    // Monthly means of a place like northern Illinois, °C; from memory of its published normals.
    private static readonly double[] s_usual = [-4, -2, 4, 10, 16, 21, 24, 23, 19, 12, 5, -1];

    [Fact]
    public async Task Own_records_date_the_bloom_only_where_the_group_wants_it()
    {
        using var garden = await SeenEarlyAsync();
        var before = await garden.Live.LoadedAsync();
        Bergamot(before).Bloom.ShouldBe(new BloomWindow(11, 15));
        BloomWords.Sentence(garden.Neighbourhood, before.Dates).ShouldContain("not this neighbourhood’s own records");

        await ChooseAsync(garden, r => r with { OwnBloom = true });
        var after = await garden.Live.LoadedAsync();
        Bergamot(after).Bloom!.Value.Start.ShouldBe(9, "bracketed looks in four yards and three years have it in flower from mid-May");
        Bergamot(after).UsualBloom.ShouldBe(new BloomWindow(11, 15));
        after.Dates.OwnTaxa.ShouldBe(1);
        BloomWords.Sentence(garden.Neighbourhood, after.Dates)
            .ShouldStartWith(
            "For 1 plant dates of bloom rest on this neighbourhood’s own records of 2024–2026; for all others they are the usual ones of "
                + "northern Illinois");
        BloomWords.Of(Bergamot(after), garden.Neighbourhood, after.Dates).ShouldContain("own records in 4 yards");
        // The measures follow: the street blooms earlier.
        Figures.InFlower((await garden.Live.FiguresAsync(organiser: true)).Neighbourhood)[9].ShouldBe(1);
        Figures.InFlower(before.Figures(false).Neighbourhood)[9].ShouldBe(0);
        // One more look is taken in at once.
        (await garden.Queries.FollowAsync(after, default)).ShouldBeNull();
    }

    [Fact]
    public async Task The_years_warmth_moves_every_date_but_those_the_group_has_set()
    {
        using var garden = await SeenEarlyAsync();
        (await garden.Overrides.SetAsync(Flora.Columbine, "bloom", "8-10", "seen so for years", null, Garden.Organiser)).ShouldBeEmpty();
        await ChooseAsync(garden, r => r with { Temperatures = new Temperatures(s_usual) });
        var unknown = await garden.Live.LoadedAsync();
        unknown.Dates.WarmthDays.ShouldBeNull();
        BloomWords.Sentence(garden.Neighbourhood, unknown.Dates).ShouldContain("the warmth of 2026 is not given");

        double?[] warm = [.. s_usual.Select(c => (double?)(c + 4))];
        await ChooseAsync(garden,
            r => r with
            {
                Temperatures = new Temperatures(s_usual)
                {
                    Years =
                new Dictionary<int, IReadOnlyList<double?>> { [2026] = warm }
                }
            });
        var loaded = await garden.Live.LoadedAsync();
        loaded.Dates.WarmthDays!.Value.ShouldBeLessThan(-10);
        Bergamot(loaded).Bloom!.Value.Start.ShouldBe(10);
        Bergamot(loaded).WarmthDays!.Value.ShouldBeLessThan(-10);
        Columbine(loaded).Bloom.ShouldBe(new BloomWindow(8, 10));
        BloomWords.Of(Columbine(loaded), garden.Neighbourhood, loaded.Dates).ShouldBe("The group has set these dates itself.");
        // As of a year of which nothing is given, nothing moves.
        (await garden.Queries.LoadAsync(new DateOnly(2025, 8, 1), default)).Dates.WarmthDays.ShouldBeNull();
    }

    [Fact]
    public async Task Imported_days_give_the_months_that_nobody_typed()
    {
        using var garden = await SeenEarlyAsync();
        var days = Enumerable.Range(0, 120).Select(d => new DateOnly(2026, 1, 1).AddDays(d))
            .Select(d =>
            string.Create(CultureInfo.InvariantCulture, $"{d:yyyy-MM-dd},{s_usual[d.Month - 1] - 1},{s_usual[d.Month - 1] + 9}"));
        await garden.StoreAsync(("temperature.csv", "date,tmin_c,tmax_c\n" + string.Join('\n', days) + "\n"));
        (await new WarmthQueries(garden.Database, garden.Clock).ImportedAsync(2026)).Take(4).Select(c => c!.Value).ShouldBe([0, 2, 8, 14],
            0.001);
        await ChooseAsync(garden, r => r with { Temperatures = new Temperatures(s_usual) });
        (await garden.Live.LoadedAsync()).Dates.WarmthDays!.Value.ShouldBeLessThan(-5);
    }

    [Fact]
    public async Task A_year_is_shown_to_everybody_only_where_three_yards_that_share_had_it_in_flower()
    {
        using var garden = await SeenEarlyAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2,growth_stage,observer\n"
                + $"N-1,front,{Flora.Bergamot},2023-07-04,1,6,walker 1\n"));
        var queries = new PlantYearQueries(garden.Database, garden.Live, garden.Clock);
        var member = await garden.MemberOfAsync("N-2");
        var taxon = Bergamot(await garden.Live.LoadedAsync());
        var (all, own, none) = (await queries.OfAsync(taxon, Garden.Organiser), await queries.OfAsync(taxon, member),
            await queries.OfAsync(taxon, Garden.Visitor));
        all.Years.Select(y => y.Year).ShouldBe([2023, 2024, 2025, 2026]);
        none.Years.Select(y => y.Year).ShouldBe([2024, 2025, 2026]);
        none.Years[0].Yards.ShouldBe(4);
        all.Plantings.Count.ShouldBe(4);
        own.Plantings.ShouldHaveSingleItem().Yard.ShouldBe("N-2");
        none.Plantings.ShouldBeEmpty();
        all.Own!.Yards.ShouldBe(none.Own!.Yards);
    }

    [Fact]
    public async Task A_yard_and_a_planting_tell_their_years_to_those_who_may_see_them()
    {
        using var garden = await SeenEarlyAsync();
        var queries = new YardYearQueries(garden.Database, garden.Live, garden.Clock);
        (await queries.OfAsync("N-1", Garden.Visitor)).ShouldBeNull();
        (await queries.OfAsync("N-1", await garden.MemberOfAsync("N-2"))).ShouldBeNull();
        var years = (await queries.OfAsync("N-1", Garden.Organiser))!;
        years.Years.ShouldBe([2024, 2025, 2026]);
        var planting = years.Beds.ShouldHaveSingleItem().Plantings.ShouldHaveSingleItem();
        planting.Visits.Count.ShouldBe(9);
        planting.FirstBloom.ShouldBe(new DateOnly(2026, 5, 18));
        planting.LastBloom.ShouldBe(new DateOnly(2026, 7, 20));

        var (taxon, bloom) = years.Bloom.ShouldHaveSingleItem();
        taxon.ScientificName.ShouldBe(Flora.Bergamot);
        bloom.Select(b => (b.NotYet, b.First, b.Last)).ShouldBe(new[] { 2024, 2025,
            2026 }.Select(y => ((DateOnly?)new DateOnly(y, 5, 5), (DateOnly?)new DateOnly(y, 5, 18), (DateOnly?)new DateOnly(y, 7, 20))));

        var view = (await garden.Plantings.GetAsync("N-1", planting.SightingId, Garden.Organiser))!;
        PlantingStory.Headline(view).ShouldBe("wild bergamot: probable since 2024, and 2 times as wide");
        PlantingStory.Lead(view)
            .ShouldBe("Nine visits in three years. Seen in flower from May 18 (2024) to July 20 (2024); usual bloom is June 16–August 31.");
        var lines = PlantingStory.Years(view, new Web.Shared.Units(false));
        lines.Select(l => l.Year).ShouldBe([2024, 2025, 2026]);
        lines[0].Visits.Select(v => v.Mark).Order().ShouldBe([VisitMark.Bud, VisitMark.Flower, VisitMark.Flower]);
        VisitLinesChart.Draw("Visits", lines, view.Taxon.Bloom, null, "blue",
            1200).AltText.ShouldContain("2026 May 5, 2026 in bud, May 18, 2026 in flower, Jul 20, 2026 in flower, 2.0 m²");
    }

    [Theory]
    [InlineData("12", "x", "March of the usual year: “x” is not a mean temperature in °C")]
    [InlineData("12", "", "The usual year needs all twelve months; March is missing")]
    [InlineData("99", "4", "January of 2026: “99” is not a mean temperature in °C")]
    public void Temperatures_typed_wrongly_are_named_with_their_month(string january, string march, string message)
    {
        var draft = Typed("C");
        (draft.Usual[2], draft.OfYear[0]) = (march, january);
        var (rules, problems) = draft.Read(GroupRules.Default, 2026);
        rules.ShouldBeNull();
        problems.ShouldContain(p => p.Message.StartsWith(message, StringComparison.Ordinal));
    }

    [Fact]
    public void Temperatures_come_back_as_they_were_typed_and_other_years_stay()
    {
        var before = GroupRules.Default with
        {
            Temperatures =
            new Temperatures(s_usual) { Years = new Dictionary<int, IReadOnlyList<double?>> { [2024] = [.. s_usual.Cast<double?>()] } }
        };
        var draft = Typed("F");
        draft.Usual = [.. s_usual.Select(c => ((c * 9 / 5) + 32).ToString(CultureInfo.InvariantCulture))];
        draft.OfYear[1] = "39,2";
        var (rules, problems) = draft.Read(before, 2026);
        problems.ShouldBeEmpty();
        rules!.Temperatures!.Usual.ShouldBe(s_usual, 1e-9);
        rules.Temperatures.Years[2026][1]!.Value.ShouldBe(4, 1e-9);
        rules.Temperatures.Years.Keys.ShouldBe([2024, 2026], ignoreOrder: true);
        GroupRules.Read(rules.Write()).Temperatures!.Years[2024].ShouldBe(s_usual.Cast<double?>());
        DatesDraft.Of(rules, 2026, fahrenheit: true).OfYear[1].ShouldBe("39.2");
        // Blank again: not used any more.
        (DatesDraft.Of(GroupRules.Default, 2026, false).Read(rules, 2026).Rules!.Temperatures).ShouldBeNull();
        Typed("C", usual: false).Read(GroupRules.Default, 2026).Problems
            .ShouldContain(p => p.Message.StartsWith("Give the usual temperatures too", StringComparison.Ordinal));
    }

    private static DatesDraft Typed(string scale, bool usual = true) => new()
    {
        Scale = scale,
        Year = "2026",
        Usual = [.. s_usual.Select(c => usual ? c.ToString(CultureInfo.InvariantCulture) : "")],
        OfYear = ["-3", .. Enumerable.Repeat("", 11)],
    };

    /// <summary>Four yards of one block that share; wild bergamot in bud on May 5 and in flower on May 18 and July 20 in three years, a
    /// month before its usual time.</summary>
    private static async Task<Garden> SeenEarlyAsync()
    {
        var garden = await Garden.LayAsync();
        string[] yards = ["N-1", "N-2", "N-3", "N-4"];
        await garden.StoreAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,lawn_m2,shared\n"
                + string.Concat(yards.Select((y, i) => $"North,A to B,{y},41.50{i},-88.5,100,60,yes\n"))),
            ("beds.csv", "yard,bed,area_m2\n" + string.Concat(yards.Select(y => $"{y},front,10\n"))));
        var rows = from yard in yards
                   from year in new[] { 2024, 2025, 2026 }
                   from look in new[] { ("05-05", 5), ("05-18", 6), ("07-20", 6) }
                   select $"{yard},front,{Flora.Bergamot},{year}-{look.Item1},{(year == 2026 ? 2 : 1)},{look.Item2},walker 1\n";
        await garden.StoreAsync(("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2,growth_stage,observer\n"
            + string.Concat(rows)));
        return garden;
    }

    private static async Task ChooseAsync(Garden garden, Func<GroupRules, GroupRules> change) =>
        (await new SaveRules(garden.Database, garden.Neighbourhood).SaveAsync(change((await garden.Live.LoadedAsync()).Rules),
            Garden.Organiser)).ShouldBeEmpty();

    private static CatalogueTaxon Bergamot(LoadedCommunity loaded) => loaded.Matrix.Taxa.Single(t => t.ScientificName == Flora.Bergamot);

    private static CatalogueTaxon Columbine(LoadedCommunity loaded) => loaded.Matrix.Taxa.Single(t => t.ScientificName == Flora.Columbine);
}
