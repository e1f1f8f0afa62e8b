using CommonGround.Storage;

namespace CommonGround.Web.Commands;

/// <summary>Where the data is and what kind of neighbourhood a new folder gets.</summary>
/// <param name="DataFolder">Database, photos, keys, logs.</param>
/// <param name="Demo">A new, empty folder gets the invented neighbourhood.</param>
/// <param name="Storage">Which database.</param>
/// <param name="GroupName">Name of a new real neighbourhood.</param>
/// <param name="TimeZone">IANA name; "today" is the group's.</param>
public sealed record SiteOptions(string DataFolder, bool Demo, StorageLocation Storage, string GroupName, string TimeZone)
{
    /// <summary>How the site backs itself up.</summary>
    public Care.BackupOptions Backup { get => field ?? Care.BackupOptions.Default(DataFolder); init; }

    public static SiteOptions From(IConfiguration configuration, string contentRoot)
    {
        var folder = Path.GetFullPath(configuration["data"] ?? Path.Combine(contentRoot, "data"));
        var provider = configuration["Database:Provider"] ?? "sqlite";
        var connection = configuration["Database:Connection"];
        if (provider is not ("sqlite" or "postgres"))
        {
            throw new DataFolderException($"Database:Provider '{provider}' is not known: use sqlite or postgres.");
        }

        var timeZone = configuration["Group:TimeZone"] ?? "America/Chicago";
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out _))
        {
            throw new DataFolderException($"Group:TimeZone '{timeZone}' is not known: use an IANA name such as America/Chicago.");
        }

        var storage = provider == "sqlite"
            ? StorageLocation.SqliteFile(Path.Combine(folder, "commonground.db"))
            : new StorageLocation(provider, connection ?? throw new InvalidOperationException("Database:Connection is missing: set it to the PostgreSQL connection string."));
        return new SiteOptions(folder, configuration["no-demo"] is not "true", storage, configuration["Group:Name"] ?? "Our neighbourhood", timeZone) { Backup = Care.BackupOptions.From(configuration, folder) };
    }

    /// <summary>The CSV and GeoJSON files that travel with the program.</summary>
    public static string SeedFolder => Path.Combine(AppContext.BaseDirectory, "seed-data");
}
