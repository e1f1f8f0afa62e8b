using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>One yard that takes part in planning a whole street.</summary>
/// <param name="Yard">Its code.</param>
/// <param name="Request">What it asks for; its own budget holds besides the street's.</param>
public sealed record StreetYard(string Yard, ConversionRequest Request);

/// <summary>How far the street is.</summary>
public sealed record StreetProgress(int Done, int Total, string Yard);

/// <summary>What became of a yard: its mix, or why it has none.</summary>
public sealed record StreetYardPlan(string Yard, ConversionMix? Mix, IReadOnlyList<string> Why);

/// <summary>Mixes for several yards at once, together within one budget.</summary>
/// <param name="Bees">Kinds of bees fed by one yard or more; <paramref name="BeesBound"/> what no choice of sound mixes can pass.</param>
/// <param name="Cost">Of all yards.</param>
public sealed record StreetMixes(IReadOnlyList<StreetYardPlan> Yards, int Bees, int BeesBound, double Cost)
{
    /// <summary>(Bound − bees) / bound.</summary>
    public double Gap => BeesBound == 0 ? 0 : (double)(BeesBound - Bees) / BeesBound;

    /// <summary>Kinds of visitors fed by one yard or more.</summary>
    public int Visitors { get; init; }
}

/// <summary>Plans a whole street: every yard a sound mix by itself, all together feeding the most kinds of bees within one
/// budget.</summary>
/// <remarks>
/// Decomposed: each yard offers a few sound mixes, chosen for itself at several budgets and for what the yards before it do not feed; then
/// one exact program chooses a mix for each yard. The bound counts bees recorded on any plant that suits some yard. Our own method.
/// </remarks>
public static class StreetPlan
{
    private const int Rounds = 3;

    /// <summary>Near enough to the bound to stop.</summary>
    private const double Near = 0.01;

    /// <summary>Square metres from which a taxon that is rare in trade is offered at all.</summary>
    private const double RareFrom = 30;

    /// <summary>Mixes for the yards; a yard for which there is none says why. Same input, same answer.</summary>
    /// <param name="yards">In any order; the answer keeps it.</param>
    /// <param name="budget">For all yards together; null for no limit.</param>
    /// <param name="surroundings">Catalogue, visitors, and what grows on the street.</param>
    /// <param name="prices">What seed and plants cost.</param>
    /// <param name="progress">Told after each mix.</param>
    /// <param name="cancel">Stops the work with <see cref="OperationCanceledException"/>.</param>
    public static StreetMixes Of(
        IReadOnlyList<StreetYard> yards, double? budget, ConversionSurroundings surroundings, PriceTable prices,
            IProgress<StreetProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(yards);
        ArgumentNullException.ThrowIfNull(surroundings);
        var offers = new List<ConversionMix>[yards.Count];
        var why = new IReadOnlyList<string>[yards.Count];
        var done = 0;
        Parallel.For(0, yards.Count, new ParallelOptions
        {
            CancellationToken = cancel,
            MaxDegreeOfParallelism = Environment.ProcessorCount
        }, i =>
        {
            (offers[i], why[i]) = Offers(yards[i].Request, budget / yards.Count, surroundings, prices, cancel);
            progress?.Report(new(Interlocked.Increment(ref done), yards.Count, yards[i].Yard));
        });
        var picked = StreetChoice.Of(offers, budget, surroundings.Forage);
        var possible = surroundings.Forage.Of(yards.Index().Where(y => offers[y.Index].Count > 0)
            .SelectMany(y => ConversionCandidates.Of(y.Item.Request, surroundings.Catalogue).Suitable.Where(c => !c.IsGrass)
            .Select(c => c.Taxon.ScientificName)).Distinct(StringComparer.Ordinal));
        for (var round = 0; round < Rounds && surroundings.Forage.Of(Names(offers, picked)).Bees < (1 - Near) * possible.Bees; round++)
        {
            // What the street still lacks is looked for in the yards one after the other, with the money that is left.
            if (!Improve(yards, offers, picked, surroundings, prices, cancel)) break;
            picked = StreetChoice.Of(offers, budget, surroundings.Forage);
        }

        var names = Names(offers, picked);
        var fed = surroundings.Forage.Of(names);
        return new([.. yards.Select((y, i) => picked[i] < 0 ? new StreetYardPlan(y.Yard, null, offers[i].Count > 0
            ? ["The street's money is not enough for this yard."] : why[i]) : new(y.Yard, offers[i][picked[i]], []))],
            fed.Bees, possible.Bees, yards.Select((_, i) => picked[i] < 0 ? 0 : offers[i][picked[i]].Cost).Sum())
        { Visitors = fed.Visitors };
    }

    /// <summary>A flower that is sold, and can be sown or stands low enough for a band.</summary>
    private static bool MayBeAdded(ConversionCandidate c, double squareMetres) => !c.IsGrass
        && (c.Traits.Trade == Trade.Usual || (c.Traits.Trade == Trade.Rare && squareMetres >= RareFrom))
        && ((c.Traits is { FromSeed: FromSeed.Easy or FromSeed.Slow, MostSeedsPerSquareFoot: > 0 } && c.Taxon.SeedsPerGram is not null)
        || c.Tallest <= ConversionConvention.BandTallestMetres);

    private static IEnumerable<string> Names(List<ConversionMix>[] offers, IReadOnlyList<int> picked) =>
        picked.SelectMany((p, i) => p < 0 ? [] : offers[i][p].Taxa.Select(t => t.Taxon.ScientificName)).Distinct(StringComparer.Ordinal);

    /// <summary>The best mix for itself, and cheaper ones.</summary>
    private static (List<ConversionMix> Mixes, IReadOnlyList<string> Why) Offers(ConversionRequest request, double? fair,
        ConversionSurroundings surroundings, PriceTable prices, CancellationToken cancel)
    {
        var mixes = new List<ConversionMix>();
        void Add(ConversionMix? mix)
        {
            if (mix is not null && !mixes.Exists(m => Math.Abs(m.Cost - mix.Cost) < 0.005)) mixes.Add(mix);
        }

        Add(ConversionPlanner.Try(request, surroundings, prices, Effort.Quick, cancel: cancel));
        if (mixes.Count == 0)
            return (mixes, ["No sound mix holds under this yard's limits. Its own plan says which of them stand in the way."]);
        if (fair is { } share && share < mixes[0].Cost)
        {
            Add(ConversionPlanner.Try(request with { Budget = Math.Min(request.Budget ?? share, share) }, surroundings, prices,
                Effort.Quick, cancel: cancel));
            if (MixMoneyAdvice.LeastMoney(request, surroundings, prices) is { } least)
            {
                Add(ConversionPlanner.Try(request with { Budget = Math.Min(request.Budget ?? double.MaxValue, least * 1.05) },
                    surroundings, prices, Effort.Quick, cancel: cancel));
            }
        }

        return (mixes, []);
    }

    /// <summary>For each yard a mix with one plant more that feeds what the street does not feed yet; true when there is a new
    /// one.</summary>
    private static bool Improve(
        IReadOnlyList<StreetYard> yards, List<ConversionMix>[] offers, IReadOnlyList<int> picked, ConversionSurroundings surroundings,
            PriceTable prices, CancellationToken cancel)
    {
        var fed = Names(offers, picked).ToHashSet(StringComparer.Ordinal);
        var found = false;
        for (var i = 0; i < yards.Count; i++)
        {
            if (picked[i] < 0) continue;
            var request = yards[i].Request;
            var suited = ConversionCandidates.Of(request, surroundings.Catalogue).Suitable.Where(c => MayBeAdded(c, request.SquareMetres))
                .Select(c => c.Taxon.ScientificName);
            var more = surroundings.Forage.Additions(fed, suited, 12).Where(a => a.Bees > 0).ToList();
            // One that is rare in trade is enough for a yard.
            var missing = more.Where(a => a.Taxon.Mix is not { Trade: Trade.Rare }).Take(2)
                .Concat(more.Where(a => a.Taxon.Mix is { Trade: Trade.Rare }).Take(1)).Select(a => a.Taxon.ScientificName).ToList();
            if (missing.Count == 0) continue;
            var budget = Math.Min(request.Budget ?? double.MaxValue, offers[i][picked[i]].Cost * 1.1);
            var asked = request with { MustHave = [.. request.MustHave, .. missing], Budget = budget };
            if (ConversionPlanner.Try(asked, surroundings, prices, Effort.Quick, cancel: cancel) is not { } mix) continue;
            offers[i].Add(mix);
            fed.UnionWith(mix.Taxa.Select(t => t.Taxon.ScientificName));
            found = true;
        }

        return found;
    }
}
