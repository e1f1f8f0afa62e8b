using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace CommonGround.Storage.Postgres;

public sealed class PostgresDb(DbContextOptions<PostgresDb> options) : CommonGroundDb(options);

internal sealed class PostgresDesignTime : IDesignTimeDbContextFactory<PostgresDb>
{
    public PostgresDb CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<PostgresDb>().UseNpgsql("Host=127.0.0.1").Options);
}
