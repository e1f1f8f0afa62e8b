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
using CommonGround.Storage.Weather;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace CommonGround.Storage;

/// <summary>The one model; <see cref="Sqlite.SqliteDb"/> and <see cref="Postgres.PostgresDb"/> only add their migrations.</summary>
public abstract class CommonGroundDb(DbContextOptions options) : IdentityUserContext<Account, long>(options)
{
    private ChangeNote? note;
    private Change? change;
    private readonly HashSet<string> told = new(StringComparer.Ordinal);
    private int rows;

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
    public DbSet<Session> Sessions => Set<Session>();
    public DbSet<Invitation> Invitations => Set<Invitation>();
    public DbSet<PublishedYards> PublishedYards => Set<PublishedYards>();
    public DbSet<Photo> Photos => Set<Photo>();
    public DbSet<Change> Changes => Set<Change>();
    public DbSet<ChangedRow> ChangedRows => Set<ChangedRow>();

    /// <summary>The neighbourhood that every query of this context is about; null where it was made without one.</summary>
    public int? NeighbourhoodId { get; internal set; }

    /// <summary>Asked by the filter of every query.</summary>
    private int Here => NeighbourhoodId ?? throw new InvalidOperationException(Tenancy.NotSaid);

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(CommonGroundDb).Assembly);
        foreach (var type in modelBuilder.Model.GetEntityTypes().Where(t => t.FindProperty(Tenancy.Column) is not null).Select(t => t.ClrType).ToList())
        {
            FilterMethod.MakeGenericMethod(type).Invoke(this, [modelBuilder]);
        }
    }

    private void FilterByNeighbourhood<T>(ModelBuilder modelBuilder)
        where T : class => modelBuilder.Entity<T>().HasQueryFilter(Tenancy.Filter, row => EF.Property<int>(row, Tenancy.Column) == Here);

    private static readonly MethodInfo FilterMethod = typeof(CommonGroundDb).GetMethod(nameof(FilterByNeighbourhood), BindingFlags.Instance | BindingFlags.NonPublic)!;

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(20);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcMoments>();
    }

    /// <summary>Saves what was changed together with who changed it, what and from where. The <see cref="Saving.Door"/> calls it.</summary>
    /// <returns>The number of the change in history; 0 when there was nothing to write.</returns>
    /// <exception cref="StandingLostException">The session was ended or the role changed since; nothing is written.</exception>
    internal async Task<long> SaveAsync(ChangeNote by, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        if (note != by)
        {
            (note, change, rows) = (by, null, 0);
            told.Clear();
        }

        await SaveChangesAsync(cancellationToken);
        return change?.Id ?? 0;
    }

    /// <summary>
    /// As <see cref="SaveAsync"/>, for very many rows: everything is worked out first, and only then begins the transaction, in which new sightings and history are stored in bulk.
    /// </summary>
    /// <param name="holds">Asked inside the transaction, when nobody else can save any more, whether what was looked at before still holds.</param>
    /// <exception cref="OvertakenException">It does not; nothing is written.</exception>
    internal async Task<long> SaveInBulkAsync(ChangeNote by, Func<Task<bool>> holds, CancellationToken cancel)
    {
        (note, change, rows) = (by, null, 0);
        told.Clear();
        ChangeTracker.DetectChanges();
        RenewVersions();
        await KeepHistoryAsync(cancel);
        if (change is null)
        {
            return 0;
        }

        var sightings = Detached<Sighting>();
        var history = Detached<ChangedRow>();
        await using var transaction = await Database.BeginTransactionAsync(cancel);
        // SQLite has one writer, and its turn has begun: what no longer holds is best known before anything is written.
        if (!Database.IsNpgsql() && !await holds())
        {
            throw new OvertakenException();
        }

        await StandingAsync(by, cancel);
        await base.SaveChangesAsync(acceptAllChangesOnSuccess: true, cancel);
        await Bulk.InsertAsync(this, sightings, cancel);
        await Bulk.InsertAsync(this, history, cancel);
        if (Database.IsNpgsql())
        {
            // New rows keep nobody waiting here; this does, so it comes last. Every save of the neighbourhood refers to this row: those under way are waited for, new ones wait.
            await Database.ExecuteSqlAsync($"SELECT 1 FROM \"Neighbourhoods\" WHERE \"Id\" = {by.NeighbourhoodId} FOR UPDATE", cancel);
            if (!await holds())
            {
                throw new OvertakenException();
            }
        }

        cancel.ThrowIfCancellationRequested();
        // From here on it is stored: nobody can stop half of it.
        await transaction.CommitAsync(CancellationToken.None);
        return change.Id;
    }

    /// <summary>New rows of a kind, taken out of the context to be stored in bulk.</summary>
    private List<T> Detached<T>()
        where T : class
    {
        var added = ChangeTracker.Entries<T>().Where(e => e.State == EntityState.Added).ToList();
        added.ForEach(e => e.State = EntityState.Detached);
        return added.ConvertAll(e => e.Entity);
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess) => throw new NotSupportedException("Write with SaveAsync, which says who writes.");

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        RenewVersions();
        await KeepHistoryAsync(cancellationToken);
        return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    private async Task KeepHistoryAsync(CancellationToken cancel)
    {
        var written = ChangeTracker.Entries().Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted && Journal.Keeps(e.Metadata)).ToList();
        if (written.Count == 0)
        {
            return;
        }

        if (note is null)
        {
            throw new InvalidOperationException($"A {written[0].Metadata.ClrType.Name} was to be written without saying who writes: use SaveAsync.");
        }

        if (written.Find(e => Journal.NeighbourhoodOf(e) != note.NeighbourhoodId) is { } stray)
        {
            throw new InvalidOperationException($"A {stray.Metadata.ClrType.Name} of another neighbourhood was to be written.");
        }

        await StandingAsync(note, cancel);
        var changed = note.KeepsRows ? written.Select(e => Journal.Of(e, note, told)).OfType<ChangedRow>().ToList() : [];
        if (change is null)
        {
            change = new Change
            {
                NeighbourhoodId = note.NeighbourhoodId,
                Id = RowIds.Next(),
                AtUtc = TimeProvider.System.GetUtcNow().UtcDateTime,
                What = note.What,
                MemberId = note.MemberId,
                By = note.By,
                From = note.From,
                UndoOfId = note.UndoOfId,
                EraseAtUtc = note.EraseAtUtc,
            };
            Changes.Add(change);
        }

        foreach (var row in changed)
        {
            (row.ChangeId, row.Ordinal) = (change.Id, ++rows);
            ChangedRows.Add(row);
        }
    }

    private async Task StandingAsync(ChangeNote by, CancellationToken cancel)
    {
        if (by.SessionId is not { } session)
        {
            return;
        }

        var now = TimeProvider.System.GetUtcNow().UtcDateTime;
        var stands = await Sessions.AnyAsync(s => s.Id == session && s.EndsAtUtc > now, cancel)
            && await Members.AcrossNeighbourhoods().AnyAsync(m => m.NeighbourhoodId == by.NeighbourhoodId && m.Id == by.MemberId && m.Role == by.By, cancel);
        if (!stands)
        {
            throw new StandingLostException();
        }
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
