using System.Data.Common;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Operations;

/// <summary><c>/health/live</c>: the process runs. <c>/health/ready</c>: the record can be read and written, and is backed up. Plain JSON without names, paths or secrets.</summary>
public sealed class Health(Task<OpenedSite> opening, SiteOptions options, TimeProvider time)
{
    /// <summary>Below this much room a save or a backup may soon fail.</summary>
    public const long LeastRoom = 200L * 1024 * 1024;
    private readonly DateTimeOffset started = time.GetUtcNow();

    public async Task AnswerAsync(HttpContext http, RequestDelegate next)
    {
        switch (http.Request.Path.Value)
        {
            case "/health/live":
                await WriteAsync(http, [new("process", true, "runs")]);
                break;
            case "/health/ready":
                await WriteAsync(http, await ReadyAsync(http.RequestAborted));
                break;
            default:
                await next(http);
                break;
        }
    }

    public async Task<IReadOnlyList<Finding>> ReadyAsync(CancellationToken cancel)
    {
        if (!opening.IsCompletedSuccessfully)
        {
            return [new("database", false, opening.IsCompleted ? "could not be opened; the log says why" : "is being made ready")];
        }

        return [await DatabaseAsync((await opening).Database, cancel), await CatalogueAsync((await opening).Database, cancel), Disk(), Backup()];
    }

    private static async Task<Finding> DatabaseAsync(IDbContextFactory<CommonGroundDb> database, CancellationToken cancel)
    {
        try
        {
            await using var db = await database.CreateDbContextAsync(cancel);
            return new("database", await db.Neighbourhoods.AnyAsync(cancel), "answers");
        }
        catch (Exception e) when (e is DbException || StorageFailure.Of(e) is not null)
        {
            return new("database", false, "does not answer");
        }
    }

    private static async Task<Finding> CatalogueAsync(IDbContextFactory<CommonGroundDb> database, CancellationToken cancel)
    {
        try
        {
            await using var db = await database.CreateDbContextAsync(cancel);
            return await db.Taxa.AcrossNeighbourhoods().AnyAsync(t => !t.Unlisted, cancel) ? new("catalogue", true, "is loaded") : new("catalogue", false, "is empty");
        }
        catch (Exception e) when (e is DbException || StorageFailure.Of(e) is not null)
        {
            return new("catalogue", false, "cannot be read");
        }
    }

    private Finding Disk()
    {
        try
        {
            var room = new DriveInfo(options.DataFolder).AvailableFreeSpace;
            return new("disk", room >= LeastRoom, $"{room / 1024 / 1024} MiB free");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new("disk", false, "cannot be read");
        }
    }

    private Finding Backup()
    {
        if (options.Backup.Every is not { } every)
        {
            return new("backup", true, "the site makes none by itself");
        }

        var last = BackupFolder.Newest(options.Backup.Folder);
        // A new site has until its second turn to make its first one.
        var age = time.GetUtcNow() - (last ?? started);
        return new("backup", age <= 2 * every, last is null ? "none yet" : $"the last one is {(int)age.TotalHours} hours old");
    }

    private static Task WriteAsync(HttpContext http, IReadOnlyList<Finding> findings)
    {
        var well = findings.All(f => f.Well);
        http.Response.StatusCode = well ? StatusCodes.Status200OK : StatusCodes.Status503ServiceUnavailable;
        http.Response.Headers.CacheControl = "no-store";
        return http.Response.WriteAsJsonAsync(new { status = well ? "well" : "unwell", checks = findings.ToDictionary(f => f.What, f => f, StringComparer.Ordinal) }, http.RequestAborted);
    }

    /// <param name="Says">In words, after what was looked at.</param>
    public sealed record Finding(string What, bool Well, string Says);
}
