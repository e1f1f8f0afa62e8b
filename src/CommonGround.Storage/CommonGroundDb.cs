using System.Linq.Expressions;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plans;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
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
public abstract class CommonGroundDb(DbContextOptions options) : IdentityUserContext<Account, long>(options), IDataProtectionKeyContext
{
    private ChangeNote? note;
    private Change? change;
    private Guid? changeTransaction;
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
    public DbSet<ChangeStamp> ChangeStamps => Set<ChangeStamp>();
    public DbSet<SiteCounter> SiteCounters => Set<SiteCounter>();

    /// <summary>Keys that sign cookies and forms, shared by every process of the site.</summary>
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <summary>Told of every stored change; null where nobody listens.</summary>
    internal ChangeFeed? Feed { get; set; }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(CommonGroundDb).Assembly);
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(20);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcMoments>();
    }

    /// <summary>Saves what was changed together with who changed it, what and from where: the only way to write to the record.</summary>
    /// <returns>The number of the change in history; 0 when there was nothing to write.</returns>
    /// <exception cref="StandingLostException">The session was ended or the role changed since; nothing is written.</exception>
    public async Task<long> SaveAsync(ChangeNote by, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        if (note != by)
        {
            (note, change, rows) = (by, null, 0);
        }

        await SaveChangesAsync(cancellationToken);
        return change?.Id ?? 0;
    }

    /// <summary>The framework stores its keys this way, and nothing else may.</summary>
    public override int SaveChanges(bool acceptAllChangesOnSuccess) =>
        ChangeTracker.Entries().All(e => e.State == EntityState.Unchanged || e.Entity is DataProtectionKey)
            ? base.SaveChanges(acceptAllChangesOnSuccess)
            : throw new NotSupportedException("Write with SaveAsync, which says who writes.");

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        RenewVersions();
        var written = ChangeTracker.Entries().Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted && Journal.Keeps(e.Metadata)).ToList();
        if (written.Count == 0)
        {
            return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        }

        var by = RequireNote(written);
        // The stamp moves in the same transaction: a caller's, or one of our own.
        await using var own = Database.CurrentTransaction is null ? await Database.BeginTransactionAsync(cancellationToken) : null;
        int stored;
        try
        {
            await StandingAsync(by, cancellationToken);
            await KeepHistoryAsync(by, written, cancellationToken);
            stored = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
            await TellOthersAsync(by.NeighbourhoodId, cancellationToken);
            if (own is not null)
            {
                await own.CommitAsync(cancellationToken);
            }
        }
        catch
        {
            ForgetChange();
            throw;
        }

        // Where a caller's transaction is still open this is early; whoever looks sees the old stamp and looks again at the next hint or question.
        Feed?.Tell(by.NeighbourhoodId);
        return stored;
    }

    /// <summary>Begins to read what belongs together, as of one moment, without keeping any writer out.</summary>
    public abstract Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default);

    /// <summary>Passes the change on to other processes when it is stored, where the database can.</summary>
    protected virtual Task TellOthersAsync(int neighbourhoodId, CancellationToken cancel) => Task.CompletedTask;

    /// <summary>Hears what other processes store and passes it on, where the database tells; without end until the connection or the caller ends it.</summary>
    /// <param name="feed">Whom to tell.</param>
    /// <param name="listening">Called once it listens: what was stored before that may have been missed.</param>
    /// <param name="cancel">Ends it.</param>
    public virtual Task ListenAsync(ChangeFeed feed, Action listening, CancellationToken cancel) => Task.Delay(Timeout.Infinite, cancel);

    private ChangeNote RequireNote(List<EntityEntry> written)
    {
        if (note is null)
        {
            throw new InvalidOperationException($"A {written[0].Metadata.ClrType.Name} was to be written without saying who writes: use SaveAsync.");
        }

        return written.Find(e => Journal.NeighbourhoodOf(e) != note.NeighbourhoodId) is { } stray
            ? throw new InvalidOperationException($"A {stray.Metadata.ClrType.Name} of another neighbourhood was to be written.")
            : note;
    }

    private async Task KeepHistoryAsync(ChangeNote by, List<EntityEntry> written, CancellationToken cancel)
    {
        var changed = by.KeepsRows ? written.Select(e => Journal.Of(e, by)).OfType<ChangedRow>().ToList() : [];
        // One change for all that is saved in one transaction; what follows after it was stored is another, or its readers would miss it.
        if (change is null || changeTransaction != Database.CurrentTransaction!.TransactionId)
        {
            (change, changeTransaction, rows) = (await BeginChangeAsync(by, written, cancel), Database.CurrentTransaction!.TransactionId, 0);
            Changes.Add(change);
        }

        foreach (var row in changed)
        {
            (row.ChangeId, row.Ordinal) = (change.Id, ++rows);
            ChangedRows.Add(row);
        }
    }

    private async Task<Change> BeginChangeAsync(ChangeNote by, List<EntityEntry> written, CancellationToken cancel)
    {
        var isNew = written.Exists(e => e is { Entity: Neighbourhood, State: EntityState.Added });
        if (isNew)
        {
            Set<ChangeStamp>().Add(new ChangeStamp { NeighbourhoodId = by.NeighbourhoodId, LastChange = 1 });
        }

        var number = isNew ? 1 : await History.ChangeStamps.MoveAsync(this, by.NeighbourhoodId, cancel);
        if (written.Exists(e => e.Entity is Neighbourhood))
        {
            await History.ChangeStamps.CountAsync(this, SiteCounter.Neighbourhoods, cancel);
        }

        return new Change
        {
            NeighbourhoodId = by.NeighbourhoodId,
            Id = number,
            AtUtc = TimeProvider.System.GetUtcNow().UtcDateTime,
            What = by.What,
            MemberId = by.MemberId,
            By = by.By,
            From = by.From,
            UndoOfId = by.UndoOfId,
            EraseAtUtc = by.EraseAtUtc,
        };
    }

    /// <summary>After a save that failed: its number was rolled back with it, so the next try takes another.</summary>
    private void ForgetChange()
    {
        change = null;
        foreach (var entry in ChangeTracker.Entries().Where(e => e.State == EntityState.Added && e.Entity is Change or ChangedRow or ChangeStamp).ToList())
        {
            entry.State = EntityState.Detached;
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
            && await Members.AnyAsync(m => m.NeighbourhoodId == by.NeighbourhoodId && m.Id == by.MemberId && m.Role == by.By, cancel);
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
