using CommonGround.Ecology.Phenology;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Phenology;

/// <summary>Windows estimated again from seasons that were made up, so that the truth is known.</summary>
public class OwnBloomTests
{
    // Usual: July 1 to August 31; days 182 and 243.
    private static readonly BloomWindow s_usual = new(12, 15);

    [Fact]
    public void Windows_come_out_of_simulated_seasons_as_they_were_put_in()
    {
        // True first day June 14, true last day August 8: 17 and 23 days before the usual ones; a year apart by 6 days, a yard by 7.
        var errors = Enumerable.Range(0, 40).Select(seed =>
        {
            var own = OwnBloom.Estimate(s_usual, Seasons(seed, 165, 220))!;
            return (First: own.FirstDay - 165, Last: own.LastDay - 220, own.FirstDaySd, Naive: NaiveFirst(seed) - 165);
        }).ToList();
        Math.Abs(errors.Average(e => e.First)).ShouldBeLessThan(4, "the first day must not lie off to one side");
        Math.Abs(errors.Average(e => e.Last)).ShouldBeLessThan(4, "the last day must not lie off to one side");
        Root(errors.Select(e => e.First)).ShouldBeLessThan(6);
        Root(errors.Select(e => e.Last)).ShouldBeLessThan(6);
        // What is plainly seen comes later than the truth; the looks before it mend that.
        Root(errors.Select(e => e.First)).ShouldBeLessThan(Root(errors.Select(e => e.Naive)));
        // Two standard deviations hold the truth in most of the seasons.
        errors.Count(e => Math.Abs(e.First) <= 2 * e.FirstDaySd).ShouldBeGreaterThan(34);
    }

    [Fact]
    public void Few_looks_hardly_move_the_catalogues_window_and_more_take_over()
    {
        var few = OwnBloom.Estimate(s_usual, Seasons(1, 165, 232, yards: 3, years: 2, looks: 2));
        var many = OwnBloom.Estimate(s_usual, Seasons(1, 165, 232, yards: 20, years: 8))!;
        (few is null || few.FirstDaySd > many.FirstDaySd).ShouldBeTrue();
        Math.Abs(many.FirstDay - 165).ShouldBeLessThan(6);
        // Three looks late in July say only that bloom had begun by then.
        var silent = OwnBloom.Estimate(s_usual, Flat([(1, 2024), (2, 2024), (3, 2025)]))!;
        silent.Window.ShouldBe(s_usual);
        silent.FirstDay.ShouldBe(182, 4);
    }

    [Fact]
    public void A_warm_year_is_not_taken_for_the_ordinary_one_where_its_warmth_is_known()
    {
        double ThreeWarm(int year, int day) => year >= 2023 ? -15 : 0;
        var looks = Enumerable.Range(0, 10).Select(seed => Seasons(seed, 182, 243, years: 4, warmth: ThreeWarm).ToList()).ToList();
        var knowing = looks.Average(l => OwnBloom.Estimate(s_usual, l, ThreeWarm)!.FirstDay);
        var unknowing = looks.Average(l => OwnBloom.Estimate(s_usual, l)!.FirstDay);
        Math.Abs(knowing - 182).ShouldBeLessThan(4);
        (182 - unknowing).ShouldBeGreaterThan(5, "the years 2023 and 2024 of four came 15 days early");
    }

    [Fact]
    public void One_look_noted_wrongly_does_not_carry_the_window_off()
    {
        var looks = Seasons(3, 182, 243).ToList();
        var right = OwnBloom.Estimate(s_usual, looks)!;
        var wrong = OwnBloom.Estimate(s_usual, [.. looks, new BloomLook(1, new DateOnly(2022, 2, 3), GrowthStage.Flowering)])!;
        Math.Abs(wrong.FirstDay - right.FirstDay).ShouldBeLessThan(3);
    }

    [Fact]
    public void Too_few_yards_or_years_and_a_window_over_New_Year_give_none()
    {
        OwnBloom.Estimate(s_usual, []).ShouldBeNull();
        OwnBloom.Estimate(s_usual, Flat([(1, 2024), (2, 2025)])).ShouldBeNull();
        OwnBloom.Estimate(s_usual, Flat([(1, 2024), (2, 2024), (3, 2024)])).ShouldBeNull();
        OwnBloom.Estimate(new(22, 1), Flat([(1, 2024), (2, 2024), (3, 2025)])).ShouldBeNull();
    }

    [Property]
    public void The_order_of_looks_changes_nothing(int seed)
    {
        var looks = Seasons(seed & 1023, 180, 240, yards: 4, years: 3).ToList();
        var turned = looks.AsEnumerable().Reverse().ToList();
        var (one, other) = (OwnBloom.Estimate(s_usual, looks), OwnBloom.Estimate(s_usual, turned));
        (one is null).ShouldBe(other is null);
        if (one is not null)
        {
            one.FirstDay.ShouldBe(other!.FirstDay, 1e-6);
            one.Window.ShouldBe(other.Window);
        }
    }

    [Fact]
    public void First_and_last_bloom_stand_between_the_looks_around_them()
    {
        BloomLook[] looks =
        [
            new(7, new(2025, 6, 1), 3), new(7, new(2025, 6, 20), 5), new(7, new(2025, 7, 4), 6), new(7, new(2025, 8, 2), 6),
                new(7, new(2025, 8, 9), 7), new(7, new(2025, 8, 20), 8),
            // New leaves in October and last year's dry stalks in March say nothing of bloom.
            new(7, new(2025, 10, 9), 1), new(7, new(2025, 3, 9), 9),
        ];
        ObservedFlowering.ByYardAndYear(s_usual, looks).ShouldHaveSingleItem()
            .ShouldBe(new YardBloom(7, 2025, new(2025, 6, 20), new(2025, 7, 4), new(2025, 8, 2), new(2025, 8, 20)));
        ObservedFlowering.DaysAfterUsualStart(new(2025, 7, 4), s_usual).ShouldBe(3);
        ObservedFlowering.DaysAfterUsualEnd(new(2025, 8, 2), s_usual).ShouldBe(-29);
        ObservedFlowering.ByYardAndYear(s_usual, [new(1, new(2025, 7, 5), 8), new(1, new(2025, 7, 20), 5)]).ShouldBeEmpty();
        ObservedFlowering.ByYardAndYear(null, []).ShouldBeEmpty();
    }

    /// <summary>Walks about every two weeks, on days that chance gives; stages as the made-up plant stands on them.</summary>
    private static IEnumerable<BloomLook> Seasons(int seed, double first, double last, int yards = 8, int years = 6, int looks = 14,
        Func<int, int, double>? warmth = null)
    {
        var random = new Random(seed);
        for (var year = 2021; year < 2021 + years; year++)
        {
            var (early, late) = (Normal(random, 6) + (warmth?.Invoke(year, (int)first) ?? 0),
                Normal(random, 6) + (warmth?.Invoke(year, (int)last) ?? 0));
            for (var yard = 1; yard <= yards; yard++)
            {
                var (from, to) = (first + early + Normal(random, 7), last + late + Normal(random, 7));
                for (var look = 0; look < looks; look++)
                {
                    var day = (int)(100 + ((look + random.NextDouble()) * 200 / looks));
                    yield return new BloomLook(yard, new DateOnly(year, 1, 1).AddDays(day - 1), day < from ? 5 : day <= to
                        ? GrowthStage.Flowering : 8);
                }
            }
        }
    }

    /// <summary>What a plain mean of the first looks in flower says.</summary>
    private static double NaiveFirst(int seed) => ObservedFlowering.ByYardAndYear(s_usual, Seasons(seed, 165, 220))
        .Where(b => b.First is not null).Average(b => b.First!.Value.DayOfYear);

    private static IEnumerable<BloomLook> Flat(IEnumerable<(long Yard, int Year)> seen) =>
        seen.Select(s => new BloomLook(s.Yard, new DateOnly(s.Year, 7, 31), GrowthStage.Flowering));

    private static double Normal(Random random, double sd) => sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
        * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double Root(IEnumerable<double> errors) => Math.Sqrt(errors.Average(e => e * e));
}
