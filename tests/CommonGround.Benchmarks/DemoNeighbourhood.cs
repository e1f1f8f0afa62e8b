using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Regions;
using CommonGround.Interchange;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Saving;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Regions;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Benchmarks;

/// <summary>Work a person waits for in the demo neighbourhood: a yard's report, and bringing in all its files.</summary>
public class DemoNeighbourhood
{
    private static readonly Locality Illinois = new("IL", 41.87, -88.56), Missouri = new("MO", 37.21, -93.29);
    private Locality place = Illinois;
    private string folder = "";
    private ServiceProvider services = default!;
    private YardReport report = default!;
    private List<ImportFile> files = [];

    [GlobalSetup]
    public async Task Fill()
    {
        folder = Directory.CreateTempSubdirectory("commonground-demo-").FullName;
        var opened = await SiteStartup.OpenAsync(Options("filled"), TimeProvider.System);
        services = new ServiceCollection().AddSingleton(opened.Neighbourhoods.All[0].Neighbourhood)
            .AddSingleton(opened.Neighbourhoods.All[0].Clock).AddSingleton(opened.Neighbourhoods.All[0].Live).AddSingleton(opened.Database)
            .AddSingleton(opened.Database.In(opened.Neighbourhoods.All[0].Neighbourhood.Id)).AddSingleton<PlantKnowledge>()
            .AddSingleton<VisitorQueries>().AddSingleton<CommunityQueries>().AddSingleton<YardQueries>().AddSingleton<YardReportQueries>()
            .BuildServiceProvider();
        report = await services.GetRequiredService<YardReportQueries>().GetAsync("LA-07",
            new CurrentUser(Role.Administrator, null, "the keeper", Customary: false))
            ?? throw new InvalidOperationException("The demo has no yard LA-07.");
        Console.WriteLine($"// the report of yard LA-07 has {WriteReport():n0} bytes");
        string[] names = ["streets.geojson", "places.csv", "beds.csv", "sightings.csv", "infestations.csv"];
        files = [.. names.Select(n => ImportFile.Read(n, File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "quarry-bend", n))))];
    }

    [GlobalCleanup]
    public void Close()
    {
        services.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Benchmark(Description = "Report of one yard, PDF")]
    public long WriteReport()
    {
        using var pdf = new MemoryStream();
        YardReportDocument.Write(report, PaperSize.Letter, pdf);
        return pdf.Length;
    }

    [Benchmark(Description = "A new folder opened: schema, 1,203 taxa, the whole demo neighbourhood")]
    public Task<OpenedSite> OpenNewFolder() => SiteStartup.OpenAsync(Options(Guid.NewGuid().ToString("N")), TimeProvider.System);

    [Benchmark(Description = "Another place: every value read again, every figure worked out anew (target under 1 s)")]
    public async Task<int> ChangePlace()
    {
        place = place == Illinois ? Missouri : Illinois;
        var id = services.GetRequiredService<CurrentNeighbourhood>().Id;
        var saved = await services.GetRequiredService<Storage.NeighbourhoodDatabase>().WriteAsync(async db =>
        {
            RegionSettings.Put(await db.Neighbourhoods.SingleAsync(n => n.Id == id), place, "somewhere");
            return Storage.History.ChangeNote.OfProgram(id, "another place");
        });
        if (!saved.IsStored)
        {
            throw new InvalidOperationException(saved.Problems[0].Message);
        }

        return (await services.GetRequiredService<LiveCommunity>().FiguresAsync(organiser: true)).Neighbourhood.NativeRichness;
    }

    [Benchmark(Description = "The demo's five files imported again, nothing changed")]
    public async Task<ImportOutcome> ImportAgain() =>
        await new ImportFiles(services.GetRequiredService<Storage.NeighbourhoodDatabase>(),
            services.GetRequiredService<CurrentNeighbourhood>())
            .RunAsync(files, new ImportChoices(false, false, new DateOnly(2026, 11, 25)), null, default);

    private SiteOptions Options(string name) =>
        SiteOptions.From(new ConfigurationBuilder().AddInMemoryCollection([new("data", Path.Combine(folder, name))]).Build(), folder);
}
