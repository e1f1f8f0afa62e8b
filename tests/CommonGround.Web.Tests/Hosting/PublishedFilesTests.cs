using System.Diagnostics;
using System.Text.Json;
using Microsoft.Extensions.FileSystemGlobbing;

namespace CommonGround.Web.Tests.Hosting;

/// <summary>Nothing of a data folder is published or goes into a container.</summary>
public sealed class PublishedFilesTests
{
    private static readonly string[] Private =
    [
        "data/commonground.db", "data/commonground.db-wal", "data/photos/a.jpg", "data/outbox/letter.eml",
            "data/logs/commonground-20260819.json",
        "data/backups/commonground-20260819T020000Z.zip", "data/keys/key-1.xml", "data/appsettings.json",
    ];

    [Fact]
    public async Task Published_is_the_program_and_nothing_of_the_data_folder_that_lies_in_it()
    {
        // A copy of the project file among such files, as a folder from before would lie there.
        using var copy = new TempFolder();
        var project = copy.File("src/CommonGround.Web/CommonGround.Web.csproj");
        Directory.CreateDirectory(Path.GetDirectoryName(project)!);
        File.Copy(Path.Combine(TempFolder.Repository(), "src/CommonGround.Web/CommonGround.Web.csproj"), project);
        foreach (var name in new[] { "Directory.Build.props", "Directory.Build.targets", "Directory.Packages.props" })
        {
            File.Copy(Path.Combine(TempFolder.Repository(), "src", name), copy.File("src/" + name));
        }

        foreach (var file in Private.Append("appsettings.json").Append("wwwroot/site.css"))
        {
            var path = Path.Combine(Path.GetDirectoryName(project)!, file);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            await File.WriteAllTextAsync(path, "{}");
        }

        var start = new ProcessStartInfo("dotnet", ["msbuild", project,
            "-getItem:Content,None,EmbeddedResource"])
        { RedirectStandardOutput = true, UseShellExecute = false };
        using var msbuild = Process.Start(start)!;
        var output = await msbuild.StandardOutput.ReadToEndAsync();
        await msbuild.WaitForExitAsync();
        msbuild.ExitCode.ShouldBe(0, output);
        using var items = JsonDocument.Parse(output);
        var files = items.RootElement.GetProperty("Items").EnumerateObject().SelectMany(k => k.Value.EnumerateArray())
            .Select(i => i.GetProperty("Identity").GetString()!).ToList();
        files.ShouldContain("appsettings.json", "the program's own settings are published, so the evaluation found what lies there");
        files.ShouldContain("wwwroot/site.css");
        files.Where(f => f.Contains("data/", StringComparison.Ordinal) && !f.Contains("seed-data/", StringComparison.Ordinal))
            .ShouldBeEmpty();
    }

    [Fact]
    public void The_containers_build_sees_nothing_of_a_data_folder_and_all_of_the_source()
    {
        // Docker's patterns: from the root, ** for any folders, and a folder stands for what is in it.
        var ignored = new Matcher(StringComparison.Ordinal);
        foreach (var line in File.ReadLines(Path.Combine(TempFolder.Repository(), ".dockerignore")).Where(l => l.Length > 0
            && !l.StartsWith('#')))
        {
            ignored.AddInclude(line);
            ignored.AddInclude(line + "/**");
        }

        bool Is(string file) => ignored.Match(file).HasMatches;
        Private.Where(f => !Is("src/CommonGround.Web/" + f)).ShouldBeEmpty();
        Private.Where(f => !Is(f)).ShouldBeEmpty();
        Private.Where(f => !Is("." + f)).ShouldBeEmpty();
        Is(".git/config").ShouldBeTrue();
        Is("elsewhere/outbox/letter.eml").ShouldBeTrue();
        foreach (var needed in new[] { "src/CommonGround.Web/Program.cs", "src/CommonGround.Web/packages.lock.json",
            "src/CommonGround.Web/Features/Photos/PhotoFolder.cs", "seed-data/plants.csv", "seed-data/quarry-bend/places.csv",
                "docs/licences.md", "src/CommonGround.Assets/package-lock.json" })
        {
            File.Exists(Path.Combine(TempFolder.Repository(), needed)).ShouldBeTrue(needed);
            Is(needed).ShouldBeFalse(needed);
        }
    }

    [Theory]
    [InlineData("Dockerfile", "no-demo=true")]
    [InlineData("compose.sqlite.yaml", "no-demo: \"true\"")]
    [InlineData("compose.postgres.yaml", "no-demo: \"true\"")]
    [InlineData("commonground.service", "--no-demo")]
    public void A_site_that_is_put_up_for_a_group_starts_without_the_demo(string file, string says) =>
        File.ReadAllText(Path.Combine(TempFolder.Repository(), "deploy", file)).ShouldContain(says);
}
