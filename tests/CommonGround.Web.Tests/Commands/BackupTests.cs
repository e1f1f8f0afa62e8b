using System.IO.Compression;
using System.Security.Cryptography;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Commands;

public sealed class BackupTests : IDisposable
{
    private readonly TempFolder files = new();
    private readonly TempFolder data = new();
    private readonly TempFolder empty = new();

    private Terminal Terminal => new(data.Path);

    private Terminal Elsewhere => new(empty.Path);

    private string Archive => files.File("backup.zip");

    public void Dispose()
    {
        files.Dispose();
        data.Dispose();
        empty.Dispose();
    }

    [Fact]
    public async Task A_backup_restored_into_an_empty_folder_gives_the_same_measures_and_files()
    {
        var measures = await LaidAsync();
        (await Terminal.DoAsync("backup", Archive)).ShouldStartWith("Backed up 2 files");
        (await Elsewhere.DoAsync("restore", Archive)).ShouldStartWith("Restored 2 files");
        (await Elsewhere.DoAsync("measures", "--by", "yard")).ShouldBe(measures);
        (await File.ReadAllTextAsync(empty.File("photos/2026/yard.jpg"))).ShouldBe("a picture");
        Directory.Exists(empty.File("logs")).ShouldBeFalse();
        (await Elsewhere.DoAsync("check")).ShouldStartWith("All is well");
    }

    [Fact]
    public async Task A_backup_of_the_first_versions_which_lists_nothing_but_checksums_is_restored_too()
    {
        var measures = await LaidAsync();
        await Terminal.DoAsync("backup", Archive);
        await using (var zip = await ZipFile.OpenAsync(Archive, ZipArchiveMode.Update))
        {
            var list = zip.GetEntry("contents.json")!;
            string sums;
            await using (var stream = await list.OpenAsync())
            {
                using var contents = await System.Text.Json.JsonDocument.ParseAsync(stream);
                sums = contents.RootElement.GetProperty("files").GetRawText();
            }

            list.Delete();
            await using var writer = new StreamWriter(await zip.CreateEntry("contents.json").OpenAsync());
            await writer.WriteAsync(sums);
        }

        (await Elsewhere.DoAsync("restore", Archive)).ShouldStartWith("Restored 2 files");
        (await Elsewhere.DoAsync("check")).ShouldStartWith("All is well");
        (await Elsewhere.DoAsync("measures", "--by", "yard")).ShouldBe(measures);
        Directory.GetFiles(empty.Path).Select(Path.GetFileName).ShouldNotContain(f => f!.Contains(".part"));
    }

    [Fact]
    public async Task A_restore_over_data_is_refused_and_the_data_stay()
    {
        var measures = await LaidAsync();
        await Terminal.DoAsync("backup", Archive);
        (await Terminal.RefuseAsync("restore", Archive)).ShouldContain("already holds a database");
        (await Terminal.DoAsync("measures", "--by", "yard")).ShouldBe(measures);
    }

    [Fact]
    public async Task A_damaged_archive_is_refused_wherever_the_damage_is_and_nothing_is_restored()
    {
        await LaidAsync();
        await Terminal.DoAsync("backup", Archive);
        var whole = await File.ReadAllBytesAsync(Archive);
        // Flipped bytes within the packed database, a missing end, a file that is no archive, an empty file.
        byte[] Flipped(int at) => [.. whole[..at], (byte)(whole[at] ^ 0xff), .. whole[(at + 1)..]];
        foreach (var damaged in new[] { Flipped(100), Flipped(whole.Length / 3), Flipped(whole.Length / 2), whole[..(whole.Length / 2)],
            "no archive"u8.ToArray(), [] })
        {
            await File.WriteAllBytesAsync(Archive, damaged);
            (await Elsewhere.RefuseAsync("restore", Archive)).ShouldContain("backup.zip");
            Directory.GetFileSystemEntries(empty.Path).ShouldBeEmpty();
        }
    }

    [Theory]
    [InlineData("contents.json", "{ \"commonground.db\": \"00\" }", "incomplete")]
    [InlineData("contents.json", "no json", "contents.json")]
    [InlineData("contents.json", "{}", "no database")]
    [InlineData("something.txt", "else", "contents.json")]
    public async Task An_archive_of_something_else_is_refused(string name, string text, string said)
    {
        await WriteArchiveAsync((name, text));
        (await Elsewhere.RefuseAsync("restore", Archive)).ShouldContain(said);
        Directory.GetFileSystemEntries(empty.Path).ShouldBeEmpty();
    }

    [Fact]
    public async Task An_archive_that_reaches_out_of_the_folder_is_refused_before_anything_is_written()
    {
        static string Sum(string text) =>
            Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(text)));
        await WriteArchiveAsync(("commonground.db", "data"), ("../outside.txt", "evil"),
            ("contents.json", $$"""{ "commonground.db": "{{Sum("data")}}", "../outside.txt": "{{Sum("evil")}}" }"""));
        (await Elsewhere.RefuseAsync("restore", Archive)).ShouldContain("outside the data folder");
        Directory.GetFileSystemEntries(empty.Path).ShouldBeEmpty();
        File.Exists(Path.Combine(empty.Path, "..", "outside.txt")).ShouldBeFalse();
    }

    [Fact]
    public async Task Without_a_database_there_is_nothing_to_back_up_and_without_an_archive_nothing_to_restore()
    {
        (await Terminal.RefuseAsync("backup", Archive)).ShouldContain("nothing to back up");
        File.Exists(Archive).ShouldBeFalse();
        (await Terminal.RefuseAsync("restore", files.File("none.zip"))).ShouldContain("none.zip");
    }

    private async Task<string> LaidAsync()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        await Terminal.DoAsync("import", "--no-demo", files.Write("places.csv",
            "street,block,yard,latitude,longitude,yard_m2\nNorth,A to B,N-1,41.5,-88.5,100\n"),
            files.Write("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\n"));
        Directory.CreateDirectory(data.File("photos/2026"));
        Directory.CreateDirectory(data.File("logs"));
        data.Write("photos/2026/yard.jpg", "a picture");
        await using (var db = await StorageRegistration.Open(StorageLocation.SqliteFile(data.File("commonground.db"))).In(1)
            .CreateDbContextAsync())
        {
            db.Photos.Add(new Photo
            {
                NeighbourhoodId = 1,
                YardId = (await db.Yards.SingleAsync()).Id,
                FileName = "2026/yard.jpg",
                Sha256 = Convert.ToHexString(SHA256.HashData("a picture"u8))
            });
            await db.SaveAsync(ChangeNote.OfProgram(1, "a test"));
        }

        return await Terminal.DoAsync("measures", "--by", "yard");
    }

    private async Task WriteArchiveAsync(params (string Name, string Text)[] entries)
    {
        await using var zip = await ZipFile.OpenAsync(Archive, ZipArchiveMode.Create);
        foreach (var (name, text) in entries)
        {
            await using var writer = new StreamWriter(await zip.CreateEntry(name).OpenAsync());
            await writer.WriteAsync(text);
        }
    }
}
