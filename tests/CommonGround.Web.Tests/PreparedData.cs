using CommonGround.Storage;
using CommonGround.Web.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests;

/// <summary>Databases that many tests begin with, each made once by the program itself and then copied.</summary>
internal static class PreparedData
{
    public const string FileName = "commonground.db";
    private static readonly Lazy<Task<byte[]>> Demo = new(() => OpenedAsync(demo: true)), Group = new(() => OpenedAsync(demo: false));

    /// <summary>Puts the demo neighbourhood, or a real group that has nothing but the catalogue, into an empty data folder.</summary>
    public static async Task FillAsync(string folder, bool demo) =>
        await File.WriteAllBytesAsync(Path.Combine(folder, FileName), await (demo ? Demo : Group).Value);

    /// <summary>A whole SQLite database as the bytes of one file.</summary>
    public static async Task<byte[]> BytesAsync(StorageLocation location, TempFolder folder)
    {
        var whole = folder.File("whole.db");
        await using (var db = await StorageRegistration.Open(location).CreateDbContextAsync())
        {
            await db.Database.ExecuteSqlAsync($"VACUUM INTO {whole}");
        }

        return await File.ReadAllBytesAsync(whole);
    }

    private static async Task<byte[]> OpenedAsync(bool demo)
    {
        using var folder = new TempFolder();
        var location = StorageLocation.SqliteFile(folder.File(FileName));
        var options = new SiteOptions(folder.Path, demo, location, "Our neighbourhood", "America/Chicago");
        await SiteStartup.OpenAsync(options, TestClock.On(2026, 8, 19));
        var bytes = await BytesAsync(location, folder);
        SqliteConnection.ClearAllPools();
        return bytes;
    }
}
