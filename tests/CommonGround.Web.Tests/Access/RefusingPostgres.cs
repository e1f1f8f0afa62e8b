using CommonGround.Storage.Tests;
using Microsoft.AspNetCore.Hosting;
using Npgsql;

namespace CommonGround.Web.Tests.Access;

/// <summary>A real group's site on a PostgreSQL server of its own, with little patience, so that forty writes do not take
/// minutes.</summary>
public sealed class PostgresGroupSite : SetSite, IAsyncLifetime
{
    private const int PatienceMilliseconds = 200;
    private readonly PostgresCluster cluster = new();

    public string Connection { get; private set; } = "";

    async Task IAsyncLifetime.InitializeAsync()
    {
        await cluster.StartAsync();
        Connection = cluster.NewDatabase();
        await InitializeAsync();
    }

    async Task IAsyncLifetime.DisposeAsync()
    {
        await DisposeAsync();
        NpgsqlConnection.ClearAllPools();
        await cluster.StopAsync();
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Database:Provider", "postgres");
        builder.UseSetting("Database:Connection", Connection.Replace("Pooling=false", "Pooling=true", StringComparison.Ordinal)
            + $";Options=-c lock_timeout={PatienceMilliseconds}");
    }
}

/// <summary>Makes a PostgreSQL database refuse writes until disposed, each time with the server's own answer; the product knows nothing of
/// it.</summary>
/// <remarks>Full is the code of a full disk raised by a trigger; the other two are what they are called.</remarks>
internal sealed class RefusingPostgres : IDisposable
{
    private readonly NpgsqlConnection holder;
    private readonly string end;

    private RefusingPostgres(string connection, string begin, string end)
    {
        (holder, this.end) = (new NpgsqlConnection(connection), end);
        holder.Open();
        Run(begin);
    }

    public static RefusingPostgres Begin(string connection, Refuses how)
    {
        var database = new NpgsqlConnectionStringBuilder(connection).Database;
        return how switch
        {
            // Reading goes on. Source: https://www.postgresql.org/docs/current/explicit-locking.html
            Refuses.Locked => new(connection, EachTable("LOCK TABLE %I IN EXCLUSIVE MODE", begin: "BEGIN;"), "ROLLBACK"),
            Refuses.ReadOnly =>
                new(connection, $"ALTER DATABASE {database} SET default_transaction_read_only = on", $"SET default_transaction_read_only "
                    + $"= off; ALTER DATABASE {database} RESET default_transaction_read_only"),
            _ => new(connection,
                "CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RAISE EXCEPTION USING ERRCODE = ''53100'', MESSAGE "
                    + "= ''No space left on device''; END';"
                    + EachTable("CREATE TRIGGER no_room BEFORE INSERT OR UPDATE OR DELETE ON %I FOR EACH STATEMENT EXECUTE FUNCTION "
                    + "no_room()"),
                "DROP FUNCTION no_room() CASCADE"),
        };
    }

    public void Dispose()
    {
        Run(end);
        holder.Dispose();
    }

    /// <param name="sql">With %I for the name of a table.</param>
    private static string EachTable(string sql, string begin = "") =>
        $"{begin} DO $do$ DECLARE t text; BEGIN FOR t IN SELECT tablename FROM pg_tables WHERE schemaname = 'public' LOOP EXECUTE "
            + $"format('{sql}', t); END LOOP; END $do$;";

    private void Run(string sql)
    {
        using var command = new NpgsqlCommand(sql, holder);
        command.ExecuteNonQuery();
        // A setting of the database holds for connections made from now on.
        NpgsqlConnection.ClearAllPools();
    }
}
