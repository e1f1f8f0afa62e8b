using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;

namespace CommonGround.Benchmarks;

/// <summary>Target: a saved planting shows in its street's measures in under 20 ms, without a rebuild.</summary>
public class SavedPlanting
{
    private static readonly Dictionary<int, Guid> Versions = [];
    private static int s_next;
    private readonly CurrentUser organiser = new(Role.Organiser, null, "an organiser", Customary: false);
    private LiveCommunity live = default!;
    private RecordPlantings record = default!;

    [GlobalSetup]
    public async Task Fill()
    {
        var city = CityDatabase.Instance;
        live = new LiveCommunity(city.Queries, city.Clock, TimeProvider.System);
        record = new RecordPlantings(city.Factory, city.Neighbourhood, city.Clock);
        await live.FiguresAsync(organiser: true);
        var before = (await live.NowAsync()).Yards.Count(y => y.Presences.Any(p => p.CoverSquareMetres == 123));
        await SaveAsync(s_next, 123);
        var after = (await live.NowAsync()).Yards.Count(y => y.Presences.Any(p => p.CoverSquareMetres >= 123));
        if (after != before + 1)
        {
            throw new InvalidOperationException("The saved planting does not show.");
        }
    }

    [GlobalCleanup]

    [Benchmark(Description = "Save one planting, read its street's measures")]
    public async Task<SiteMeasures> SaveAndLook()
    {
        var yard = Next();
        await SaveAsync(yard, 1.5);
        return await StreetAsync(yard);
    }

    [Benchmark(Description = "Save one planting, read every figure of every page, two ways of looking")]
    public async Task<Figures> SaveAndLookAtAll()
    {
        await SaveAsync(Next(), 1.5);
        return await live.FiguresAsync(organiser: true);
    }

    [Benchmark(Description = "Nothing changed: compare the stamp, answer from memory")]
    public Task<CommunityMatrix> Compare() => live.NowAsync();

    /// <summary>Another yard in another street every time: 7,919 is prime to 100,000.</summary>
    private static int Next() => s_next = (s_next + 7919) % City.Yards;

    private async Task SaveAsync(int yard, double coverSquareMetres)
    {
        var taxon = (await live.NowAsync()).Taxa[yard % 100];
        var line = new PlantingDraft
        {
            Typed = taxon.ScientificName,
            Taxon = taxon,
            CoverSquareMetres = coverSquareMetres,
            SameDay = SameDay.InPlace
        };
        var sheet = new RecordSheet(CityDatabase.YardId(yard), CityDatabase.BedId(yard, 0), Versions.GetValueOrDefault(yard), City.Today,
            "a walker", [line]);
        var result = await record.SaveAsync(sheet, organiser);
        if (result.ChangeId is null)
        {
            throw new InvalidOperationException(string.Join(" ", result.Problems.Select(p => p.Message)));
        }

        Versions[yard] = result.BedVersion;
    }

    private async Task<SiteMeasures> StreetAsync(int yard) =>
        CommunityMeasures.OfStreet(await live.NowAsync(), City.StreetOf(yard / City.YardsPerBlock), Season.Default,
            PressureConvention.Default);
}
