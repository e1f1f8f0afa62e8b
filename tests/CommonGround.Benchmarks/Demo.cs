using BenchmarkDotNet.Attributes;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Commands;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;

namespace CommonGround.Benchmarks;

/// <summary>The printed report of a demo yard, and bringing in the demo neighbourhood through the real import.</summary>
public class Demo
{
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-demo-").FullName;
    private YardReport report = default!;

    [GlobalSetup]
    public void Setup()
    {
        var options = Options(folder);
        var opened = Opening.OpenAsync(options, TimeProvider.System).GetAwaiter().GetResult();
        var database = StorageRegistration.Open(options.Storage);
        var queries = new CommunityQueries(database, opened.Neighbourhood);
        var live = new LiveCommunity(queries, opened.Clock);
        var yards = new YardQueries(database, opened.Neighbourhood, live, queries, opened.Clock);
        var keeper = new Viewer(Role.Administrator, null, "", false);
        report = new YardReportQueries(yards, live, opened.Neighbourhood, opened.Clock).GetAsync("KI-05", keeper).GetAwaiter().GetResult()!;
    }

    [GlobalCleanup]
    public void Cleanup() => Directory.Delete(folder, recursive: true);

    [Benchmark]
    public long WriteAYardReport()
    {
        using var pdf = new MemoryStream();
        YardReportDocument.Write(report, PaperSize.Letter, pdf);
        return pdf.Length;
    }

    [Benchmark]
    public async Task BringInTheDemoNeighbourhood()
    {
        var fresh = Directory.CreateTempSubdirectory("commonground-fresh-").FullName;
        await Opening.OpenAsync(Options(fresh), TimeProvider.System);
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(fresh, recursive: true);
    }

    private static SiteOptions Options(string folder) => new(folder, true, StorageLocation.SqliteFile(Path.Combine(folder, "commonground.db")), "", "America/Chicago");
}
