using System.Globalization;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Diagnostics;
using MudBlazor.Services;
using Serilog;
using Serilog.Events;

namespace CommonGround.Web.Commands;

/// <summary>Puts the site together.</summary>
internal static class SiteHost
{
    public static async Task RunAsync(string[] args)
    {
        var builder = WebApplication.CreateBuilder(args);
        if (builder.Configuration["urls"] is null && builder.Configuration["http_ports"] is null)
        {
            builder.WebHost.UseUrls("http://localhost:5080");
        }

        // The packages' browser files are found from a plain build too, not only from a published one.
        builder.WebHost.UseStaticWebAssets();
        var options = SiteOptions.From(builder.Configuration, builder.Environment.ContentRootPath);
        AddLog(builder, options);
        // The data is made ready while the host is put together: on two processors the first page comes a third sooner.
        var opening = Task.Run(() => Opening.OpenAsync(options, TimeProvider.System));
        AddOpened(builder.Services.AddSingleton(options), opening);
        Care.SiteCare.Add(builder, opening);
        AddFeatures(builder.Services);
        builder.Services.AddDataProtection().PersistKeysToFileSystem(Directory.CreateDirectory(Path.Combine(options.DataFolder, "keys"))).SetApplicationName("CommonGround");
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddMudServices();
        builder.Services.AddAntiforgery();
        // SQLite answers on the calling thread: enough threads that a burst of writers never starves the readers.
        ThreadPool.SetMinThreads(64, 64);

        await using var app = builder.Build();
        // The first visitor should not wait for the matrix: it is built while the server starts.
        _ = FirstFiguresAsync(opening, app.Services);
        Care.SiteCare.Use(app);
        if (!app.Environment.IsDevelopment())
        {
            app.UseExceptionHandler("/trouble", createScopeForErrors: true);
        }

        app.Use(async (http, next) =>
        {
            await opening;
            var headers = http.Response.Headers;
            headers.ContentSecurityPolicy = "default-src 'self'; frame-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob: " + TileOrigin(app.Configuration) + "; connect-src 'self' ws: wss:; font-src 'self'; object-src 'none'; base-uri 'self'; frame-ancestors 'none'; form-action 'self'";
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            await next(http);
        });
        app.UseStatusCodePagesWithReExecute("/not-found");
        app.Use((http, next) =>
        {
            // A refused form would be posted again to /not-found, without its token, and fail there.
            http.Features.Get<IStatusCodePagesFeature>()!.Enabled = HttpMethods.IsGet(http.Request.Method);
            return next(http);
        });
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        Features.More.ViewSettings.Map(app);
        YardReportFile.Map(app);
        StreetsFile.Map(app);
        PlanFiles.Map(app);
        await app.StartAsync();
        await ReadyAsync(opening, app);
        await app.WaitForShutdownAsync();
    }

    private static async Task FirstFiguresAsync(Task<OpenedNeighbourhood> opening, IServiceProvider services)
    {
        var opened = await opening;
        await services.GetRequiredService<LiveCommunity>().FiguresAsync(organiser: true);
        await using var db = await opened.Database.CreateDbContextAsync();
        await Statistics.RenewAsync(db);
    }

    private static async Task ReadyAsync(Task opening, WebApplication app)
    {
        try
        {
            await opening.WaitAsync(app.Lifetime.ApplicationStopping);
        }
        catch (OperationCanceledException) when (app.Lifetime.ApplicationStopping.IsCancellationRequested)
        {
            // Stopped before the data was ready; what was half done is rolled back.
        }
    }

    private static void AddOpened(IServiceCollection services, Task<OpenedNeighbourhood> opening)
    {
        // Nobody asks before the data is ready: every request waits for it first.
        OpenedNeighbourhood Opened() => opening.GetAwaiter().GetResult();
        services.AddSingleton(_ => Opened().Neighbourhood).AddSingleton(_ => Opened().Clock).AddSingleton(_ => Opened().Database);
    }

    internal static void AddFeatures(IServiceCollection services) => services
        .AddSingleton(TimeProvider.System)
        .AddSingleton<CommunityQueries>().AddSingleton<LiveCommunity>()
        .AddSingleton<ImportFiles>().AddSingleton<RecordPlantings>().AddSingleton<PlantQueries>()
        .AddSingleton<YardQueries>().AddSingleton<YardReportQueries>().AddSingleton<StreetQueries>().AddSingleton<RegisterYard>().AddSingleton<YardConsent>().AddSingleton<Features.More.SaveRules>().AddSingleton<Features.Export.ExportFiles>().AddSingleton<AddBed>().AddScoped<DraftKeeper>().AddSingleton<ViewerQueries>().AddSingleton<Features.ThisHalfMonth.RecentActivity>()
        .AddSingleton<PlanPreviews>().AddSingleton<GroupPrices>().AddSingleton<PlanQueries>().AddSingleton<SavedPlans>().AddSingleton<ConversionReportQueries>().AddSingleton<StreetBatch>();

    private static string TileOrigin(IConfiguration configuration) =>
        configuration["Map:TileUrl"] is { Length: > 0 } url && Uri.TryCreate(url.Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal), UriKind.Absolute, out var uri) ? uri.GetLeftPart(UriPartial.Authority) : "";

    private static void AddLog(WebApplicationBuilder builder, SiteOptions options) =>
        builder.Services.AddSerilog((_, log) => log
            .Enrich.FromLogContext() // carries the reference that the error page shows
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
            .WriteTo.Console(formatProvider: CultureInfo.InvariantCulture)
            .WriteTo.File(new Care.CleanJson(), Path.Combine(options.DataFolder, "logs", "commonground-.json"), rollingInterval: RollingInterval.Day, retainedFileCountLimit: 30));
}
