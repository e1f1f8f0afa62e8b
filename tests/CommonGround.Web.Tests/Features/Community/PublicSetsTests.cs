using System.Globalization;
using System.Text.Json;
using CommonGround.Storage.Publishing;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Community;

/// <summary>
/// No combination of public views may reveal one yard or two. Kinds of attack as in the literature on statistical disclosure control
/// ("differencing" and "complementary suppression"; Hundepool et al., Handbook on Statistical Disclosure Control, 2010, chapters 4 and 5).
/// </summary>
public class PublicSetsTests
{
    /// <summary>
    /// Whatever households agree to and withdraw, in any order: each set shown is one of consenting yards, three or more, and no linear
    /// combination of all sets ever published rests on one yard or two. Checked by another way: for every two columns taken out the rank
    /// stays the same, by elimination modulo two primes above every minor there can be.
    /// </summary>
    [Fact]
    public void No_combination_of_all_that_was_ever_published_rests_on_fewer_than_three_yards()
    {
        var (changed, most) = (0, 0);
        for (var seed = 0; seed < 300; seed++)
        {
            var chance = new Random(seed);
            var (sharing, published, last) = (new HashSet<long>(), new List<IReadOnlySet<long>>(), (IReadOnlySet<long>)new HashSet<long>());
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
                (shown.Count is 0 or >= Figures.YardsToShow).ShouldBeTrue();
                // Whoever reads afterwards comes to the same.
                PublicSets.Shown(sharing, published).SetEquals(shown).ShouldBeTrue();
                changed += last.SetEquals(shown) ? 0 : 1;
                (most, last) = (Math.Max(most, shown.Count), shown);
            }

            Rests(published).ShouldBeTrue($"seed {seed}");
        }

        // The rule is kept by showing, not by showing nothing.
        changed.ShouldBeGreaterThan(1000);
        most.ShouldBeGreaterThan(6);
    }

    /// <summary>Each two of these differ by three yards or more, and yet (S1 + S2 − S3) / 2 is yard 1.</summary>
    [Fact]
    public void Three_sets_that_are_safe_two_by_two_and_give_a_yard_away_together_are_not_all_published()
    {
        IReadOnlySet<long> one = new HashSet<long> { 1, 2, 3 }, two = new HashSet<long> { 1, 4, 5 },
            three = new HashSet<long> { 2, 3, 4, 5 };
        PublicSets.Choose(two, [one]).IsNew.ShouldBeTrue();
        var (shown, isNew) = PublicSets.Choose(three, [one, two]);
        (shown.Count, isNew).ShouldBe((0, false));
        Rests([one, two, three]).ShouldBeFalse();
        // The same, where the third was to be published on another block that a yard was put on.
        PublicSets.Choose(three, [], [one, two]).IsNew.ShouldBeFalse();
    }

    /// <summary>The fast answer against all pairs of columns, for sets of every kind; both answers occur often.</summary>
    [Fact]
    public void The_reduced_form_agrees_with_taking_out_every_two_columns()
    {
        var (safe, unsafeOnes) = (0, 0);
        for (var seed = 0; seed < 2000; seed++)
        {
            var chance = new Random(seed);
            var yards = chance.Next(3, 10);
            List<IReadOnlySet<long>> sets = [.. Enumerable.Range(0, chance.Next(1, 5))
                .Select(_ => Enumerable.Range(1, yards).Where(_ => chance.Next(2) == 0).Select(y => (long)y).ToHashSet())
                .Where(s => s.Count > 0)];
            var fast = new RowSpace(sets, []);
            var slow = Rests(sets);
            fast.IsSafe.ShouldBe(slow, $"seed {seed}: {string.Join(" | ", sets.Select(s => string.Join(' ', s)))}");
            fast.Rank.ShouldBe(Rank(sets, [], Primes[0]));
            _ = slow ? safe++ : unsafeOnes++;
        }

        safe.ShouldBeGreaterThan(200);
        unsafeOnes.ShouldBeGreaterThan(200);
    }

    [Fact]
    public void A_block_of_sixty_yards_with_hundreds_of_sets_is_answered()
    {
        var chance = new Random(1);
        var published = new List<IReadOnlySet<long>>();
        var sharing = Enumerable.Range(1, 60).Select(y => (long)y).ToHashSet();
        for (var step = 0; step < 300; step++)
        {
            var now = sharing.Where(_ => chance.Next(4) != 0).ToHashSet();
            if (PublicSets.Choose(now, published) is { IsNew: true, Shown: var shown })
            {
                published.Add(shown);
            }
        }

        published.Count.ShouldBeGreaterThan(20);
        new RowSpace(published, []).IsSafe.ShouldBeTrue();
    }

    // A minor of thirteen columns of zeros and ones is at most 14^7 / 2^13 = 12,868 (Hadamard's bound), so a prime above that tells every
    // rank exactly.
    private static readonly long[] Primes = [1_000_003, 998_244_353];

    private static bool Rests(IReadOnlyList<IReadOnlySet<long>> sets)
    {
        var yards = sets.SelectMany(s => s).Distinct().ToList();
        return Primes.All(prime => yards.SelectMany(one => yards.Select(other => (long[])[one, other]))
            .All(pair => Rank(sets, pair, prime) == Rank(sets, [], prime)));
    }

    private static int Rank(IReadOnlyList<IReadOnlySet<long>> sets, IReadOnlyCollection<long> without, long prime)
    {
        var yards = sets.SelectMany(s => s).Distinct().Except(without).ToList();
        var rows = sets.Select(s => yards.Select(y => s.Contains(y) ? 1L : 0L).ToArray()).ToList();
        var rank = 0;
        for (var c = 0; c < yards.Count && rank < rows.Count; c++)
        {
            var at = rows.FindIndex(rank, r => r[c] != 0);
            if (at < 0)
            {
                continue;
            }

            (rows[rank], rows[at]) = (rows[at], rows[rank]);
            foreach (var row in rows.Skip(rank + 1).Where(r => r[c] != 0))
            {
                var (mine, its) = (row[c], rows[rank][c]);
                for (var k = c; k < row.Length; k++)
                {
                    row[k] = ((((row[k] * its) - (rows[rank][k] * mine)) % prime) + prime) % prime;
                }
            }

            rank++;
        }

        return rank;
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

    /// <summary>Streets and the neighbourhood are counted from the very yards that the blocks show, so that subtracting shown blocks from a
    /// street leaves whole blocks, or nothing.</summary>
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

    /// <summary>Everything the public is told, before and after one household changes anything: the same to the last letter, unless whole
    /// sets changed.</summary>
    [Fact]
    public async Task What_a_yard_outside_the_public_sets_does_changes_no_public_figure_to_the_last_digit()
    {
        using var garden = await LaidAsync();
        var before = await PublicTextAsync(garden);
        // A private yard plants and grows; a thin block gets a second yard; a newcomer on the shown block begins to share and must wait.
        await garden.StoreAsync(
            ("places.csv",
                "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-9,41.52,-88.52,900,no\nNorth,B,N-11,41.9,-88.1,100,yes\n"
                    + "North,A,N-5,41.51,-88.51,100,yes\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\nN-9,front,Symphyotrichum laeve,2026-08-01,50\nN-5,front,Monarda "
                    + "fistulosa,2026-08-01,30\n"),
            ("infestations.csv",
                "yard,block,scientific_name,observed_on,area_m2,cover_percent\nN-9,,Alliaria petiolata,2026-05-02,40,50\n"));
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

    /// <summary>Publishing belongs to the write that changed who shares: reading, however often and by whomever, publishes
    /// nothing.</summary>
    [Fact]
    public async Task A_set_is_published_by_the_write_that_made_it_and_never_by_reading()
    {
        using var garden = await LaidAsync();
        await using var db = await garden.Database.CreateDbContextAsync();
        var set = await db.PublishedYards.SingleAsync();
        set.Number.ShouldBe(1);
        await db.PublishedYards.ExecuteDeleteAsync();
        (await garden.Live.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(0);
        (await db.PublishedYards.CountAsync()).ShouldBe(0);
    }

    /// <summary>Two processes that publish at once: the number is taken once, whoever comes second is refused by the database.</summary>
    [Fact]
    public async Task A_number_is_published_once()
    {
        using var garden = await LaidAsync();
        await using var db = await garden.Database.CreateDbContextAsync();
        var first = await db.PublishedYards.AsNoTracking().SingleAsync();
        db.PublishedYards.Add(new Storage.Places.PublishedYards
        {
            NeighbourhoodId = 1,
            BlockId = first.BlockId,
            Yards = "1 2 3",
            Number = first.Number,
            SinceUtc = first.SinceUtc
        });
        await Should.ThrowAsync<DbUpdateException>(() => db.SaveChangesAsync());
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
        string.Create(
            CultureInfo.InvariantCulture, $"{m.Yards} {m.Richness} {m.NativeRichness} {m.Shannon:R} {m.NativeMeanC:R} {m.CoveredShare:R} "
                + $"{m.InvasivePressureSquareMetres:R} {string.Join(',', m.Bloom.HalfMonths.Select(h => h.N))}");

    /// <summary>Block A with four yards that share and no shape, block B with one that shares and has a plant of its own.</summary>
    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,light,moisture,shared\n"
                + string.Concat(Enumerable.Range(1, 4).Select(i => $"North,A,N-{i},41.50{i},-88.50{i},100,full_sun,medium,yes\n"))
                + "North,B,N-10,41.6,-88.6,100,shade,wet,yes\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-07-01,4\nN-10,front,Symphyotrichum "
                    + "laeve,2026-07-01,2\n"));
        return garden;
    }
}
