using System.IO.Compression;
using System.Text.Json;
using CommonGround.Storage;
using CommonGround.Web.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Logging;

namespace CommonGround.Web.Tests.Operations;

/// <summary>The site backs itself up.</summary>
public sealed class BackupScheduleTests : IDisposable
{
    private readonly TempFolder data = new();
    private readonly TestClock time = TestClock.On(2026, 8, 19);
    private readonly Lines lines = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        data.Dispose();
    }

    [Fact]
    public async Task A_backup_is_made_when_one_is_due_and_not_before()
    {
        using var schedule = await LaidAsync();
        (await schedule.TurnAsync(default)).ShouldBeTrue();
        Archives().ShouldBe(["commonground-20260819T120000Z.zip"]);
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        time.Now = time.Now.AddHours(23);
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        time.Now = time.Now.AddHours(1);
        (await schedule.TurnAsync(default)).ShouldBeTrue();
        Archives().Count.ShouldBe(2);
        lines.Written.Count(l => l.StartsWith("Information: Backup commonground-20260", StringComparison.Ordinal)
            && l.Contains("made and read back")).ShouldBe(2);
        // A site that starts anew looks at what is there.
        using var restarted = new BackupSchedule(Options(), time, lines);
        (await restarted.TurnAsync(default)).ShouldBeFalse();
    }

    [Fact]
    public async Task The_archive_says_what_made_it_when_and_of_what_and_only_its_owner_may_read_it()
    {
        using var schedule = await LaidAsync();
        Directory.CreateDirectory(data.File("photos"));
        data.Write("photos/key.xml", "<key/>");
        (await schedule.TurnAsync(default)).ShouldBeTrue();
        var path = Path.Combine(data.File("backups"), Archives()[0]);
        await using (var zip = await ZipFile.OpenReadAsync(path))
        {
            await using var list = await zip.GetEntry("contents.json")!.OpenAsync();
            using var contents = await JsonDocument.ParseAsync(list);
            contents.RootElement.GetProperty("program").GetString().ShouldBe(ProgramVersion.Text);
            contents.RootElement.GetProperty("database").GetString().ShouldBe("SQLite");
            contents.RootElement.GetProperty("schema").GetString()
                .ShouldBe(await CommonGround.Storage.Operations.DatabaseCopy.Of(Options().Storage).SchemaAsync(default));
            contents.RootElement.GetProperty("moment").GetDateTimeOffset().ShouldBe(time.Now);
            // SHA-256 of "<key/>", by sha256sum.
            contents.RootElement.GetProperty("files").GetProperty("photos/key.xml").GetString()
                .ShouldBe(Convert.ToHexString(System.Security.Cryptography.SHA256.HashData("<key/>"u8)));
            zip.Entries.Select(e => e.FullName).ShouldBe(["commonground.db", "photos/key.xml", "contents.json"]);
        }

        if (!OperatingSystem.IsWindows())
        {
            File.GetUnixFileMode(path).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    [Fact]
    public async Task Old_ones_go_only_after_a_good_new_one()
    {
        using var schedule = await LaidAsync("1d");
        (await schedule.TurnAsync(default)).ShouldBeTrue();
        data.Write("backups/of my own.zip", "not the site's");
        await BreakAsync();
        time.Now = time.Now.AddDays(1);
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        Archives().ShouldBe(["commonground-20260819T120000Z.zip"]);
        await MendAsync();
        time.Now = time.Now.AddHours(1);
        (await schedule.TurnAsync(default)).ShouldBeTrue();
        Archives().ShouldBe(["commonground-20260820T130000Z.zip"]);
        File.Exists(data.File("backups/of my own.zip")).ShouldBeTrue();
    }

    [Fact]
    public async Task A_failure_is_logged_leaves_nothing_behind_and_is_tried_again_after_an_hour()
    {
        using var schedule = await LaidAsync();
        await BreakAsync();
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        lines.Written.Single().ShouldStartWith("Error: The backup failed");
        Directory.GetFileSystemEntries(data.File("backups")).ShouldBeEmpty();
        await MendAsync();
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        time.Now = time.Now.AddHours(1);
        (await schedule.TurnAsync(default)).ShouldBeTrue();
    }

    [Fact]
    public async Task A_folder_that_cannot_be_written_does_not_throw()
    {
        using var schedule = await LaidAsync();
        data.Write("backups", "a file where the folder should be");
        (await schedule.TurnAsync(default)).ShouldBeFalse();
        lines.Written.Single().ShouldStartWith("Error: The backup failed");
    }

    [Fact]
    public async Task A_damaged_database_makes_no_backup_that_looks_good()
    {
        using var schedule = await LaidAsync();
        SqliteConnection.ClearAllPools();
        var file = data.File("commonground.db");
        await using (var stream = File.Open(file, FileMode.Open))
        {
            // Pages from the middle on, wiped: the header stays, so that the copy itself works.
            stream.Position = stream.Length / 2 / 4096 * 4096;
            stream.Write(Enumerable.Repeat((byte)0xA5, 8 * 4096).ToArray());
        }

        (await schedule.TurnAsync(default)).ShouldBeFalse();
        lines.Thrown.Single().ShouldContain("is not sound");
        Archives().ShouldBeEmpty();
    }

    [Theory]
    [InlineData("24", 24.0)]
    [InlineData("0.5", 0.5)]
    [InlineData("0", null)]
    public void The_schedule_is_set_in_hours(string written, double? hours) =>
        Settings(("Backup:Every", written)).Every.ShouldBe(hours is { } h ? TimeSpan.FromHours(h) : null);

    [Theory]
    [InlineData("Backup:Every", "daily", "give hours")]
    [InlineData("Backup:Every", "-1", "give hours")]
    [InlineData("Backup:Every", "99999", "give hours")]
    [InlineData("Backup:Folder", "/data/photos/backups", "lies among what is backed up")]
    [InlineData("Backup:Folder", "/data", "lies among what is backed up")]
    public void A_setting_with_a_slip_is_refused_with_how_to_write_it(string key, string value, string said) =>
        Should.Throw<DataFolderException>(() => Settings((key, value))).Message.ShouldContain(said);

    private static BackupOptions Settings(params (string Key, string Value)[] set) =>
        BackupOptions.From(new ConfigurationBuilder().AddInMemoryCollection(set.ToDictionary(s => s.Key, s => (string?)s.Value,
            StringComparer.Ordinal)).Build(), "/data");

    private SiteOptions Options(string? keep = null) => new(data.Path, false, StorageLocation.SqliteFile(data.File("commonground.db")),
        "Our group", "America/Chicago")
    {
        Backup = BackupOptions.Default(data.Path) with { Keep = BackupRetention.Parse(keep) },
    };

    private async Task<BackupSchedule> LaidAsync(string? keep = null)
    {
        await SiteStartup.OpenAsync(Options(), time);
        return new BackupSchedule(Options(keep), time, lines);
    }

    // A lasting lock of another kind than any of ours would do too; a file that is no database is the plainest trouble.
    private async Task BreakAsync()
    {
        await using (var connection = new SqliteConnection($"Data Source={data.File("commonground.db")};Pooling=False"))
        {
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA wal_checkpoint(TRUNCATE)";
            await command.ExecuteNonQueryAsync();
        }

        SqliteConnection.ClearAllPools();
        File.Move(data.File("commonground.db"), data.File("aside"));
        data.Write("commonground.db", new string('x', 8192));
    }

    private Task MendAsync()
    {
        SqliteConnection.ClearAllPools();
        File.Move(data.File("aside"), data.File("commonground.db"), overwrite: true);
        return Task.CompletedTask;
    }

    private List<string> Archives() => [.. Directory.EnumerateFiles(data.File("backups"), "commonground-*").Select(f => Path.GetFileName(f))
        .Order(StringComparer.Ordinal)];

    /// <summary>Keeps what is logged.</summary>
    private sealed class Lines : ILogger<BackupSchedule>
    {
        public List<string> Written { get; } = [];

        public List<string> Thrown { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception,
            Func<TState, Exception?, string> formatter)
        {
            Written.Add($"{logLevel}: {formatter(state, exception)}");
            if (exception is not null)
            {
                Thrown.Add(exception.Message);
            }
        }
    }
}
