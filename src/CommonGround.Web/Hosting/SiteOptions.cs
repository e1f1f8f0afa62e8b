using CommonGround.Storage;

namespace CommonGround.Web.Hosting;

/// <summary>Where the data is and what kind of neighbourhood a new folder gets.</summary>
/// <param name="DataFolder">Database, photos, logs.</param>
/// <param name="Demo">A new, empty folder gets the invented neighbourhood.</param>
/// <param name="Storage">Which database.</param>
/// <param name="GroupName">Name of a new real neighbourhood.</param>
/// <param name="TimeZone">IANA name; "today" is the group's.</param>
public sealed record SiteOptions(string DataFolder, bool Demo, StorageLocation Storage, string GroupName, string TimeZone)
{
    /// <summary>Which invented neighbourhood a new folder of the demo gets.</summary>
    public DemoGroup DemoGroup { get; init; } = DemoGroup.QuarryBend;

    /// <summary>How the site backs itself up.</summary>
    public Operations.BackupOptions Backup { get => field ?? Operations.BackupOptions.Default(DataFolder); init; }

    /// <summary>Where photos lie. Several processes of one site share it.</summary>
    public string PhotoFolder { get => field ?? Path.Combine(DataFolder, "photos"); init; }

    /// <summary>Where a file of a backup belongs: photos in their folder, all else in the data folder.</summary>
    /// <param name="name">Name within the archive, with slashes.</param>
    public string PlaceOf(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return Path.GetFullPath(name.StartsWith(PhotosPrefix, StringComparison.Ordinal)
            ? Path.Combine(PhotoFolder, name[PhotosPrefix.Length..]) : Path.Combine(DataFolder, name));
    }

    /// <summary>What names of photos begin with in a backup.</summary>
    public const string PhotosPrefix = "photos/";

    public static SiteOptions From(IConfiguration configuration, string contentRoot)
    {
        var folder = Path.GetFullPath(configuration["data"] ?? DefaultFolder(contentRoot));
        var provider = configuration["Database:Provider"] ?? "sqlite";
        var connection = configuration["Database:Connection"];
        if (provider is not ("sqlite" or "postgres"))
        {
            throw new DataFolderException($"Database:Provider '{provider}' is not known: use sqlite or postgres.");
        }

        var timeZone = configuration["Group:TimeZone"] ?? "America/Chicago";
        if (Features.Community.TimeZones.Fault(timeZone) is { } fault)
        {
            throw new DataFolderException($"Group:TimeZone: {fault}");
        }

        var storage = provider == "sqlite"
            ? StorageLocation.SqliteFile(Path.Combine(folder, "commonground.db"))
            : new StorageLocation(provider, connection
            ?? throw new InvalidOperationException("Database:Connection is missing: set it to the PostgreSQL connection string."));
        return new SiteOptions(folder, configuration["no-demo"] is not "true", storage, configuration["Group:Name"] ?? "Our neighbourhood",
            timeZone)
        {
            DemoGroup = DemoGroup.Find(configuration["demo"] ?? DemoGroup.QuarryBend.Folder)
                ?? throw new DataFolderException($"--demo {configuration["demo"]} is not known: use "
                + $"{string.Join(" or ", DemoGroup.All.Select(d => d.Folder))}."),
            Backup = Operations.BackupOptions.From(configuration, folder),
            PhotoFolder = Path.GetFullPath(configuration["Photos:Folder"] ?? Path.Combine(folder, "photos")),
        };
    }

    /// <summary>Beside the program; run from its source, outside of what is published and committed. A folder from before that holds a
    /// record stays in use.</summary>
    private static string DefaultFolder(string contentRoot)
    {
        var beside = Path.Combine(contentRoot, "data");
        return File.Exists(Path.Combine(contentRoot, "CommonGround.Web.csproj")) && !File.Exists(Path.Combine(beside, "commonground.db"))
            ? Path.Combine(contentRoot, "..", "..", ".data")
            : beside;
    }

    /// <summary>The CSV and GeoJSON files that travel with the program.</summary>
    public static string SeedFolder => Path.Combine(AppContext.BaseDirectory, "seed-data");
}
