using System.Globalization;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Benchmarks;

/// <summary>The city in a real database of the program: its own migrations, then plain inserts in one transaction.</summary>
internal sealed class CityDatabase : IDisposable
{
    private static readonly Lazy<CityDatabase> Made = new(() => new CityDatabase());

    private CityDatabase()
    {
        Folder = Directory.CreateTempSubdirectory("commonground-city-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Dispose();
        var location = StorageLocation.SqliteFile(Path.Combine(Folder, "commonground.db"));
        ConnectionString = location.ConnectionString;
        Factory = StorageRegistration.Open(location).In(1);
        var city = City.Build();
        using var db = Factory.CreateDbContext();
        SiteStartup.MigrateAsync(db, null, default).GetAwaiter().GetResult();
        db.Neighbourhoods.Add(new Neighbourhood
        {
            Id = 1,
            Name = "Invented city",
            TimeZone = "America/Chicago",
            IsDemo = true,
            DemoToday = City.Today
        });
        db.Taxa.AddRange(city.Taxa.Select((t, i) => new Taxon
        {
            NeighbourhoodId = 1,
            Id = i + 1,
            ScientificName = t.ScientificName,
            Traits = t
        }));
        db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "built a city")).GetAwaiter().GetResult();
        Fill(city);
        Statistics.RenewAsync(db).GetAwaiter().GetResult();
        Neighbourhood = new CurrentNeighbourhood(1, "Invented city", IsDemo: true);
        Clock = new GroupClock(TimeProvider.System, "America/Chicago", City.Today);
        Queries = new CommunityQueries(Factory, Neighbourhood);
    }

    /// <summary>Made once a process; the folder goes with the process.</summary>
    public static CityDatabase Instance => Made.Value;

    public string Folder { get; }
    public string ConnectionString { get; }
    public NeighbourhoodDatabase Factory { get; }
    public CurrentNeighbourhood Neighbourhood { get; }
    public GroupClock Clock { get; }
    public CommunityQueries Queries { get; }

    public static long YardId(int yard) => 1_000_000 + yard;

    public static long BedId(int yard, int bed) => 2_000_000 + (yard * 2) + bed;

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(Folder))
        {
            Directory.Delete(Folder, recursive: true);
        }
    }

    private void Fill(City city)
    {
        using var connection = new SqliteConnection(ConnectionString);
        connection.Open();
        using var transaction = connection.BeginTransaction();
        using (var insert = new RowInsert(connection, "Streets", "NeighbourhoodId", "Id", "Name"))
        {
            for (var s = 0; s < City.Streets; s++) insert.Add(1, s + 1, $"Street {s + 1:000}");
        }

        using (var insert = new RowInsert(connection, "Blocks", "NeighbourhoodId", "Id", "StreetId", "Name", "MiddleLatitude",
            "MiddleLongitude"))
        {
            for (var b = 0; b < City.Blocks; b++) insert.Add(1, b + 1, City.StreetOf(b) + 1, $"Block {b + 1}", City.MiddleOf(b).Latitude,
                City.MiddleOf(b).Longitude);
        }

        FillYards(connection);
        using (var insert = new RowInsert(connection, "Sightings", "NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "ObservedOn",
            "CoverSquareMetres", "CoverDerived", "Origin", "Certainty", "Qualifier", "Observer", "Remarks", "RecordedAtUtc"))
        {
            long id = 0;
            foreach (var p in city.Plantings) insert.Add(1, ++id, YardId(p.Yard), BedId(p.Yard, p.Bed), p.Taxon, Day(p.ObservedOn),
                p.CoverSquareMetres, 0, "Planted", p.Tentative ? "Tentative" : "Certain", "", "a walker", "", "2026-08-15 12:00:00");
        }

        using (var insert = new RowInsert(connection, "Infestations", "NeighbourhoodId", "Id", "BlockId", "YardId", "TaxonId",
            "ObservedOn", "AreaSquareMetres", "CoverPercent", "GrowthStage", "Remarks", "RecordedAtUtc"))
        {
            long id = 0;
            foreach (var i in city.Unwanted) insert.Add(1, ++id, (i.Yard / City.YardsPerBlock) + 1, YardId(i.Yard), i.Taxon,
                Day(i.ObservedOn), i.AreaSquareMetres, i.CoverPercent, i.Stage, "", "2026-08-15 12:00:00");
        }

        transaction.Commit();
    }

    private static void FillYards(SqliteConnection connection)
    {
        using var yards = new RowInsert(connection, "Yards", "NeighbourhoodId", "Id", "BlockId", "Code", "Latitude", "Longitude",
            "AreaSquareMetres", "Household", "Shared", "Version");
        using var beds = new RowInsert(connection, "Beds", "NeighbourhoodId", "Id", "YardId", "Name", "AreaSquareMetres", "Version");
        for (var y = 0; y < City.Yards; y++)
        {
            var (latitude, longitude) = City.PlaceOf(y);
            yards.Add(1, YardId(y), (y / City.YardsPerBlock) + 1, $"Y{y:000000}", latitude, longitude, 600, "", y % 5 == 0 ? 0 : 1,
                Guid.Empty.ToString());
            beds.Add(1, BedId(y, 0), YardId(y), "front", 200, Guid.Empty.ToString());
            beds.Add(1, BedId(y, 1), YardId(y), "back", 200, Guid.Empty.ToString());
        }
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
