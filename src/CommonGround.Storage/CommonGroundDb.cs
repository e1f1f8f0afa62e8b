using System.Linq.Expressions;
using System.Reflection;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plans;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Tours;
using CommonGround.Storage.Walks;
using CommonGround.Storage.Weather;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Storage;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace CommonGround.Storage;

/// <summary>The one model; <see cref="Sqlite.SqliteDb"/> and <see cref="Postgres.PostgresDb"/> only add their migrations.</summary>
public abstract partial class CommonGroundDb(DbContextOptions options) : IdentityUserContext<Account, long>(options),
    IDataProtectionKeyContext
{
    public DbSet<Neighbourhood> Neighbourhoods => Set<Neighbourhood>();
    public DbSet<Street> Streets => Set<Street>();
    public DbSet<StreetBlock> Blocks => Set<StreetBlock>();
    public DbSet<Yard> Yards => Set<Yard>();
    public DbSet<Bed> Beds => Set<Bed>();
    public DbSet<Sighting> Sightings => Set<Sighting>();
    public DbSet<InfestationRecord> Infestations => Set<InfestationRecord>();
    public DbSet<Treatment> Treatments => Set<Treatment>();
    public DbSet<CaseStep> CaseSteps => Set<CaseStep>();
    public DbSet<Taxon> Taxa => Set<Taxon>();
    public DbSet<PlantOverride> PlantOverrides => Set<PlantOverride>();
    public DbSet<PlantNote> PlantNotes => Set<PlantNote>();
    public DbSet<Member> Members => Set<Member>();
    public DbSet<SavedPlan> Plans => Set<SavedPlan>();
    public DbSet<PriceRow> Prices => Set<PriceRow>();
    public DbSet<WeatherDay> WeatherDays => Set<WeatherDay>();
    public DbSet<Session> Sessions => Set<Session>();
    public DbSet<Invitation> Invitations => Set<Invitation>();
    public DbSet<PublishedYards> PublishedYards => Set<PublishedYards>();
    public DbSet<Photo> Photos => Set<Photo>();
    public DbSet<Walk> Walks => Set<Walk>();
    public DbSet<Tour> Tours => Set<Tour>();
    public DbSet<WildlifeRecord> Wildlife => Set<WildlifeRecord>();
    public DbSet<ReceivedNote> ReceivedNotes => Set<ReceivedNote>();
    public DbSet<Change> Changes => Set<Change>();
    public DbSet<ChangedRow> ChangedRows => Set<ChangedRow>();
    public DbSet<ChangeStamp> ChangeStamps => Set<ChangeStamp>();
    public DbSet<SiteCounter> SiteCounters => Set<SiteCounter>();

    /// <summary>Keys that sign cookies and forms, shared by every process of the site.</summary>
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <summary>Told of every stored change; null where nobody listens.</summary>
    internal ChangeFeed? Feed { get; set; }

    /// <summary>The neighbourhood that every query of this context is about; null where it was made without one.</summary>
    public int? NeighbourhoodId { get; internal set; }

    /// <summary>Asked by the filter of every query.</summary>
    private int Here => NeighbourhoodId ?? throw new InvalidOperationException(Tenancy.NotSaid);

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(CommonGroundDb).Assembly);
        foreach (var type in modelBuilder.Model.GetEntityTypes().Where(t => t.FindProperty(Tenancy.Column) is not null)
            .Select(t => t.ClrType).ToList())
        {
            FilterMethod.MakeGenericMethod(type).Invoke(this, [modelBuilder]);
        }
    }

    private void FilterByNeighbourhood<T>(ModelBuilder modelBuilder)
        where T : class => modelBuilder.Entity<T>().HasQueryFilter(Tenancy.Filter, row => EF.Property<int>(row, Tenancy.Column) == Here);

    private static readonly MethodInfo FilterMethod = typeof(CommonGroundDb).GetMethod(nameof(FilterByNeighbourhood),
        BindingFlags.Instance | BindingFlags.NonPublic)!;

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(20);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcMoments>();
    }

    /// <summary>Begins to read what belongs together, as of one moment, without keeping any writer out.</summary>
    public abstract Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default);

    /// <summary>Passes the change on to other processes when it is stored, where the database can.</summary>
    protected virtual Task TellOthersAsync(int neighbourhoodId, CancellationToken cancel) => Task.CompletedTask;

    /// <summary>Hears what other processes store and passes it on, where the database tells; without end until the connection or the caller
    /// ends it.</summary>
    /// <param name="feed">Whom to tell.</param>
    /// <param name="listening">Called once it listens: what was stored before that may have been missed.</param>
    /// <param name="cancel">Ends it.</param>
    public virtual Task ListenAsync(ChangeFeed feed, Action listening, CancellationToken cancel) => Task.Delay(Timeout.Infinite, cancel);

    /// <summary>Every moment is UTC. SQLite forgets which kind it was, so it is said again on reading.</summary>
    internal sealed class UtcMoments() : ValueConverter<DateTime, DateTime>(moment => moment,
        stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc));
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
