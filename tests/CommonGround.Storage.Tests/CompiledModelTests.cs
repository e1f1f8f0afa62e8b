using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using CommonGround.Storage.Sqlite;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Design.Internal;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Scaffolding;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Storage.Tests;

/// <summary>SQLite's model is written down as code, so that a site starts faster. Written anew, it must come out the same.</summary>
[Collection(DatabaseTests.Name)]
public partial class CompiledModelTests(Databases databases)
{
    [Fact]
    public async Task The_model_written_down_is_the_model_in_use()
    {
        var database = databases.Bare("sqlite");
        await using var db = await database.CreateDbContextAsync();
#pragma warning disable EF1001 // The same way as the command takes; there is no public one.
        var services = new DesignTimeServicesBuilder(typeof(SqliteDb).Assembly, typeof(SqliteDb).Assembly, new OperationReporter(null), []).Build(db);
#pragma warning restore EF1001
        var written = Directory.CreateTempSubdirectory("commonground-model-");
        try
        {
            services.GetRequiredService<ICompiledModelScaffolder>().ScaffoldModel(db.GetService<IDesignTimeModel>().Model, written.FullName, new CompiledModelCodeGenerationOptions
            {
                ContextType = typeof(SqliteDb),
                ModelNamespace = "CommonGround.Storage.Sqlite.Model",
                Language = "C#",
                UseNullableReferenceTypes = true,
            });
            Texts(written.FullName).ShouldBe(Texts(Kept()), "Run the command 'write SQLite's model down' of DEVELOPERS.md.");
        }
        finally
        {
            written.Delete(recursive: true);
        }
    }

    private static SortedDictionary<string, string> Texts(string folder) =>
        new(Directory.GetFiles(folder, "*.cs").ToDictionary(f => Path.GetFileName(f), f => Identity().Replace(File.ReadAllText(f).ReplaceLineEndings("\n").Trim(), "")), StringComparer.Ordinal);

    /// <summary>Each writing gives the model a new number.</summary>
    [GeneratedRegex("modelId: new Guid\\(\"[0-9a-f-]+\"\\)")]
    private static partial Regex Identity();

    private static string Kept([CallerFilePath] string here = "") => Path.Combine(Path.GetDirectoryName(here)!, "../../src/CommonGround.Storage/Sqlite/Model");
}
