using System.Diagnostics;
using System.Globalization;
using System.Net;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Benchmarks;

/// <summary>How long the report of a kept plan takes over HTTP: the demo is served on loopback by this process, a plan of one of its yards
/// is kept, its curve is worked out as its page does, and then its report is fetched again and again.</summary>
internal sealed class PlanReportFromPage(string folder) : WebApplicationFactory<Program>
{
    private const int Times = 25;

    /// <param name="yard">A yard of the demo, such as KI-12.</param>
    public static async Task PrintAsync(string yard)
    {
        var folder = Directory.CreateTempSubdirectory("commonground-plan-report-").FullName;
        await using (var site = new PlanReportFromPage(folder))
        {
            site.UseKestrel(0);
            site.StartServer();
            var plan = await site.KeepAsync(yard);
            using var handler = new HttpClientHandler { CookieContainer = new CookieContainer() };
            handler.CookieContainer.Add(site.ClientOptions.BaseAddress, new Cookie("cg-act", "organiser"));
            using var http = new HttpClient(handler) { BaseAddress = site.ClientOptions.BaseAddress };
            var (first, bytes) = await TimeAsync(http, plan);
            var warm = new List<double>();
            using var process = Process.GetCurrentProcess();
            var before = process.TotalProcessorTime;
            for (var i = 0; i < Times; i++)
            {
                warm.Add((await TimeAsync(http, plan)).Milliseconds);
            }

            process.Refresh();
            var each = (process.TotalProcessorTime - before).TotalMilliseconds / Times;
            warm.Sort();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"report of a plan for {yard}, {bytes / 1000} KB: first {first:0} ms, then {Times}: median {warm[Times / 2]:0} ms, "
                + $"95 % within {warm[(int)(Times * 0.95)]:0} ms, longest {warm[^1]:0} ms; {each:0} ms of processor time each"));
        }

        Directory.Delete(folder, recursive: true);
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("data", folder);
        builder.UseSetting("Limits:RequestsPerMinute", "100000");
    }

    private async Task<long> KeepAsync(string yard)
    {
        await using var scope = Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        var by = new CurrentUser(Role.Organiser, null, "an organiser", false);
        var plans = scope.ServiceProvider.GetRequiredService<PlanQueries>();
        var ground = await plans.GroundAsync(yard, by) ?? throw new InvalidOperationException($"The demo has no yard {yard}.");
        var request = ConversionReportQueries.Proposed(ground);
        var answer = plans.Make(ground, request, curve: false);
        var (kept, problems) = await scope.ServiceProvider.GetRequiredService<SavedPlans>().KeepAsync(ground.Facts.Id, answer.Plan!, by);
        return kept?.Id ?? throw new InvalidOperationException(string.Join(" ", problems.Select(p => p.Message)));
    }

    private static async Task<(double Milliseconds, long Bytes)> TimeAsync(HttpClient http, long plan)
    {
        var clock = Stopwatch.StartNew();
        var bytes = await http.GetByteArrayAsync($"/plans/{plan}/report.pdf");
        return (clock.Elapsed.TotalMilliseconds, bytes.Length);
    }
}
