using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Benchmarks;

/// <summary>Targets: a plan over 200 suitable taxa and 14 half-months proven (or within 0.5 %) in 1 s; again after one lock in 0.3 s.</summary>
public class ConversionPlans
{
    private static readonly PriceTable Prices = new() { Invented = true };

    private ConversionRequest locked = default!;

    /// <summary>None, one that binds, and one that binds hard.</summary>
    [Params(0, 250, 120)]
    public int Budget { get; set; }

    private ConversionRequest Request => new()
    {
        Areas = [new("Front", 40, []), new("Strip", 20, [])],
        Light = Light.FullSun,
        Moisture = Moisture.Medium,
        SoilGroup = SoilGroup.B,
        Budget = Budget == 0 ? null : Budget,
    };

    private ConversionSurroundings surroundings = default!;

    [GlobalSetup]
    public void Solve()
    {
        surroundings = new(Flora(), [.. Enumerable.Repeat(2, HalfMonth.Count)], new int[HalfMonth.Count], new HashSet<string>(StringComparer.Ordinal));
        var first = Plan().Mix ?? throw new InvalidOperationException("There is no plan to measure.");
        if (first.Quality.Gap > 0.005)
        {
            throw new InvalidOperationException($"The gap is {first.Quality.Gap:P2}.");
        }

        var middle = first.Taxa[first.Taxa.Count / 2];
        locked = Request with { LockedShares = new Dictionary<string, double>(StringComparer.Ordinal) { [middle.Taxon.ScientificName] = middle.Share + 0.02 } };
    }

    [Benchmark(Description = "Plan over 200 suitable taxa")]
    public MixOutcome Plan() => ConversionPlanner.Solve(Request, surroundings, Prices);

    [Benchmark(Description = "Again after one lock")]
    public MixOutcome AfterOneLock() => ConversionPlanner.Solve(locked, surroundings, Prices);

    [Benchmark(Description = "Curve of cost against support")]
    public IReadOnlyList<TradeOff> Curve() => TradeOffCurve.Of(Request, surroundings, Prices);

    private static CatalogueTaxon[] Flora()
    {
        var random = new Random(1);
        return
        [
            .. Enumerable.Range(0, 200).Select(i =>
            {
                var start = random.Next(6, 19);
                var grass = i % 5 == 0;
                return new CatalogueTaxon
                {
                    ScientificName = $"Planta n{i:000}",
                    Nativity = Nativity.Native,
                    LifeForm = grass ? LifeForm.Grass : LifeForm.Forb,
                    C = random.Next(2, 11),
                    HeightMaxMetres = 0.2 + (random.NextDouble() * 2),
                    Light = [Light.FullSun],
                    Moisture = [Moisture.Medium],
                    Bloom = grass ? null : new BloomWindow(start, Math.Min(19, start + random.Next(1, 5))),
                    PollinatorValue = grass ? null : Math.Round(random.NextDouble(), 2),
                    SeedsPerGram = Math.Round(Math.Exp(3.5 + (random.NextDouble() * 6))),
                    SpacingMetres = Math.Round(0.2 + (random.NextDouble() * 0.4), 2),
                };
            }),
        ];
    }
}
