using System.Globalization;
using System.Text.Json;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Community;

/// <summary>
/// No difference between two public views may reveal one yard. Kinds of attack as in the literature on statistical disclosure control
/// ("differencing" and "complementary suppression"; Hundepool et al., Handbook on Statistical Disclosure Control, 2010, chapters 4 and 5).
/// </summary>
public class PublicSetsTests
{
    /// <summary>Whatever households agree to and withdraw, in any order: each set shown is one of consenting yards, three or more, and differs from every earlier one by none or by three or more.</summary>
    [Fact]
    public void Any_two_views_of_a_block_differ_by_no_yard_or_by_three_or_more()
    {
        var (changed, most) = (0, 0);
        for (var seed = 0; seed < 500; seed++)
        {
            var chance = new Random(seed);
            var sharing = new HashSet<long>();
            var published = new List<IReadOnlySet<long>>();
            var views = new List<HashSet<long>> { new() };
            for (var step = 0; step < 60; step++)
            {
                var yard = chance.Next(1, 14);
                if (!sharing.Remove(yard))
                {
                    sharing.Add(yard);
                }

                var (shown, isNew) = PublicSets.Choose(sharing, published);
                if (isNew)
                {
                    published.Add(shown);
                }

                shown.IsSubsetOf(sharing).ShouldBeTrue("a yard without consent is shown");
                changed += views[^1].SetEquals(shown) ? 0 : 1;
                most = Math.Max(most, shown.Count);
                views.Add([.. shown]);
            }

            foreach (var (one, other) in views.SelectMany(one => views.Select(other => (one, other))))
            {
                var apart = one.Except(other).Union(other.Except(one)).Count();
                (apart is 0 or >= Figures.YardsToShow).ShouldBeTrue($"seed {seed}: two views differ by {apart}");
            }
        }

        // The rule is kept by showing, not by showing nothing.
        changed.ShouldBeGreaterThan(2000);
        most.ShouldBeGreaterThan(8);
    }

    [Fact]
    public void A_block_of_six_stays_in_view_when_one_household_leaves_and_newcomers_wait_for_company()
    {
        IReadOnlySet<long> six = new HashSet<long> { 1, 2, 3, 4, 5, 6 };
        var (shown, isNew) = PublicSets.Choose(new HashSet<long> { 1, 2, 3, 4, 5 }, [six]);
        (isNew, shown.Order().SequenceEqual([1L, 2, 3])).ShouldBe((true, true));
        var (waiting, _) = PublicSets.Choose(new HashSet<long> { 1, 2, 3, 4, 5, 6, 7, 8 }, [six]);
        waiting.SetEquals(six).ShouldBeTrue();
        var (joined, _) = PublicSets.Choose(new HashSet<long> { 1, 2, 3, 4, 5, 6, 7, 8, 9 }, [six]);
        joined.Count.ShouldBe(9);
    }

    /// <summary>Streets and the neighbourhood are counted from the very yards that the blocks show, so that subtracting shown blocks from a street leaves whole blocks, or nothing.</summary>
    [Fact]
    public async Task A_street_less_its_shown_blocks_leaves_nobody()
    {
        using var garden = await LaidAsync();
        var seen = await garden.Live.FiguresAsync(organiser: false);
        seen.Shown.Select(b => seen.Matrix.Blocks[b].Name).ShouldBe(["A"]);
        seen.Streets.Select(s => s.Yards).ShouldBe([4]);
        seen.Neighbourhood.Yards.ShouldBe(4);
        // The taxon that only a yard of the thin block has is nowhere in public.
        seen.Neighbourhood.Richness.ShouldBe(1);
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.Richness.ShouldBe(2);
    }

    /// <summary>Everything the public is told, before and after one household changes anything: the same to the last letter, unless whole sets changed.</summary>
    [Fact]
    public async Task What_a_yard_outside_the_public_sets_does_changes_no_public_figure_to_the_last_digit()
    {
        using var garden = await LaidAsync();
        var before = await PublicTextAsync(garden);
        // A private yard plants and grows; a thin block gets a second yard; a newcomer on the shown block begins to share and must wait.
        await garden.StoreAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-9,41.52,-88.52,900,no\nNorth,B,N-11,41.9,-88.1,100,yes\nNorth,A,N-5,41.51,-88.51,100,yes\n"),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nN-9,front,Symphyotrichum laeve,2026-08-01,50\nN-5,front,Monarda fistulosa,2026-08-01,30\n"),
            ("infestations.csv", "yard,block,scientific_name,observed_on,area_m2,cover_percent\nN-9,,Alliaria petiolata,2026-05-02,40,50\n"));
        (await PublicTextAsync(garden)).ShouldBe(before);
    }

    [Fact]
    public async Task A_withdrawal_hides_the_block_at_once_and_its_return_shows_the_same_block_as_before()
    {
        using var garden = await LaidAsync();
        var before = await PublicTextAsync(garden);
        var member = await garden.MemberOfAsync("N-1");
        var (yard, _) = await garden.BedAsync("N-1");
        (await garden.Keeping.ConsentAsync(yard.Id, new Consents(false, false, false), member)).ShouldBeEmpty();
        var hidden = await garden.Live.FiguresAsync(organiser: false);
        (hidden.Shown.Count, hidden.Neighbourhood.Yards, hidden.Streets.Sum(s => s.Yards)).ShouldBe((0, 0, 0));
        (await garden.Export.GeoJsonAsync(exact: false)).ShouldNotContain("\"N-1\"");
        (await garden.Keeping.ConsentAsync(yard.Id, new Consents(true, true, false), member)).ShouldBeEmpty();
        (await PublicTextAsync(garden)).ShouldBe(before);
    }

    [Fact]
    public async Task What_the_public_saw_is_kept_in_mind_over_a_restart()
    {
        using var garden = await LaidAsync();
        await garden.Live.FiguresAsync(organiser: false);
        await using var db = await garden.Database.CreateDbContextAsync();
        var kept = await db.PublishedYards.SingleAsync();
        kept.Yards.Split(' ').Length.ShouldBe(4);
        // Another process, which has nothing in memory, comes to the same.
        var other = new LiveCommunity(new CommunityQueries(garden.Database, garden.Neighbourhood), garden.Clock, garden.Time);
        (await other.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(4);
        (await db.PublishedYards.CountAsync()).ShouldBe(1);
    }

    private static async Task<string> PublicTextAsync(Garden garden)
    {
        var seen = await garden.Live.FiguresAsync(organiser: false);
        var ground = await garden.Streets.GroundAsync(Garden.Visitor);
        return JsonSerializer.Serialize(new
        {
            seen.Shown,
            blocks = seen.Shown.Select(b => (seen.Matrix.Blocks[b].Latitude, seen.Matrix.Blocks[b].Longitude).ToString()),
            figures = seen.Shown.Select(b => Text(seen.Blocks[b])).Concat(seen.Streets.Select(Text)).Append(Text(seen.Neighbourhood)),
            ground = seen.Shown.Select(b => ground.GetValueOrDefault(b)),
            walks = await Task.WhenAll(seen.Shown.Select(b => garden.Streets.LastWalkAsync(b, Garden.Visitor))),
        });
    }

    private static string Text(Ecology.Sites.SiteMeasures m) =>
        string.Create(CultureInfo.InvariantCulture, $"{m.Yards} {m.Richness} {m.NativeRichness} {m.Shannon:R} {m.NativeMeanC:R} {m.CoveredShare:R} {m.InvasivePressureSquareMetres:R} {string.Join(',', m.Bloom.HalfMonths.Select(h => h.N))}");

    /// <summary>Block A with four yards that share and no shape, block B with one that shares and has a plant of its own.</summary>
    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,light,moisture,shared\n" + string.Concat(Enumerable.Range(1, 4).Select(i => $"North,A,N-{i},41.50{i},-88.50{i},100,full_sun,medium,yes\n")) + "North,B,N-10,41.6,-88.6,100,shade,wet,yes\n"),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-07-01,4\nN-10,front,Symphyotrichum laeve,2026-07-01,2\n"));
        return garden;
    }
}
