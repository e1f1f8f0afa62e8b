using CommonGround.Storage;
using CommonGround.Web.Hosting;
using CommonGround.Web.Tests.Access;
using CommonGround.Web.Tests.Commands;
using Microsoft.Data.Sqlite;

namespace CommonGround.Web.Tests.Operations;

/// <summary>What stands in the way of a start is said in one sentence, with the way back and no way through the program.</summary>
public sealed class StartTests : IDisposable
{
    private readonly TempFolder folder = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        folder.Dispose();
    }

    [Fact]
    public async Task A_database_of_zero_bytes_is_not_taken_for_a_new_one()
    {
        await File.WriteAllTextAsync(folder.File("commonground.db"), "");
        Directory.CreateDirectory(folder.File("backups"));
        await File.WriteAllTextAsync(folder.File("backups/commonground-20260819T020000Z.zip"), "an archive");
        var said = await RefusedAsync();
        said.ShouldStartWith($"The database {folder.File("commonground.db")} has zero bytes");
        said.ShouldContain($"run 'restore {folder.File("backups/commonground-20260819T020000Z.zip")} --data NEWFOLDER'");
        new FileInfo(folder.File("commonground.db")).Length.ShouldBe(0);
    }

    [Fact]
    public async Task A_damaged_database_is_named_and_left_as_it_is()
    {
        var noise = new byte[20_000];
        new Random(11).NextBytes(noise);
        await File.WriteAllBytesAsync(folder.File("commonground.db"), noise);
        var said = await RefusedAsync();
        said.ShouldStartWith($"The database {folder.File("commonground.db")} is damaged or is no database.");
        said.ShouldContain("restore ARCHIVE --data NEWFOLDER");
        (await File.ReadAllBytesAsync(folder.File("commonground.db"))).ShouldBe(noise);
    }

    // https://www.sqlite.org/fileformat2.html, 1.3.1: with a write version above 2 in byte 18 a file is to be treated as read-only.
    [Fact]
    public async Task A_database_that_may_only_be_read_is_named_with_the_right_that_is_missing()
    {
        await SiteStartup.OpenAsync(new SiteOptions(folder.Path, false, StorageLocation.SqliteFile(folder.File("commonground.db")),
            "Our group", "America/Chicago"), TimeProvider.System);
        SqliteConnection.ClearAllPools();
        using (var file = File.OpenWrite(folder.File("commonground.db")))
        {
            file.Seek(18, SeekOrigin.Begin);
            file.WriteByte(3);
        }

        (await RefusedAsync("--no-demo")).ShouldStartWith($"The database {folder.File("commonground.db")} may only be read. Give the user");
    }

    [Theory]
    [InlineData("photos/a1.jpg", "photos (1 in ")]
    [InlineData("backups/commonground-20260819T020000Z.zip", "backups (1 in ")]
    [InlineData("outbox/letter.eml", "letters (1 in ")]
    [InlineData("keys/key-1.xml", "keys (1 in ")]
    public async Task The_demo_never_opens_where_a_group_was_kept(string file, string said)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(folder.File(file))!);
        await File.WriteAllTextAsync(folder.File(file), "what somebody left");
        (await RefusedAsync()).ShouldContain(said);
        File.Exists(folder.File("commonground.db")).ShouldBeFalse();
    }

    [Fact]
    public async Task A_second_server_on_one_folder_says_so_and_stops_while_commands_beside_it_work()
    {
        await using var site = await SetSite.StartAsync();
        (await new Terminal(site.Data).RefuseAsync("--urls",
            "http://127.0.0.1:0")).ShouldStartWith($"Another process serves the data folder {site.Data} already.");
        (await new Terminal(site.Data).RunAsync("check")).Code.ShouldBe(0);
        (await site.Browser().GetAsync("/sign-in")).StatusCode.ShouldBe(System.Net.HttpStatusCode.OK);
    }

    [Fact]
    public async Task Whatever_the_site_writes_is_its_users_alone()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // There a folder's own rights decide.
        }

        await using var site = new SetSite { FromNothing = true };
        await site.InitializeAsync();
        using var who = await site.JoinAsync(CommonGround.Storage.Members.Role.Member);
        await Outbox.LetterAsync(site, who.Email, "Confirm your e-mail address");
        var entries = Directory.EnumerateFileSystemEntries(site.Data, "*", SearchOption.AllDirectories).ToList();
        entries.ShouldContain(e => e.EndsWith(".eml", StringComparison.Ordinal));
        entries.ShouldContain(e => e.EndsWith("commonground.db", StringComparison.Ordinal));
        const UnixFileMode Others = (UnixFileMode)0b000_111_111;
        foreach (var entry in entries)
        {
            (File.GetUnixFileMode(entry) & Others).ShouldBe(UnixFileMode.None, entry);
        }
    }

    private async Task<string> RefusedAsync(params string[] more)
    {
        var answer = await new Terminal(folder.Path).RunAsync(["--urls", "http://127.0.0.1:0", .. more]);
        answer.Code.ShouldNotBe(0, answer.Output);
        answer.Error.TrimEnd('\n').ShouldNotContain('\n');
        (answer.Output + answer.Error).ShouldNotContain("   at ");
        return answer.Error.Trim();
    }
}
