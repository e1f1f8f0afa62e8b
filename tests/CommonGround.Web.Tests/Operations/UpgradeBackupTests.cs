using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Storage.Sqlite.Migrations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Operations;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;

namespace CommonGround.Web.Tests.Operations;

/// <summary>A program one schema later than the first meets a database of the first, and writes a backup before it changes
/// anything.</summary>
public sealed class UpgradeBackupTests : IDisposable
{
    private const string First = "20261126000000_Initial", Second = "20991231000000_Later";
    private readonly TempFolder data = new();
    private readonly TempFolder empty = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        data.Dispose();
        empty.Dispose();
    }

    [Fact]
    public async Task The_upgrade_writes_one_backup_first_and_that_can_be_restored()
    {
        var options = await LaidAsync();
        await UpgradeAsync(options, TestClock.On(2026, 8, 19));
        (await DatabaseCopy.Of(options.Storage).SchemaAsync(default)).ShouldBe(Second);
        var backup = Directory.GetFiles(data.File("backups")).ShouldHaveSingleItem();
        Path.GetFileName(backup).ShouldBe($"before-upgrade-{First}-2026-08-19T120000Z.zip");
        await UpgradeAsync(options, TestClock.On(2026, 8, 20));
        Directory.GetFiles(data.File("backups")).Length.ShouldBe(1);
        var there = Options(empty);
        await RestoreArchive.ReadAsync(there, backup, default);
        (await DatabaseCopy.Of(there.Storage).SchemaAsync(default)).ShouldBe(First);
    }

    [Fact]
    public async Task Where_the_backup_before_an_upgrade_fails_nothing_is_changed()
    {
        var options = await LaidAsync();
        data.Write("backups", "a file where the folder should be");
        (await Should.ThrowAsync<DataFolderException>(() => UpgradeAsync(options, TimeProvider.System))).Message
            .ShouldContain("Nothing was changed.");
        (await DatabaseCopy.Of(options.Storage).SchemaAsync(default)).ShouldBe(First);
        await UpgradeAsync(options with { Backup = options.Backup with { UpgradeBackup = false } }, TimeProvider.System);
        (await DatabaseCopy.Of(options.Storage).SchemaAsync(default)).ShouldBe(Second);
    }

    private async Task<SiteOptions> LaidAsync()
    {
        await using var db = LaterDb.Open(Options(data));
        await db.Database.MigrateAsync(First);
        return Options(data);
    }

    private static async Task UpgradeAsync(SiteOptions options, TimeProvider time)
    {
        await using var db = LaterDb.Open(options);
        await SiteStartup.MigrateAsync(db, schema => UpgradeBackup.WriteAsync(options, schema, time, default), default);
    }

    private static SiteOptions Options(TempFolder folder) =>
        new(folder.Path, true, StorageLocation.SqliteFile(folder.File("commonground.db")), "", "America/Chicago");

    /// <summary>The program of a later version, which knows one change of the schema more than the first.</summary>
    private sealed class LaterDb(DbContextOptions<LaterDb> options) : CommonGroundDb(options)
    {
        public static LaterDb Open(SiteOptions options) => new(new DbContextOptionsBuilder<LaterDb>()
            .UseSqlite(options.Storage.ConnectionString, sqlite => sqlite.MigrationsAssembly(typeof(LaterDb).Assembly.FullName))
            .ConfigureWarnings(w =>
            w.Ignore(Microsoft.EntityFrameworkCore.Diagnostics.RelationalEventId.PendingModelChangesWarning)).Options);

        public override Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default) =>
            Database.BeginTransactionAsync(cancel);
    }

    [DbContext(typeof(LaterDb))]
    [Migration(First)]
    private sealed class FirstSchema : Initial;

    [DbContext(typeof(LaterDb))]
    [Migration(Second)]
    private sealed class SecondSchema : Migration
    {
        protected override void Up(MigrationBuilder migrationBuilder) => migrationBuilder.AddColumn<string>("Story", "Yards",
            nullable: true);
    }
}
