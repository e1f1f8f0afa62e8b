using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Benchmarks;

/// <summary>An invented city: 300 streets, 5,000 blocks, 100,000 yards, 1,000,000 plantings, 20,000 infestations. Always the same
/// one.</summary>
/// <remarks>
/// Two columns of 150 parallel streets, 100 m apart; a block is 200 m long with ten lots of 20 m on each side, 25 m from the street's
/// middle. Few taxa are common and many are rare; cover is log-normal around half a square metre; one planting in twenty is tentative.
/// </remarks>
internal sealed class City
{
    public const int Streets = 300, Blocks = 5_000, YardsPerBlock = 20, Yards = Blocks * YardsPerBlock, Infestations = 20_000;
    public static readonly DateOnly Today = new(2026, 8, 19);

    private const int Seed = 20261125;
    private const double MetresPerDegree = 111_195, South = 41.5, West = -90.5;
    private static readonly DateOnly FirstDay = new(2024, 4, 1);

    private City(IReadOnlyList<CatalogueTaxon> taxa) => Taxa = taxa;

    /// <summary>The real catalogue; taxon number i of the database is row i − 1.</summary>
    public IReadOnlyList<CatalogueTaxon> Taxa { get; }

    public List<CityPlanting> Plantings { get; } = new(10 * Yards);

    public List<CityInfestation> Unwanted { get; } = new(Infestations);

    public static City Build()
    {
        var path = Path.Combine(SiteOptions.SeedFolder, "plants.csv");
        var city = new City(CatalogueFile.Read("plants.csv", File.ReadAllBytes(path)).Taxa);
        var random = new Random(Seed);
        city.Plant(random);
        city.Infest(random);
        return city;
    }

    /// <summary>Street of a block: the first 200 streets have 17 blocks, the others 16.</summary>
    public static int StreetOf(int block) => block < 3400 ? block / 17 : 200 + ((block - 3400) / 16);

    public static (double Latitude, double Longitude) MiddleOf(int block)
    {
        var street = StreetOf(block);
        var alongStreet = block < 3400 ? block % 17 : (block - 3400) % 16;
        return At((street % 2 * 4000) + (alongStreet * 200) + 100, street / 2 * 100);
    }

    public static (double Latitude, double Longitude) PlaceOf(int yard)
    {
        var (latitude, longitude) = MiddleOf(yard / YardsPerBlock);
        var lot = yard % YardsPerBlock;
        var (east, north) = ((lot % 10 * 20) - 90, lot < 10 ? 25 : -25);
        return (latitude + (north / MetresPerDegree), longitude + (east / MetresPerDegree / Math.Cos(double.DegreesToRadians(South))));
    }

    private static (double Latitude, double Longitude) At(double east, double north) =>
        (South + (north / MetresPerDegree), West + (east / MetresPerDegree / Math.Cos(double.DegreesToRadians(South))));

    private void Plant(Random random)
    {
        int[] order = [.. Enumerable.Range(1, Taxa.Count)];
        random.Shuffle(order);
        var inYard = new HashSet<int>();
        var more = 0;
        for (var yard = 0; yard < Yards; yard++)
        {
            // Ten on average: what one yard has more, the next has less.
            more = yard % 2 == 0 ? random.Next(9) : -more;
            inYard.Clear();
            while (inYard.Count < 10 + more)
            {
                var taxon = order[(int)(order.Length * Math.Pow(random.NextDouble(), 2.5))];
                if (inYard.Add(taxon))
                {
                    Plantings.Add(new(yard, random.Next(2), taxon, FirstDay.AddDays(random.Next(860)), Cover(random),
                        random.Next(20) == 0));
                }
            }
        }
    }

    private void Infest(Random random)
    {
        int[] unwanted = [.. Enumerable.Range(1, Taxa.Count).Where(t => Taxa[t - 1].ImpactRank != ImpactRank.Unranked)];
        for (var i = 0; i < Infestations; i++)
        {
            Unwanted.Add(new(random.Next(Yards), unwanted[random.Next(unwanted.Length)], FirstDay.AddDays(random.Next(860)),
                1 + (random.NextDouble() * 40), 5 + random.Next(90), random.Next(10)));
        }
    }

    private static double Cover(Random random)
    {
        // Box–Muller: a normal number from two even ones.
        var normal = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        return Math.Round(Math.Exp((0.8 * normal) - 0.7), 2) + 0.01;
    }
}

internal readonly record struct CityPlanting(int Yard, int Bed, int Taxon, DateOnly ObservedOn, double CoverSquareMetres, bool Tentative);

internal readonly record struct CityInfestation(int Yard, int Taxon, DateOnly ObservedOn, double AreaSquareMetres, double CoverPercent,
    int Stage);
