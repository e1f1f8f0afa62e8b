using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Benchmarks;

/// <summary>
/// Targets for 300 suitable taxa, 14 half-months, 132 m²: bloom and visitors proven within 1 s, a sound mix within 2 s, after a lock 0.5 s;
/// visitors of any set under 1 ms; a street of 20 yards within 1 % in 20 s.
/// </summary>
public class ConversionPlans
{
    private const int Suitable = 300;
    private static readonly PriceTable Prices = new() { Invented = true };

    private static readonly ConversionRequest Request = Of(132, Light.FullSun, Moisture.Medium);

    private ConversionSurroundings many = default!, real = default!;
    private ConversionRequest locked = default!;
    private ConversionMix? before;
    private string[] set = [];
    private StreetYard[] street = [];

    [GlobalSetup]
    public void Solve()
    {
        var traits = MixTraitsFile.Read("mix-attributes.csv", Seed("mix-attributes.csv"));
        CatalogueTaxon[] catalogue = [.. CatalogueFile.Read("plants.csv", Seed("plants.csv")).Taxa.Select(traits.With)];
        var (visitors, _) = VisitorFile.Read(Seed("visitors", "visitors.csv"), Seed("visitors", "plants.csv"));
        real = Around(catalogue, visitors);
        many = Around(Grown(catalogue), visitors);
        var first = Sound().Mix ?? throw new InvalidOperationException("There is no plan to measure.");
        before = first;
        var middle = first.Taxa[first.Taxa.Count / 2];
        locked = Request with
        {
            LockedAmounts = new Dictionary<string, PlantedAmount>(
            StringComparer.Ordinal)
            { [middle.Taxon.ScientificName] = middle.Amount }
        };
        set = [.. first.Taxa.Select(t => t.Taxon.ScientificName)];
        (Light, Moisture)[] grounds = [(Light.FullSun, Moisture.Medium), (Light.FullSun, Moisture.Dry), (Light.PartShade, Moisture.Medium),
            (Light.Shade, Moisture.Medium), (Light.FullSun, Moisture.Moist)];
        street = [.. Enumerable.Range(0, 20).Select(i => new StreetYard($"AA-{i:00}",
            Of(8 + (11 * i), grounds[i % 5].Item1, grounds[i % 5].Item2)))];
        var whole = Street();
        Console.WriteLine($"// {ConversionCandidates.Of(Request, many.Catalogue).Suitable.Count} suitable taxa; full plan proven: "
            + $"{Best().Mix!.Quality.ProvenBest}; street {whole.Bees} of {whole.BeesBound} bees, gap {whole.Gap:P1}, "
            + $"{whole.Yards.Count(y => y.Mix is null)} yards without a mix");
    }

    [Benchmark(Description = "A sound mix on the screen, 300 suitable taxa")]
    public MixOutcome Sound() => ConversionPlanner.Solve(Request, many, Prices, Effort.Quick);

    [Benchmark(Description = "The full search, 300 suitable taxa")]
    public MixOutcome Best() => ConversionPlanner.Solve(Request, many, Prices);

    [Benchmark(Description = "The full search, the real catalogue")]
    public MixOutcome Real() => ConversionPlanner.Solve(Request, real, Prices);

    [Benchmark(Description = "A sound mix again after one lock")]
    public MixOutcome AfterOneLock() => ConversionPlanner.Solve(locked, many, Prices, Effort.Again, before);

    [Benchmark(Description = "Visitors of the plants of a mix")]
    public VisitorSupport Visitors() => many.Forage.Of(set);

    [Benchmark(Description = "A street of 20 yards")]
    public StreetMixes Street() => StreetPlan.Of(street, 4000, real, Prices);

    private static ConversionRequest Of(double squareMetres, Light light, Moisture moisture) =>
        new() { Areas = [new("front", squareMetres, [])], Light = light, Moisture = moisture, SoilGroup = SoilGroup.B };

    private static ConversionSurroundings Around(IReadOnlyList<CatalogueTaxon> catalogue, VisitorRecords visitors) =>
        new(catalogue, [.. Enumerable.Repeat(2, HalfMonth.Count)], new int[HalfMonth.Count],
            new HashSet<string>(StringComparer.Ordinal))
        { Forage = new(visitors, catalogue) };

    /// <summary>The real catalogue and as many copies of suitable taxa, flowering half a month later, as make 300; a copy has its
    /// original's visitors.</summary>
    private static CatalogueTaxon[] Grown(CatalogueTaxon[] catalogue)
    {
        var suited = ConversionCandidates.Of(Request, catalogue).Suitable.Select(c => c.Taxon).ToList();
        return [.. catalogue, .. Enumerable.Range(0, Suitable - suited.Count).Select(i => suited[i % suited.Count] with
        {
            ScientificName = $"{suited[i % suited.Count].ScientificName}-{i}",
            Synonyms = [suited[i % suited.Count].ScientificName],
            Bloom = suited[i % suited.Count].Bloom is { End: < 19 } b ? b.Shifted(1) : suited[i % suited.Count].Bloom,
        })];
    }

    private static byte[] Seed(params string[] path) => File.ReadAllBytes(Path.Combine([SiteOptions.SeedFolder, .. path]));
}
