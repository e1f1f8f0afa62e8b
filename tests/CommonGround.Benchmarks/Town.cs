using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Community;
using DuckDB.NET.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Benchmarks;

/// <summary>
/// A synthetic town, the same at every run: 1,000,000 plantings in 100,000 yards on 5,000 blocks of 300 streets, 20,000 infestations, with the
/// real catalogue. Kept in a SQLite file through the program's own schema, and as one flat table in DuckDB and in SQLite for the compared roll-ups.
/// </summary>
public sealed class Town
{
    public const int Streets = 300, Blocks = 5_000, YardsPerBlock = 20, PlantingsPerYard = 10, Infestations = 20_000;
    private const int Side = 71; // blocks to a row of the grid
    private const double Metre = 1 / 111_320.0; // degrees of latitude
    private static readonly Lazy<Town> Made = new(() => new Town());
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-town-").FullName;

    private Town()
    {
        var plants = ImportFile.Read("plants.csv", File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "seed-data", "plants.csv"))).Taxa;
        Database = StorageRegistration.Open(StorageLocation.SqliteFile(Path.Combine(folder, "town.db")));
        Neighbourhood = new CurrentNeighbourhood(1, "Synthetic town", false);
        Clock = new GroupClock(TimeProvider.System, "America/Chicago", new DateOnly(2026, 8, 19));
        Queries = new CommunityQueries(Database, Neighbourhood);
        Live = new LiveCommunity(Queries, Clock);
        Duck = new DuckDBConnection("Data Source=" + Path.Combine(folder, "town.duckdb"));
        Flat = new SqliteConnection("Data Source=" + Path.Combine(folder, "flat.db"));
        Fill(plants);
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
    }

    public static Town Instance => Made.Value;

    public IDbContextFactory<CommonGroundDb> Database { get; }
    public CurrentNeighbourhood Neighbourhood { get; }
    public GroupClock Clock { get; }
    public CommunityQueries Queries { get; }
    public LiveCommunity Live { get; }
    public DuckDBConnection Duck { get; }
    public SqliteConnection Flat { get; }

    public CommunityMatrix Matrix => Live.NowAsync().GetAwaiter().GetResult();

    private void Fill(IReadOnlyList<CatalogueTaxon> plants)
    {
        using (var db = Database.CreateDbContext())
        {
            db.Database.Migrate();
            db.Neighbourhoods.Add(new Neighbourhood { Id = 1, Name = Neighbourhood.Name, TimeZone = "America/Chicago" });
            db.Taxa.AddRange(plants.Select((t, i) => new Taxon { NeighbourhoodId = 1, Id = i + 1, ScientificName = t.ScientificName, Traits = t }));
            db.Streets.AddRange(Enumerable.Range(1, Streets).Select(s => new Street { NeighbourhoodId = 1, Id = s, Name = $"Street {s:000}" }));
            db.SaveChanges();
            var connection = (SqliteConnection)db.Database.GetDbConnection();
            connection.Open();
            FillPlaces(connection);
            FillPlantings(connection, plants);
            FillInfestations(connection, plants);
        }
    }

    private static void FillPlaces(SqliteConnection connection)
    {
        var random = new Random(1);
        using var transaction = connection.BeginTransaction();
        using var block = Command(connection, "INSERT INTO Blocks (NeighbourhoodId, Id, StreetId, Name, MiddleLatitude, MiddleLongitude) VALUES (1, $a, $b, 'Block ' || $a, $c, $d)", "a", "b", "c", "d");
        using var yard = Command(connection, "INSERT INTO Yards (NeighbourhoodId, Id, BlockId, Code, Latitude, Longitude, AreaSquareMetres, LawnSquareMetres, Household, Shared, Version) VALUES (1, $a, $b, 'Y' || $a, $c, $d, 640, 300, '', 1, '00000000-0000-0000-0000-000000000001')", "a", "b", "c", "d");
        using var bed = Command(connection, "INSERT INTO Beds (NeighbourhoodId, Id, YardId, Name, AreaSquareMetres, Version) VALUES (1, $a, $a, 'bed', 60, '00000000-0000-0000-0000-000000000001')", "a");
        for (var b = 1; b <= Blocks; b++)
        {
            var (latitude, longitude) = Middle(b);
            Run(block, b, ((b - 1) * Streets / Blocks) + 1, latitude, longitude);
            for (var i = 0; i < YardsPerBlock; i++)
            {
                var id = ((b - 1) * YardsPerBlock) + i + 1;
                Run(yard, id, b, latitude + ((random.NextDouble() - 0.5) * 120 * Metre), longitude + ((random.NextDouble() - 0.5) * 120 * Metre));
                Run(bed, id);
            }
        }

        transaction.Commit();
    }

    private void FillPlantings(SqliteConnection connection, IReadOnlyList<CatalogueTaxon> plants)
    {
        var random = new Random(2);
        Duck.Open();
        Flat.Open();
        Execute(Duck, "CREATE TABLE plantings (yard BIGINT, block BIGINT, taxon INTEGER, cover DOUBLE, native BOOLEAN)");
        Execute(Flat, "CREATE TABLE plantings (yard INTEGER, block INTEGER, taxon INTEGER, cover REAL, native INTEGER)");
        using var transaction = connection.BeginTransaction();
        using var flatTransaction = Flat.BeginTransaction();
        using var appender = Duck.CreateAppender("plantings");
        using var sighting = Command(connection, "INSERT INTO Sightings (NeighbourhoodId, Id, YardId, BedId, TaxonId, ObservedOn, CoverSquareMetres, CoverDerived, Origin, Certainty, Qualifier, Observer, Remarks, RecordedAtUtc) VALUES (1, $a, $b, $b, $c, '2026-06-01', $d, 0, 'Planted', $e, '', '', '', '2026-06-01 12:00:00')", "a", "b", "c", "d", "e");
        using var flat = Command(Flat, "INSERT INTO plantings VALUES ($a, $b, $c, $d, $e)", "a", "b", "c", "d", "e");
        long id = 0;
        for (var yard = 1; yard <= Blocks * YardsPerBlock; yard++)
        {
            var block = ((yard - 1) / YardsPerBlock) + 1;
            var first = random.Next(plants.Count);
            for (var i = 0; i < PlantingsPerYard; i++)
            {
                var taxon = ((first + (i * 37)) % plants.Count) + 1; // 37 and the catalogue's length share no factor below ten steps: ten different taxa
                var cover = 0.1 + (random.NextDouble() * 5);
                var native = plants[taxon - 1].Nativity == Nativity.Native;
                Run(sighting, ++id, yard, taxon, cover, random.Next(50) == 0 ? "Tentative" : "Certain");
                Run(flat, yard, block, taxon, cover, native ? 1 : 0);
                appender.CreateRow().AppendValue((long)yard).AppendValue((long)block).AppendValue(taxon).AppendValue(cover).AppendValue(native).EndRow();
            }
        }

        appender.Close();
        transaction.Commit();
        flatTransaction.Commit();
    }

    private static void FillInfestations(SqliteConnection connection, IReadOnlyList<CatalogueTaxon> plants)
    {
        var random = new Random(3);
        int[] unwanted = [.. plants.Index().Where(p => p.Item.ImpactRank == ImpactRank.High).Select(p => p.Index + 1)];
        using var transaction = connection.BeginTransaction();
        using var record = Command(connection, "INSERT INTO Infestations (NeighbourhoodId, Id, BlockId, YardId, TaxonId, ObservedOn, AreaSquareMetres, CoverPercent, Remarks, RecordedAtUtc) VALUES (1, $a, $b, $c, $d, '2026-07-01', $e, 50, '', '2026-07-01 12:00:00')", "a", "b", "c", "d", "e");
        for (var i = 1; i <= Infestations; i++)
        {
            var yard = random.Next(Blocks * YardsPerBlock) + 1;
            Run(record, i, ((yard - 1) / YardsPerBlock) + 1, yard, unwanted[random.Next(unwanted.Length)], 1 + (random.NextDouble() * 30));
        }

        transaction.Commit();
    }

    private static (double Latitude, double Longitude) Middle(int block) => (41.5 + (block / Side * 130 * Metre), -88.5 + (block % Side * 130 * Metre / 0.749));

    private static SqliteCommand Command(SqliteConnection connection, string sql, params string[] names)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var name in names)
        {
            command.Parameters.Add(new SqliteParameter("$" + name, null));
        }

        return command;
    }

    private static void Run(SqliteCommand command, params object[] values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        command.ExecuteNonQuery();
    }

    private static void Execute(System.Data.Common.DbConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
