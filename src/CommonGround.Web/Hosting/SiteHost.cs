using System.Globalization;
using CommonGround.Storage;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Identify;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.EntityFrameworkCore;
using MudBlazor.Services;
using Serilog;
using Serilog.Events;

namespace CommonGround.Web.Hosting;

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
        PrivateFiles.Begin();
        await using var duty = await TakeFolderAsync(options);
        AddLog(builder, options);
        // The data is made ready while the host is put together: on two processors the first page comes a third sooner.
        var opening = Task.Run(() => SiteStartup.OpenAsync(options, TimeProvider.System));
        AddOpened(builder.Services.AddSingleton(options), opening);
        Operations.OperationsSetup.Add(builder, opening, options);
        builder.Services.AddHostedService<Operations.ChangeListening>().AddHostedService<Operations.IdleNeighbourhoods>()
            .AddHostedService<WarmLikenesses>();
        AddFeatures(builder.Services);
        AddMembership(builder);
        // In the database, so that every process of the site reads the cookies of every other.
        builder.Services.AddDataProtection().PersistKeysToDbContext<CommonGroundDb>().SetApplicationName("CommonGround");
        builder.AddSecurity();
        AddLivePages(builder.Services);
        Compression.Add(builder.Services);
        builder.Services.AddMudServices();
        // SQLite answers on the calling thread: enough threads that a burst of writers never starves the readers.
        ThreadPool.SetMinThreads(64, 64);

        await using var app = builder.Build();
        // The first visitor should not wait for the matrix: it is built while the server starts.
        _ = FirstFiguresAsync(opening);
        app.Use(HeadRequests.AnswerAsync);
        app.UseHeaders();
        Operations.OperationsSetup.Use(app);
        if (!app.Environment.IsDevelopment())
        {
            app.UseExceptionHandler("/trouble", createScopeForErrors: true);
        }

        Compression.Use(app);
        app.Use(Operations.DatabaseAway.AnswerAsync);
        app.UseSecurity(opening);
        app.Use(async (http, next) =>
        {
            var neighbourhoods = (await opening).Neighbourhoods;
            await neighbourhoods.FollowAsync(http.RequestAborted);
            var place = neighbourhoods.For(http.Request.Host.Host, http.Request.Cookies[CurrentUserQueries.PlaceCookie]);
            http.RequestServices.GetRequiredService<NeighbourhoodContext>().Use(place.Neighbourhood.Id);
            await next(http);
        });
        app.UseStatusCodePagesWithReExecute("/not-found");
        app.Use((http, next) =>
        {
            // A refused form would be posted again to /not-found, without its token, and fail there.
            http.Features.Get<IStatusCodePagesFeature>()!.Enabled = HttpMethods.IsGet(http.Request.Method);
            return next(http);
        });
        app.UseRouting();
        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseNoStore();
        app.UseAccessCheck();
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        WaitForChange.Map(app);
        Features.More.ViewSettings.Map(app);
        YardReportFile.Map(app);
        WalkSheets.Map(app);
        Features.Invasives.WorkDayFile.Map(app);
        YardLabels.Map(app);
        Features.Tours.TourFiles.Map(app);
        StreetsFile.Map(app);
        StreetInvitations.Map(app);
        Features.Export.ExportAddresses.Map(app);
        LikenessFiles.Map(app);
        YardSceneFile.Map(app);
        PlanFiles.Map(app);
        PlanSceneFile.Map(app);
        AccountFiles.Map(app);
        Features.Photos.PhotoAddresses.Map(app);
        Features.Walks.WalkAddresses.Map(app);
        await app.StartAsync();
        await ReadyAsync(opening, app);
        await SayFirstStartAsync(app);
        await app.WaitForShutdownAsync();
    }

    /// <summary>A SQLite folder has one server: two would not see each other's changes. Commands beside it are welcome, and PostgreSQL
    /// serves as many as there are.</summary>
    private static async Task<IAsyncDisposable?> TakeFolderAsync(SiteOptions options)
    {
        if (options.Storage.Provider != "sqlite")
        {
            return null;
        }

        Directory.CreateDirectory(options.DataFolder);
        // One that is being replaced gets a moment to end.
        for (var tries = 0; tries < 20; tries++)
        {
            if (await StorageRegistration.TryTakeDutyAsync(options.Storage, "server") is { } taken)
            {
                return taken;
            }

            await Task.Delay(250);
        }

        throw new DataFolderException($"Another process serves the data folder {options.DataFolder} already. Stop that one first, or give "
            + $"this one a folder of its own with data=FOLDER.");
    }

    private static async Task FirstFiguresAsync(Task<OpenedSite> opening)
    {
        var opened = await opening;
        await opened.Neighbourhoods.All[0].Live.FiguresAsync(organiser: true);
        await using var db = await opened.Database.CreateDbContextAsync();
        await Statistics.RenewAsync(db);
    }

    /// <summary>The one-time code of a group that has nobody yet: only whoever sees this output can begin.</summary>
    private static async Task SayFirstStartAsync(WebApplication app)
    {
        var begin = app.Services.GetRequiredService<FirstRunSetup>();
        if (!app.Lifetime.ApplicationStopping.IsCancellationRequested && await begin.IsNeededAsync())
        {
            var address = app.Services.GetRequiredService<MailSettings>().Site;
            // Told, not logged: log files are kept for weeks and read by others.
            Console.WriteLine($"First start: open {new Uri(address, EntryPages.FirstRun)} and enter the code {begin.Code}");
        }
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

    private static void AddOpened(IServiceCollection services, Task<OpenedSite> opening)
    {
        // Nobody asks before the data is ready: every request waits for it first.
        OpenedSite Opened() => opening.GetAwaiter().GetResult();
        services.AddSingleton(_ => Opened()).AddSingleton(_ => Opened().Neighbourhoods).AddSingleton(_ => Opened().Database)
            .AddSingleton(_ => Opened().Feed);
    }

    /// <summary>What the pages and the commands are made of. All of it stands in one neighbourhood, which the request, the page or the
    /// command names first.</summary>
    internal static void AddFeatures(IServiceCollection services) => services
        .AddSingleton(TimeProvider.System)
        .AddScoped<NeighbourhoodContext>().AddScoped(s => Here(s).Neighbourhood).AddScoped(s => Here(s).Clock).AddScoped(s => Here(s).Live)
        .AddScoped(s => s.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(Here(s).Neighbourhood.Id))
        .AddScoped<CommunityQueries>().AddScoped<CurrentUserQueries>().AddScoped<AccessCheck>()
        .AddScoped<ImportFiles>().AddSingleton<ImportDesk>().AddSingleton<Features.Streets.MapFileDesk>()
        .AddScoped<Features.Export.ExportFiles>()
        .AddScoped<RecordPlantings>().AddScoped<CorrectSighting>().AddScoped<PlantingQueries>().AddScoped<BrowserDrafts>()
        .AddSingleton<Likenesses>().AddSingleton<FieldKeys>().AddScoped<IdentifyQueries>()
        .AddScoped<PlantQueries>().AddScoped<PlantNotes>().AddScoped<PlantOverrides>().AddScoped<StreetQueries>()
        .AddScoped<LateSeasonQueries>().AddScoped<StreetInvitations>().AddScoped<Features.ThisHalfMonth.RecentActivity>()
        .AddScoped<Features.ThisHalfMonth.FirstStepsQueries>().AddScoped<DrawingQueries>().AddScoped<KeepDrawing>()
        .AddScoped<YardQueries>().AddScoped<YardReportQueries>().AddScoped<RegisterYard>().AddScoped<AddBed>().AddScoped<YardSettings>()
        .AddSingleton<PlantKnowledge>().AddScoped<VisitorQueries>().AddScoped<GroupPrices>().AddScoped<PlanQueries>()
        .AddScoped<SavedPlans>().AddSingleton<Features.Photos.PhotoFolder>()
        .AddScoped<ConversionReportQueries>().AddScoped<StreetBatch>().AddScoped<StreetPlans>()
        .AddSingleton<PlanPreviews>().AddSingleton<KeptCurves>().AddSingleton(s => new HeavyWork(s.GetService<IConfiguration>()))
        .AddScoped<Features.More.SaveRules>().AddScoped<Features.History.UndoChange>().AddScoped<Features.History.HistoryQueries>()
        .AddScoped<Features.Photos.PhotoQueries>().AddScoped<Features.Plants.PlantYearQueries>().AddScoped<Features.Yards.YardYearQueries>()
        .AddScoped<Features.Regions.WarmthQueries>().AddScoped<WalkSheets>().AddScoped<YardLabels>()
            .AddScoped<Features.Tours.TourQueries>().AddScoped<Features.Tours.KeepTour>()
            .AddScoped<RecordSheetRows>()
            .AddScoped<Features.Walks.WalkQueries>().AddScoped<Features.Walks.WildlifeQueries>()
            .AddScoped<Features.Walks.ReceiveWalk>().AddScoped<Features.Walks.WalkDisputes>().AddScoped<Features.Walks.ReceivePhoto>()
            .AddScoped<Features.Invasives.CaseQueries>().AddScoped<Features.Invasives.ReportInfestation>()
            .AddScoped<Features.Invasives.WorkDayQueries>().AddScoped<Features.Invasives.PressureQueries>()
            .AddScoped<Features.Invasives.WorkDone>()
            .AddScoped<Features.Invasives.LogTreatment>().AddScoped<Features.Invasives.CaseSteps>();

    /// <summary>Pages that hold a connection: how many there may be, and that each is still its reader's.</summary>
    private static void AddLivePages(IServiceCollection services)
    {
        services.AddSingleton<OpenPages>().AddSingleton<WaitForChange>().AddSingleton<OpenPagesWatch>()
            .AddHostedService(s => s.GetRequiredService<OpenPagesWatch>())
            .AddScoped<Standing>().AddScoped<LivePage>().AddScoped<CircuitHandler>(s => s.GetRequiredService<LivePage>());
        services.AddRazorComponents().AddInteractiveServerComponents(circuits =>
            {
                // A page whose connection broke is kept for so long; one that its reader closed goes at once.
                (circuits.DisconnectedCircuitRetentionPeriod, circuits.DisconnectedCircuitMaxRetained) = (TimeSpan.FromMinutes(3), 50);
                (circuits.PersistedCircuitInMemoryRetentionPeriod, circuits.PersistedCircuitInMemoryMaxRetained) =
                    (TimeSpan.FromMinutes(30), 100);
            })
            .AddHubOptions(hub => hub.AddFilter<OpenPages>());
    }

    private static void AddMembership(WebApplicationBuilder builder) => builder.Services
        .AddSingleton(MailSettings.Read(builder.Configuration)).AddSingleton<Mail>().AddSingleton<FirstRunSetup>()
        .AddSingleton<EmailLimit>().AddSingleton<SignUpLetters>().AddSingleton<RetentionJob>()
        .AddScoped<SignUp>().AddScoped<Invitations>().AddScoped<UnprovenAddresses>().AddScoped<People>().AddScoped<GroupSettings>()
        .AddScoped<Features.Regions.RegionSettings>().AddScoped<SignInFlow>().AddScoped<PasswordReset>()
        .AddScoped<Features.Photos.YardPhotos>().AddScoped<AccountSettings>()
        .AddScoped<AccountDeletion>().AddScoped<PersonalData>()
        .AddHostedService(s => s.GetRequiredService<RetentionJob>());

    private static Place Here(IServiceProvider services) => services.GetRequiredService<NeighbourhoodContext>().Current;

    private static void AddLog(WebApplicationBuilder builder, SiteOptions options) =>
        builder.Services.AddSerilog((_, log) => log
            .Enrich.FromLogContext() // carries the reference that the error page shows
                                     // Said in one sentence at the terminal; the way through the program helps nobody who has to repair a
                                     // folder.
            .Filter.ByExcluding(told => told.Exception is DataFolderException or AggregateException { InnerException: DataFolderException })
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
            .WriteTo.Console(formatProvider: CultureInfo.InvariantCulture)
            .WriteTo.File(new Operations.LogJson(), Path.Combine(options.DataFolder, "logs", "commonground-.json"),
            rollingInterval: RollingInterval.Day, retainedFileCountLimit: 30));
}
