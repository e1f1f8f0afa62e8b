namespace CommonGround.Planning.Tests.Conversion;

internal static class Repository
{
    /// <summary>The folder that holds CommonGround.sln, found by walking up.</summary>
    public static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CommonGround.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("CommonGround.sln is above none of the folders.");
    }
}
