using System.Data.Common;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CommonGround.Web.Operations;

/// <summary>
/// <c>/health/live</c>: the process runs. <c>/health/ready</c>: the record can be read and written, and is backed up. Plain JSON without
/// names, paths or secrets.
/// </summary>
public sealed class Health(Task<OpenedSite> opening, SiteOptions options, TimeProvider time)
{
    /// <summary>Below this much room a save or a backup may soon fail.</summary>
    public const long LeastRoom = 200L * 1024 * 1024;
    private const string Ready = "ready";
    private readonly DateTimeOffset started = time.GetUtcNow();

    public static void Add(IServiceCollection services, Task<OpenedSite> opening, SiteOptions options)
    {
        var health = new Health(opening, options, TimeProvider.System);
        services.AddHealthChecks()
            .AddCheck("process", () => HealthCheckResult.Healthy("runs"))
            .AddAsyncCheck("database", health.DatabaseAsync, [Ready])
            .AddAsyncCheck("catalogue", health.CatalogueAsync, [Ready])
            .AddCheck("disk", health.Disk, [Ready])
            .AddCheck("backup", health.Backup, [Ready]);
    }

    public static void Use(IApplicationBuilder app)
    {
        app.UseHealthChecks("/health/live", Told(check => !check.Tags.Contains(Ready)));
        app.UseHealthChecks("/health/ready", Told(check => check.Tags.Contains(Ready)));
    }

    private static HealthCheckOptions Told(Func<HealthCheckRegistration, bool> which) =>
        new() { Predicate = which, ResponseWriter = WriteAsync };

    private async Task<HealthCheckResult> DatabaseAsync(CancellationToken cancel)
    {
        try
        {
            if (NotOpened() is { } why)
            {
                return Of(false, why);
            }

            await using var db = await (await opening).Database.CreateDbContextAsync(cancel);
            return Of(await db.Neighbourhoods.AnyAsync(cancel), "answers");
        }
        catch (Exception e) when (e is DbException || StorageFailure.Of(e) is not null)
        {
            return Of(false, "does not answer");
        }
    }

    private async Task<HealthCheckResult> CatalogueAsync(CancellationToken cancel)
    {
        try
        {
            if (NotOpened() is { } why)
            {
                return Of(false, why);
            }

            await using var db = await (await opening).Database.CreateDbContextAsync(cancel);
            return await db.Taxa.AcrossNeighbourhoods().AnyAsync(t => !t.Unlisted, cancel) ? Of(true, "is loaded") : Of(false, "is empty");
        }
        catch (Exception e) when (e is DbException || StorageFailure.Of(e) is not null)
        {
            return Of(false, "cannot be read");
        }
    }

    private HealthCheckResult Disk()
    {
        try
        {
            var room = new DriveInfo(options.DataFolder).AvailableFreeSpace;
            return Of(room >= LeastRoom, $"{room / 1024 / 1024} MiB free");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Of(false, "cannot be read");
        }
    }

    private HealthCheckResult Backup()
    {
        if (options.Backup.Every is not { } every)
        {
            return Of(true, "the site makes none by itself");
        }

        var last = BackupFolder.Newest(options.Backup.Folder);
        // A new site has until its second turn to make its first one.
        var age = time.GetUtcNow() - (last ?? started);
        return Of(age <= 2 * every, last is null ? "none yet" : $"the last one is {(int)age.TotalHours} hours old");
    }

    private string? NotOpened() => opening.IsCompletedSuccessfully ? null
        : opening.IsCompleted ? "could not be opened; the log says why" : "is being made ready";

    private static HealthCheckResult Of(bool well, string says) =>
        well ? HealthCheckResult.Healthy(says) : HealthCheckResult.Unhealthy(says);

    private static Task WriteAsync(HttpContext http, HealthReport report) => http.Response.WriteAsJsonAsync(
        new
        {
            status = report.Status == HealthStatus.Healthy ? "well" : "unwell",
            checks = report.Entries.ToDictionary(
                e => e.Key,
                e => new { what = e.Key, well = e.Value.Status == HealthStatus.Healthy, says = e.Value.Description },
                StringComparer.Ordinal),
        },
        http.RequestAborted);
}
