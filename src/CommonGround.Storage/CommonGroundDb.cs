using System.Linq.Expressions;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plans;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Weather;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace CommonGround.Storage;

/// <summary>The one model; <see cref="Sqlite.SqliteDb"/> and <see cref="Postgres.PostgresDb"/> only add their migrations.</summary>
public abstract class CommonGroundDb(DbContextOptions options) : DbContext(options)
{
    public DbSet<Neighbourhood> Neighbourhoods => Set<Neighbourhood>();
    public DbSet<Street> Streets => Set<Street>();
    public DbSet<StreetBlock> Blocks => Set<StreetBlock>();
    public DbSet<Yard> Yards => Set<Yard>();
    public DbSet<Bed> Beds => Set<Bed>();
    public DbSet<Sighting> Sightings => Set<Sighting>();
    public DbSet<InfestationRecord> Infestations => Set<InfestationRecord>();
    public DbSet<Taxon> Taxa => Set<Taxon>();
    public DbSet<Member> Members => Set<Member>();
    public DbSet<SavedPlan> Plans => Set<SavedPlan>();
    public DbSet<PriceRow> Prices => Set<PriceRow>();
    public DbSet<WeatherDay> WeatherDays => Set<WeatherDay>();

    protected override void OnModelCreating(ModelBuilder modelBuilder) =>
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(CommonGroundDb).Assembly);

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(20);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcMoments>();
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        RenewVersions();
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    public override Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        RenewVersions();
        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    private void RenewVersions()
    {
        foreach (var entry in ChangeTracker.Entries())
        {
            if (entry.State is EntityState.Added or EntityState.Modified && entry.Metadata.FindProperty("Version") is not null)
            {
                entry.Property("Version").CurrentValue = Guid.NewGuid();
            }
        }
    }

    /// <summary>Every moment is UTC. SQLite forgets which kind it was, so it is said again on reading.</summary>
    internal sealed class UtcMoments() : ValueConverter<DateTime, DateTime>(moment => moment, stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc));
}

internal static class RowMapping
{
    /// <summary>Key led by the neighbourhood, row number made by <see cref="RowIds"/>.</summary>
    public static void HasRow<T>(this EntityTypeBuilder<T> builder, Expression<Func<T, object?>> key, Expression<Func<T, long>> id)
        where T : class
    {
        builder.HasKey(key);
        builder.Property(id).ValueGeneratedOnAdd().HasValueGeneratorFactory<RowIdsFactory>();
    }
}
