using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage;

/// <summary>
/// Every table of the record holds many neighbourhoods, and every query sees one: the context says which. What is about the whole site,
/// such as a backup, a check, or who signs in, says so with <see cref="AcrossNeighbourhoods"/>; a query that says neither throws.
/// </summary>
public static class Tenancy
{
    internal const string Column = "NeighbourhoodId", Filter = "Neighbourhood";

    internal const string NotSaid =
        "This query does not say which neighbourhood it is about: open the database with In(neighbourhood), or ask AcrossNeighbourhoods() "
        + "where the whole site is meant.";

    /// <summary>The same database, seen from one neighbourhood: no query of its contexts sees a row of another.</summary>
    public static NeighbourhoodDatabase In(this IDbContextFactory<CommonGroundDb> database, int neighbourhoodId)
    {
        ArgumentNullException.ThrowIfNull(database);
        return new NeighbourhoodDatabase(database, neighbourhoodId);
    }

    /// <summary>The same context, from now on about one neighbourhood.</summary>
    public static CommonGroundDb In(this CommonGroundDb db, int neighbourhoodId)
    {
        ArgumentNullException.ThrowIfNull(db);
        db.NeighbourhoodId = neighbourhoodId;
        return db;
    }

    /// <summary>Asks of the whole site, all neighbourhoods at once. Holds for the whole query, the tables joined to it included.</summary>
    public static IQueryable<T> AcrossNeighbourhoods<T>(this IQueryable<T> rows)
        where T : class => rows.IgnoreQueryFilters([Filter]);
}

/// <summary>Opens the database as one neighbourhood sees it.</summary>
public sealed class NeighbourhoodDatabase(IDbContextFactory<CommonGroundDb> site, int neighbourhoodId) : IDbContextFactory<CommonGroundDb>
{
    public int NeighbourhoodId => neighbourhoodId;

    public CommonGroundDb CreateDbContext() => site.CreateDbContext().In(neighbourhoodId);

    public async Task<CommonGroundDb> CreateDbContextAsync(CancellationToken cancellationToken = default) =>
        (await site.CreateDbContextAsync(cancellationToken)).In(neighbourhoodId);
}
