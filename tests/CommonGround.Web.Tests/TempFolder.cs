namespace CommonGround.Web.Tests;

/// <summary>A folder of the test's own, gone afterwards.</summary>
public sealed class TempFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("commonground-web-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public string Write(string name, string text)
    {
        System.IO.File.WriteAllText(File(name), text);
        return File(name);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);

    /// <summary>The folder that holds CommonGround.sln, found by walking up.</summary>
    public static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !System.IO.File.Exists(System.IO.Path.Combine(folder.FullName, "CommonGround.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("CommonGround.sln is above none of the folders.");
    }
}
