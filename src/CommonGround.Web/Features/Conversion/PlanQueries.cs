using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.GapFilling;
using CommonGround.Planning.Water;
using CommonGround.Reports.ConversionReports;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A yard as a plan needs it: its facts, what grows round about, prices and weather.</summary>
public sealed record PlanGround(YardFacts Facts, ConversionSurroundings Surroundings, PriceTable Prices,
    IReadOnlyList<DailyWeather> Weather, double Latitude, double Longitude, SiteMeasures Yard, SiteMeasures Street, CommunityMatrix Matrix,
        IReadOnlySet<string> InYard, IReadOnlySet<string> OnStreet, Figures Figures)
{
    /// <summary>What is printed of town and growers.</summary>
    public LocalNotes Local { get; init; } = new();

    /// <summary>The newest photo of the whole yard; null for none.</summary>
    public YardPicture? Picture { get; init; }

    /// <summary>Number of the newest change that it was read with.</summary>
    public long Stamp { get; init; }
}

/// <summary>A stored photo of a whole yard.</summary>
public sealed record YardPicture(string FileName, DateOnly TakenOn, string Caption);

/// <summary>A plan made, or the reasons why there is none.</summary>
public sealed record PlanAnswer(ConversionPlan? Plan, NoMix? None, IReadOnlyList<ConversionProblem> Problems,
    IReadOnlyList<string> WeatherProblems);

/// <summary>Gathers what a plan stands on and makes it: one way for page, report and commands.</summary>
public sealed class PlanQueries(NeighbourhoodDatabase database, LiveCommunity live, YardQueries yards, GroupPrices prices,
    GroupClock clock, PlantKnowledge plants, HeavyWork work, KeptCurves curves)
{
    /// <summary>Weather further back says nothing of this year.</summary>
    private const int DaysOfWeather = 400;

    /// <summary>So many of the yard's gap plants a plan has to answer for.</summary>
    private const int GapsLookedAt = 3;

    /// <summary>Null when there is no such yard or the reader may not see it.</summary>
    public async Task<PlanGround?> GroundAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        if (await yards.GetAsync(code, currentUser, cancel) is not { } yard)
        {
            return null;
        }

        // A plan goes on paper and leaves the house: the street in it counts only the yards that share.
        var figures = await live.FiguresAsync(organiser: false, cancel);
        var loaded = await live.LoadedAsync(cancel);
        var whole = loaded.Matrix;
        var street = figures.Matrix.Streets.Index().First(s => s.Item.Name == yard.Facts.Street).Index;
        var here = whole.Yards[whole.PositionOf(yard.Facts.Id)!.Value];
        var inYard = Names(whole, [here]);
        var onStreet = Names(figures.Matrix, figures.Matrix.YardsOfStreet(street).Select(y => figures.Matrix.Yards[y]));
        var known = plants.Of(figures.Matrix.Taxa);
        var surroundings = new ConversionSurroundings(known.Catalogue, Figures.InFlower(figures.Streets[street]),
            Figures.InFlower(yard.Measures), onStreet)
        { Forage = known.Forage };
        return new PlanGround(yard.Facts, surroundings, await prices.ReadAsync(cancel), await WeatherAsync(cancel), here.Latitude,
            here.Longitude, yard.Measures, figures.Streets[street], figures.Matrix, inYard, onStreet, figures)
        {
            Local = loaded.Rules.Local,
            Stamp = loaded.Stamp,
            Picture = await PictureAsync(yard.Facts.Id, cancel),
        };
    }

    /// <summary>How many plans and reports are to be made before the next one.</summary>
    public int Waiting => work.Waiting;

    /// <summary>As <see cref="Make"/>, when its turn comes; where too many wait, that is the problem.</summary>
    public async Task<PlanAnswer> MakeAsync(PlanGround ground, ConversionRequest request,
        IReadOnlyDictionary<string, PlantedAmount>? kept = null, Effort? effort = null, ConversionMix? before = null)
    {
        try
        {
            return await work.RunAsync(() => Make(ground, request, curve: false, kept, effort, before: before));
        }
        catch (TooBusyException e)
        {
            return new PlanAnswer(null, null, [new ConversionProblem("", e.Message)], []);
        }
    }

    /// <summary>What more or less money would buy, when its turn comes; nothing where too many wait.</summary>
    public async Task<IReadOnlyList<TradeOff>> CurveAsync(PlanGround ground, ConversionRequest request)
    {
        try
        {
            return await work.RunAsync(() => curves.Of(ground, request));
        }
        catch (TooBusyException)
        {
            return [];
        }
    }

    /// <summary>The whole plan for a request; problems and conflicts in words where there is none.</summary>
    /// <param name="ground">Where.</param>
    /// <param name="request">What is asked for.</param>
    /// <param name="curve">The curve of cost against bees takes several times as long as the plan; false leaves it out.</param>
    /// <param name="kept">Amounts of a kept plan: they stay as they were shown, even where prices or the street have changed since.</param>
    /// <param name="effort">How hard to look; <see cref="Effort.Full"/> when left out.</param>
    /// <param name="before">The mix on the screen, to begin with.</param>
    /// <param name="cancel">Stops the work.</param>
    public PlanAnswer Make(
        PlanGround ground, ConversionRequest request, bool curve, IReadOnlyDictionary<string, PlantedAmount>? kept = null,
            Effort? effort = null, ConversionMix? before = null, CancellationToken cancel = default)
    {
        var problems = request.Check(ground.Surroundings, ground.Facts.LawnSquareMetres);
        if (problems.Count > 0)
        {
            return new PlanAnswer(null, null, problems, []);
        }

        var outcome = kept is { Count: > 0 } && ConversionPlanner.AsKept(request, kept, ground.Surroundings, ground.Prices) is { } same
            ? MixOutcome.Found(same)
            : ConversionPlanner.Solve(request, ground.Surroundings, ground.Prices, effort, before, cancel);
        if (outcome.Mix is not { } mix)
        {
            return new PlanAnswer(null, outcome.None, [], []);
        }

        var (water, weatherProblems) = Water(ground, request);
        return new PlanAnswer(Complete(ground, request, mix, water, curve
            ? curves.Of(ground, request, cancel) : []), null, [], weatherProblems);
    }

    private static ConversionPlan Complete(PlanGround ground, ConversionRequest request, ConversionMix mix, WaterComparison? water,
        IReadOnlyList<TradeOff> curve)
    {
        var work = WorkComparisons.Of(request, mix, ground.Prices);
        mix = mix with { Advice = [.. mix.Advice, .. GapPlantWords.LeftOut(Gaps(ground), request, mix)] };
        return new ConversionPlan
        {
            Request = request,
            Mix = mix,
            TradeOffs = curve,
            Water = water,
            Runoff = RunoffComparisons.Of(request, ground.Weather),
            Money = MoneyComparisons.Of(request, mix, ground.Prices, work, water),
            Work = work,
            Yard = Bloom($"Yard {ground.Facts.Code}", ground.Yard, ground.InYard, mix, ground.Figures),
            Street = ground.Street.Yards >= Figures.YardsToShow
                ? Bloom(ground.Facts.Street, ground.Street, ground.OnStreet, mix, ground.Figures) : null,
            Reach = [.. BeeReach.Bees.Select(bee => Reach(ground, mix, bee.Name, bee.SpanMillimetres))],
            YardVisitors = Visitors($"Yard {ground.Facts.Code}", ground.InYard, ground.Surroundings, mix),
            StreetVisitors = ground.Street.Yards >= Figures.YardsToShow
                ? Visitors(ground.Facts.Street, ground.OnStreet, ground.Surroundings, mix) : null,
            Calendar = ConversionCalendar.For(request, mix),
        };
    }

    /// <summary>The head of the list that the yard's own page and report show.</summary>
    private static IReadOnlyList<GapSuggestion> Gaps(PlanGround ground) => YardReportQueries.Suggestions(ground.Facts, ground.InYard,
        ground.Yard, ground.Figures, ground.Surroundings.Forage, GapsLookedAt);

    private static (WaterComparison? Water, IReadOnlyList<string> Problems) Water(PlanGround ground, ConversionRequest request)
    {
        var answer = WaterComparisons.Of(request, ground.Latitude, ground.Weather);
        return (answer.Comparison, answer.Problems);
    }

    /// <summary>Native taxa in flower with the plan grown up: a taxon that is there already is not counted twice.</summary>
    private static BloomChange Bloom(string site, SiteMeasures measures, IReadOnlySet<string> there, ConversionMix mix, Figures figures)
    {
        var before = Figures.InFlower(measures);
        int[] after = [.. before.Select((n, t) => n + mix.Taxa.Count(p => p.Taxon.Nativity == Nativity.Native
            && p.Taxon.Bloom is { } window && window.Contains(t) && !there.Contains(p.Taxon.ScientificName)))];
        int Covered(int[] n, int from) => Enumerable.Range(from, figures.Season.Last - from + 1).Count(t => n[t] >= figures.Season.Norm);
        return new BloomChange(site, before, after, Covered(before, figures.Season.First), Covered(after, figures.Season.First),
            Covered(before, figures.Season.LateFrom), Covered(after, figures.Season.LateFrom));
    }

    /// <summary>Visitors of native plants before and after; what is there already counts once.</summary>
    private static VisitorChange Visitors(string site, IReadOnlySet<string> there, ConversionSurroundings around, ConversionMix mix)
    {
        var natives = around.Catalogue.Where(t => t.Nativity == Nativity.Native).Select(t => t.ScientificName).Where(there.Contains)
            .ToList();
        var planned = mix.Taxa.Select(t => t.Taxon.ScientificName).ToList();
        var before = natives.SelectMany(around.Forage.RecordedOn).Where(v => v.IsBee).Select(v => v.Name).ToHashSet(StringComparer.Ordinal);
        string[] fresh = [.. planned.SelectMany(around.Forage.RecordedOn).Where(v => v.IsBee).Select(v => v.Name)
            .Distinct(StringComparer.Ordinal).Where(n => !before.Contains(n)).Order(StringComparer.Ordinal)];
        return new(site, around.Forage.Of(natives), around.Forage.Of(natives.Concat(planned)), fresh);
    }

    private static ReachChange Reach(PlanGround ground, ConversionMix mix, string bee, double spanMillimetres)
    {
        var metres = ForagingRange.TypicalHomingKilometres(spanMillimetres) * 1000;
        // From the block's middle where the public knows one: what is printed must not say where in it the yard lies.
        var block = ground.Figures.Matrix.Blocks.FirstOrDefault(b => b.BlockId == ground.Facts.BlockId
            && (b.Latitude, b.Longitude) != (0, 0));
        var (latitude, longitude) = (block?.Latitude ?? ground.Latitude, block?.Longitude ?? ground.Longitude);
        double[] before = [.. Enumerable.Range(0, Ecology.Phenology.HalfMonth.Count)
            .Select(t => ground.Figures.Told(ReachableBloom.At(ground.Matrix, latitude, longitude, t, metres)))];
        double[] after = [.. before.Select((m, t) => m + mix.Taxa.Where(p => p.Taxon.Bloom is { } window && window.Contains(t))
            .Sum(p => p.SquareMetres))];
        return new ReachChange(bee, before, after);
    }

    private static HashSet<string> Names(CommunityMatrix matrix, IEnumerable<YardCommunity> rows) =>
        rows.SelectMany(r => r.Presences).Select(p => matrix.Taxa[p.Taxon].ScientificName).ToHashSet(StringComparer.Ordinal);

    /// <summary>A photo of a bed or of one plant is not the yard.</summary>
    private async Task<YardPicture?> PictureAsync(long yardId, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Photos.Where(p => p.YardId == yardId && p.BedId == null && p.TaxonId == null)
            .OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id)
            .Select(p => new YardPicture(p.FileName, p.TakenOn, p.Caption)).FirstOrDefaultAsync(cancel);
    }

    private async Task<IReadOnlyList<DailyWeather>> WeatherAsync(CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var from = clock.Today.AddDays(-DaysOfWeather);
        return await db.WeatherDays.Where(w => w.Date >= from && w.Date <= clock.Today).OrderBy(w => w.Date)
            .Select(w => new DailyWeather(w.Date, w.MinimumCelsius, w.MaximumCelsius, w.RainMillimetres)).ToListAsync(cancel);
    }
}
