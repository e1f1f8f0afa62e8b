using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Benchmarks;

/// <summary>Targets 2 to 4: the matrix from SQLite, one saved planting in its street's measures, reachable bloom of every block.</summary>
public class Community
{
    private static readonly Viewer Organiser = new(Role.Organiser, null, "an organiser", false);
    private CommunityMatrix matrix = default!;
    private RecordPlantings record = default!;
    private int round;

    [GlobalSetup]
    public void Setup()
    {
        matrix = Town.Instance.Matrix;
        record = new RecordPlantings(Town.Instance.Database, Town.Instance.Neighbourhood, Town.Instance.Live, Town.Instance.Clock);
    }

    [Benchmark]
    public async Task<int> RebuildTheMatrixFromSqlite() => (await Town.Instance.Queries.LoadAsync(Town.Instance.Clock.Today, default)).Matrix.Yards.Count;

    [Benchmark]
    public async Task<double?> SaveOnePlantingAndReadItsStreet()
    {
        const long Yard = 50_001;
        await using var db = await Town.Instance.Database.CreateDbContextAsync();
        var version = await db.Beds.Where(b => b.NeighbourhoodId == 1 && b.Id == Yard).Select(b => b.Version).SingleAsync();
        var taxon = matrix.Taxa[round++ % matrix.Taxa.Count];
        var result = await record.SaveAsync(new RecordSheet(Yard, Yard, version, Town.Instance.Clock.Today, "", [new PlantingDraft { Taxon = taxon, CoverSquareMetres = 1 }]), Organiser);
        result.Problems.Count.ShouldBe(0);
        return StreetOf(await Town.Instance.Live.NowAsync(), Yard);
    }

    /// <summary>The part after the commit: the yard's row read again and put in place, and its street's measures.</summary>
    [Benchmark]
    public async Task<double?> PutOneYardInPlaceAndReadItsStreet()
    {
        const long Yard = 60_001;
        await Town.Instance.Live.YardChangedAsync(Yard);
        return StreetOf(await Town.Instance.Live.NowAsync(), Yard);
    }

    [Benchmark]
    public double ReachableBloomOfAllBlocksForASmallBee() => Reach(1.6);

    [Benchmark]
    public double ReachableBloomOfAllBlocksForABumbleBee() => Reach(4.0);

    [Benchmark]
    public double PressureOfAllBlocks() => InvasivePressure.OfAllBlocks(matrix, PressureConvention.Default)[0];

    private static double? StreetOf(CommunityMatrix now, long yard)
    {
        var street = now.Blocks[now.Yards[now.PositionOf(yard)!.Value].Block].Street;
        return SiteMeasures.Of(CommunityMeasures.CommunityOfStreet(now, street), now.Taxa, Season.Default, null).Shannon;
    }

    private double Reach(double spanMillimetres) => ReachableBloom.OfAllBlocks(matrix, 15, ForagingRange.TypicalHomingKilometres(spanMillimetres) * 1000)[0];
}
