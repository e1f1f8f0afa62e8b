using System.Reflection;
using System.Runtime.CompilerServices;

namespace CommonGround.Web.Tests;

/// <summary>The house style's arrows, names, lengths and places, kept by a test so that nobody has to watch them.</summary>
public class ArchitectureTests
{
    private static readonly string[] BannedEndings = ["Service", "Manager", "Helper", "Utils", "Processor", "Dto", "Base"];
    private static readonly string Repository = TempFolder.Repository();

    // Beginnings of the assembly names each project may stand on besides the framework's own.
    private static readonly Dictionary<string, string[]> Arrows = new(StringComparer.Ordinal)
    {
        ["CommonGround.Ecology"] = [],
        ["CommonGround.Planning"] = ["CommonGround.Ecology", "Google.OrTools"],
        ["CommonGround.Interchange"] = ["CommonGround.Ecology", "CsvHelper", "DocumentFormat.OpenXml", "MiniExcel", "NetTopologySuite",
            "Microsoft.Data.Sqlite", "ProjNET", "SkiaSharp"],
        ["CommonGround.Drawings"] = ["CommonGround.Ecology"],
        ["CommonGround.Reports"] = ["CommonGround.Ecology", "CommonGround.Planning", "CommonGround.Drawings", "CommonGround.Assets",
            "PdfSharp", "QRCoder"],
        ["CommonGround.Assets"] = [],
        ["CommonGround.Walk"] = ["CommonGround.Ecology", "CommonGround.Interchange", "CommonGround.Drawings",
            "Microsoft.AspNetCore.Components", "Microsoft.Extensions", "Microsoft.JSInterop"],
        ["CommonGround.Storage"] = ["CommonGround.Ecology", "Microsoft.EntityFrameworkCore", "Microsoft.Extensions.DependencyInjection",
            "Microsoft.Extensions.Identity", "Microsoft.AspNetCore.Identity", "Microsoft.Data.Sqlite", "Npgsql",
                "Microsoft.AspNetCore.DataProtection", "DistributedLock"],
        ["CommonGround.Web"] =
        [
            "CommonGround.Ecology", "CommonGround.Planning", "CommonGround.Interchange", "CommonGround.Reports", "CommonGround.Drawings",
                "CommonGround.Assets", "CommonGround.Storage", "CommonGround.Walk",
            "Microsoft.EntityFrameworkCore", "Microsoft.Data.Sqlite", "Microsoft.AspNetCore", "Microsoft.Extensions",
                "Microsoft.JSInterop", "Microsoft.Net.Http.Headers", "MudBlazor", "QRCoder", "MailKit", "MimeKit", "OpenTelemetry",
                    "Otp.NET", "Serilog", "Spectre.Console", "System.CommandLine",
        ],
    };

    [Fact]
    public void No_arrow_points_where_the_house_style_has_none()
    {
        var built = Assemblies();
        built.Select(a => a.GetName().Name!).ShouldBe(Arrows.Keys, ignoreOrder: true);
        foreach (var assembly in built)
        {
            var name = assembly.GetName().Name!;
            var strange = assembly.GetReferencedAssemblies().Select(r => r.Name!).Where(r => !IsFramework(r)
                && !Arrows[name].Any(a => r == a || r.StartsWith(a + ".", StringComparison.Ordinal))).ToList();
            strange.ShouldBeEmpty($"{name} stands on {string.Join(", ", strange)}");
        }
    }

    [Fact]
    public void Every_project_of_src_is_watched_and_names_only_projects_it_may_stand_on()
    {
        foreach (var project in Directory.GetFiles(Path.Combine(Repository, "src"), "*.csproj", SearchOption.AllDirectories))
        {
            var name = Path.GetFileNameWithoutExtension(project);
            Arrows.ShouldContainKey(name);
            var named = File.ReadAllText(project).Split("ProjectReference Include=\"").Skip(1)
                .Select(rest => Path.GetFileNameWithoutExtension(rest.Split('"')[0].Replace('\\', '/')));
            named.Except(Arrows[name]).ShouldBeEmpty(name);
        }
    }

    [Fact]
    public void No_type_is_named_by_its_role()
    {
        var types = Assemblies().SelectMany(a => a.GetTypes()).Where(t => !t.IsDefined(typeof(CompilerGeneratedAttribute))
            && t.FullName!.StartsWith("CommonGround", StringComparison.Ordinal)).ToList();
        types.Count.ShouldBeGreaterThan(150);
        types.Select(t => t.Name.Split('`')[0]).Where(n => BannedEndings.Any(e => n.EndsWith(e, StringComparison.Ordinal))).ShouldBeEmpty();
    }

    [Theory]
    [InlineData("*.razor", 150)]
    [InlineData("*.cs", 300)]
    public void No_file_is_longer_than_two_screens_or_one_reason_to_open_it(string pattern, int most)
    {
        var files = SourceFiles(pattern).ToList();
        files.ShouldNotBeEmpty();
        files.Select(f => (File: Path.GetRelativePath(Repository, f), Lines: File.ReadLines(f).Count())).Where(f => f.Lines > most)
            .ShouldBeEmpty();
    }

    [Fact]
    public void Pages_and_components_never_open_the_database()
    {
        foreach (var file in SourceFiles("*.razor"))
        {
            var text = File.ReadAllText(file);
            text.ShouldNotContain("IDbContextFactory", Case.Sensitive, file);
            text.ShouldNotContain("CommonGroundDb", Case.Sensitive, file);
        }
    }

    /// <summary>Looks through the instructions of the assembly, so no wording of a source file hides a call.</summary>
    [Fact]
    public void Only_the_door_of_Storage_saves()
    {
        string[] saving = ["SaveAsync", "SaveInBulkAsync", "SaveChanges", "SaveChangesAsync", "BeginTransaction", "BeginTransactionAsync"];
        using var stream = File.OpenRead(typeof(Web.Access.AccessTable).Assembly.Location);
        using var assembly = new System.Reflection.PortableExecutable.PEReader(stream);
        var metadata = System.Reflection.Metadata.PEReaderExtensions.GetMetadataReader(assembly);
        var called = metadata.MemberReferences.Select(metadata.GetMemberReference).Where(m => saving.Contains(metadata.GetString(m.Name)))
            .Select(m => $"{Of(metadata, m.Parent)}.{metadata.GetString(m.Name)}").ToList();
        called.Where(c => c.StartsWith("CommonGround.Storage.", StringComparison.Ordinal)
            || c.StartsWith("Microsoft.EntityFrameworkCore.", StringComparison.Ordinal)).ShouldBeEmpty();
        // The look itself works: the door's own calls are found in Storage.
        metadata.MemberReferences.Select(metadata.GetMemberReference).Select(m => $"{Of(metadata, m.Parent)}.{metadata.GetString(m.Name)}")
            .ShouldContain("CommonGround.Storage.Saving.Door.WriteAsync");
    }

    private static string Of(System.Reflection.Metadata.MetadataReader metadata, System.Reflection.Metadata.EntityHandle parent) =>
        parent.Kind == System.Reflection.Metadata.HandleKind.TypeReference
        && metadata.GetTypeReference((System.Reflection.Metadata.TypeReferenceHandle)parent) is var type
        ? $"{metadata.GetString(type.Namespace)}.{metadata.GetString(type.Name)}" : "";

    [Fact]
    public void Nothing_is_left_for_later_and_no_test_is_skipped()
    {
        // Written in parts, or this file would find itself.
        string[] marks = ["TO" + "DO:", "FIX" + "ME", "NotImplemented" + "Exception", "Skip" + " = \""];
        SourceFiles("*.cs").Concat(SourceFiles("*.razor")).Where(f => marks.Any(File.ReadAllText(f).Contains)).ShouldBeEmpty();
    }

    [Fact]
    public void The_top_of_the_repository_holds_only_what_the_house_style_names()
    {
        string[] shown = ["README.md", "DEVELOPERS.md", "CommonGround.sln", "src", "tests", "deploy", "seed-data", "shared", "docs"];
        var there = Directory.GetFileSystemEntries(Repository).Select(Path.GetFileName).Where(n => !n!.StartsWith('.')).ToList();
        there.Except(shown).ShouldBeEmpty();
        new[] { "CommonGround.sln", "src", "tests", "seed-data", "shared", "docs" }.Except(there).ShouldBeEmpty();
    }

    // System.CommandLine comes as a package.
    private static bool IsFramework(string name) => name.StartsWith("System.", StringComparison.Ordinal) && name != "System.CommandLine";

    private static IReadOnlyList<Assembly> Assemblies() =>
        [.. Directory.GetFiles(AppContext.BaseDirectory, "CommonGround.*.dll")
            .Where(f => !f.EndsWith(".Tests.dll", StringComparison.Ordinal))
            .Select(f => Assembly.Load(Path.GetFileNameWithoutExtension(f)))];

    private static IEnumerable<string> SourceFiles(string pattern) => new[] { "src", "tests", "seed-data" }
        .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Repository, folder), pattern, SearchOption.AllDirectories))
        .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj" or "Migrations" or "node_modules"));
}
