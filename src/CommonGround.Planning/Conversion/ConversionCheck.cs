namespace CommonGround.Planning.Conversion;

/// <summary>Something in a request that a person can correct.</summary>
/// <param name="Field">Property of the request, surroundings or price table.</param>
/// <param name="Message">What is wrong and how to correct it, in a sentence or two.</param>
public sealed record ConversionProblem(string Field, string Message);

/// <summary>What can be said of a request before anything is solved.</summary>
public static class ConversionCheck
{
    private const double LargestSquareMetres = 100_000;
    private const double MostSeeds = 10_000;

    /// <summary>Impossible values and limits that contradict each other; empty when a plan may be tried.</summary>
    public static IReadOnlyList<ConversionProblem> Check(this ConversionRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return [.. Ground(request), .. Bounds(request), .. Names(request)];
    }

    /// <summary>The same, and what only the catalogue and the yard's lawn can tell.</summary>
    /// <param name="lawnSquareMetres">The yard's lawn, m²; null when not known.</param>
    public static IReadOnlyList<ConversionProblem> Check(this ConversionRequest request, ConversionSurroundings surroundings,
        double? lawnSquareMetres = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(surroundings);
        var problems = request.Check().Concat(Of(surroundings)).ToList();
        if (request.SquareMetres > lawnSquareMetres)
        {
            problems.Add(
                new(nameof(request.Areas), $"The areas add up to {request.SquareMetres:0.#} m², more than the yard's "
                    + $"{lawnSquareMetres:0.#} m² of lawn. Make an area smaller, or correct the lawn's size."));
        }

        foreach (var (field, name) in request.MustHave.Select(n => (nameof(request.MustHave), n))
            .Concat(request.LockedAmounts.Keys.Select(n => (nameof(request.LockedAmounts), n))))
        {
            if (surroundings.Catalogue.FirstOrDefault(t => string.Equals(t.ScientificName, name, StringComparison.Ordinal))
                is not { } taxon)
            {
                problems.Add(new(field, $"The catalogue has no {name}. Check the spelling, or take it off the list."));
            }
            else if (CandidateRules.Firm(request, taxon) is [var why, ..] && why != WhyNot.Never)
            {
                problems.Add(
                    new(field, $"{name} does not suit: {WhyNotWords.Of(why)}. Take it off the list, or change what you said of the ground "
                        + $"or the limits."));
            }
        }

        return problems;
    }

    /// <summary>Prices, rates and spreads that cannot be.</summary>
    public static IReadOnlyList<ConversionProblem> Check(this PriceTable prices)
    {
        ArgumentNullException.ThrowIfNull(prices);
        var problems = new List<ConversionProblem>();
        void Money(string field, double? value)
        {
            if (value is { } money && !(money >= 0 && money <= 1e5))
                problems.Add(new(field, $"A price is 0 to 100,000; {field} is {money}."));
        }

        void Ordered(string field, Spread spread)
        {
            if (!(spread.Low >= 0 && spread.Low <= spread.Mid && spread.Mid <= spread.High && double.IsFinite(spread.High)))
            {
                problems.Add(new(field, $"{field} needs a low, a middle and a high figure, each 0 or more, in that order."));
            }
        }

        foreach (var (name, price) in prices.Taxa)
        {
            Money($"{nameof(prices.Taxa)} {name}", price.SeedPerGram);
            Money($"{nameof(prices.Taxa)} {name}", price.PlugEach);
        }

        Money(nameof(prices.ForbSeedPerGram), prices.ForbSeedPerGram);
        Money(nameof(prices.GrassSeedPerGram), prices.GrassSeedPerGram);
        Money(nameof(prices.PlugEach), prices.PlugEach);
        if (!(prices.PacketGrams >= 0 && prices.PacketGrams <= 1000))
            problems.Add(new(nameof(prices.PacketGrams), "The smallest packet is 0 to 1,000 g."));
        Money(nameof(prices.ShrubEach), prices.ShrubEach);
        Money(nameof(prices.HourValue), prices.HourValue);
        Money(nameof(prices.FuelPerLitre), prices.FuelPerLitre);
        Money(nameof(prices.WaterPerCubicMetre), prices.WaterPerCubicMetre);
        Ordered(nameof(prices.PreparePerSquareMetre), prices.PreparePerSquareMetre);
        Ordered(nameof(prices.LawnPerSquareMetreYear), prices.LawnPerSquareMetreYear);
        Ordered(nameof(prices.PlantingPerSquareMetreYear), prices.PlantingPerSquareMetreYear);
        Ordered(nameof(prices.MowMinutesPer100SquareMetres), prices.MowMinutesPer100SquareMetres);
        Ordered(nameof(prices.MowingsPerYear), prices.MowingsPerYear);
        Ordered(nameof(prices.FuelLitresPerHour), prices.FuelLitresPerHour);
        if (!(prices.Purity > 0 && prices.Purity <= 1))
            problems.Add(new(nameof(prices.Purity), "Purity is above 0 and at most 1: 0.95 for 95 %."));
        if (!(prices.Germination > 0 && prices.Germination <= 1))
            problems.Add(new(nameof(prices.Germination), "Germination is above 0 and at most 1: 0.8 for 80 %."));
        if (!(prices.DiscountRate >= 0 && prices.DiscountRate <= 0.2))
            problems.Add(new(nameof(prices.DiscountRate), "The discount rate is 0 to 0.2: 0.03 for 3 %."));
        return problems;
    }

    internal static IEnumerable<ConversionProblem> Of(ConversionSurroundings surroundings)
    {
        if (surroundings.StreetInFlower.Count != Ecology.Phenology.HalfMonth.Count
            || surroundings.YardInFlower.Count != Ecology.Phenology.HalfMonth.Count)
        {
            yield return new(nameof(surroundings.StreetInFlower), "Bloom of yard and street has 24 half-months.");
        }
    }

    private static IEnumerable<ConversionProblem> Ground(ConversionRequest request)
    {
        if (request.Areas.Count == 0)
        {
            yield return new(nameof(request.Areas), "There is no area to convert. Draw one or type its size.");
        }

        foreach (var area in request.Areas.Where(a => !(a.SquareMetres > 0)))
        {
            yield return new(
                nameof(request.Areas), $"{(area.Name.Length == 0 ? "An area" : area.Name)} has {area.SquareMetres:0.#} m². Give it a size "
                    + $"above 0, or remove it.");
        }

        if (request.SquareMetres > LargestSquareMetres)
        {
            yield return new(
                nameof(request.Areas), $"The areas add up to {request.SquareMetres:0} m². Plans here are for yards of up to "
                    + $"{LargestSquareMetres:0} m²; check the unit.");
        }

        foreach (var name in request.Areas.GroupBy(a => a.Name, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1
            || string.IsNullOrWhiteSpace(g.Key)).Select(g => g.Key))
        {
            yield return new(nameof(request.Areas), string.IsNullOrWhiteSpace(name) ? "An area has no name. Name it after where it lies."
                : $"Two areas are called {name}. Name each differently.");
        }

        if (!(request.SlopePercent is >= 0 and <= 100))
        {
            yield return new(nameof(request.SlopePercent), "Slope is 0 to 100 percent: a rise of 1 m over 10 m is 10.");
        }
    }

    private static IEnumerable<ConversionProblem> Bounds(ConversionRequest request)
    {
        if (request.Budget is { } budget && !(budget >= 0 && budget <= 1e9))
            yield return new(nameof(request.Budget), "A budget is 0 or more. Leave it empty for no limit.");
        if (request.TallestMetres is { } tallest && !(tallest > 0 && tallest <= 100))
            yield return new(nameof(request.TallestMetres), "The height limit is above 0 m. Leave it empty when there is none.");
        if (request.FewestSeedsPerSquareMetre is { } few && !(few > 0 && few <= MostSeeds))
            yield return new(
                nameof(request.FewestSeedsPerSquareMetre), $"Seeds per m² are above 0 and at most {MostSeeds:0}; 430 to 520 are usual.");
        if (request.MostSeedsPerSquareMetre is { } many && !(many > 0 && many <= MostSeeds))
            yield return new(
                nameof(request.FewestSeedsPerSquareMetre), $"Seeds per m² are above 0 and at most {MostSeeds:0}; 430 to 520 are usual.");
        if (request.FewestSeedsPerSquareMetre > request.MostSeedsPerSquareMetre)
            yield return new(
                nameof(request.FewestSeedsPerSquareMetre), $"At least {request.FewestSeedsPerSquareMetre:0} and at most "
                    + $"{request.MostSeedsPerSquareMetre:0} seeds per m² contradict each other. Lower the first or raise the second.");
        if (request.LeastGrassShare is < 0 or > 1 or double.NaN || request.MostGrassShare is < 0 or > 1 or double.NaN)
            yield return new(nameof(request.LeastGrassShare), "Shares of grass are 0 to 1: 0.3 for 30 %.");
        if (request.LeastGrassShare > request.MostGrassShare)
            yield return new(
                nameof(request.LeastGrassShare), $"At least {request.LeastGrassShare:P0} and at most {request.MostGrassShare:P0} grass "
                    + $"contradict each other. Lower the first or raise the second.");
        if (request.MostShareOfOne is { } one && !(one >= 0.01 && one <= 1))
            yield return new(nameof(request.MostShareOfOne), "The most that one taxon may take is 0.01 to 1: 0.2 for 20 %.");
        if (request.FewestTaxa is < 1 or > 1000 || request.MostTaxa is < 1 or > 1000)
            yield return new(nameof(request.FewestTaxa), "Numbers of taxa are 1 to 1,000.");
        if (request.FewestTaxa > request.MostTaxa)
            yield return new(
                nameof(request.FewestTaxa), $"At least {request.FewestTaxa} and at most {request.MostTaxa} taxa contradict each other. "
                    + $"Lower the first or raise the second.");
        if (request.Season is not { First: >= 0, Last: < Ecology.Phenology.HalfMonth.Count, Norm: >= 1 } season
            || season.First > season.LateFrom || season.LateFrom > season.Last)
        {
            yield return new(nameof(request.Season),
                "A season runs from its first half-month to its last within 0 to 23, with a norm of at least one taxon.");
        }
    }

    private static IEnumerable<ConversionProblem> Names(ConversionRequest request)
    {
        foreach (var name in request.MustHave.Concat(request.LockedAmounts.Keys).Intersect(request.Never, StringComparer.Ordinal))
        {
            yield return new(nameof(request.Never), $"{name} is wanted and not wanted. Take it off one of the two lists.");
        }

        foreach (var (name, amount) in request.LockedAmounts)
        {
            if (!(amount.SeedsPerSquareMetre >= 0 && amount.SeedsPerSquareMetre <= MostSeeds && amount.Plugs >= 0)
                || (MixSite.Steps(amount.SeedsPerSquareMetre) == 0 && amount.Plugs == 0))
            {
                yield return new(
                    nameof(request.LockedAmounts), $"{name} is locked at {amount.SeedsPerSquareMetre:0.##} seeds per m² and "
                        + $"{amount.Plugs} plugs. A lock keeps seed, plugs or both, each 0 or more. Unlock it.");
            }
        }
    }
}
