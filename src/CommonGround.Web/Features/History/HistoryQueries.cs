using System.Globalization;
using System.Text.Json;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.History;

/// <summary>A line of history.</summary>
/// <param name="CanUndo">It is young enough, has rows, and was not undone.</param>
public sealed record HistoryLine(long Id, DateTime At, string Who, string What, string From, int Rows, bool Undone, bool CanUndo);

/// <summary>One altered value of one row, in words.</summary>
public sealed record AlteredValue(string Row, string RowAction, string Column, string Before, string After);

/// <summary>Reads who changed what: organisers of the neighbourhood, members of their own changes.</summary>
public sealed class HistoryQueries(NeighbourhoodDatabase database, GroupClock clock)
{
    public const int PageSize = 50;
    private const int ValuesShown = 200;

    // Never shown, though history keeps it: a secret, and numbers that mean nothing to a reader.
    private static readonly string[] Unshown = [RowKinds.OffsetKey, RowKinds.CodeHash, "OffsetNorthMetres", "OffsetEastMetres",
        "NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "BlockId"];

    /// <summary>Newest first.</summary>
    /// <param name="before">Only changes before this number; null begins at the newest.</param>
    public async Task<IReadOnlyList<HistoryLine>> PageAsync(CurrentUser currentUser, long? before, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        if (AccessTable.Of(Permission.SeeHistory, currentUser.Role) == Scope.None)
        {
            return [];
        }

        var changes = db.Changes.AsNoTracking().Where(c => (before == null || c.Id < before));
        if (AccessTable.Of(Permission.SeeHistory, currentUser.Role) == Scope.Own)
        {
            changes = changes.Where(c => c.MemberId == currentUser.MemberId && c.MemberId != null);
        }

        var page = await changes.OrderByDescending(c => c.Id).Take(PageSize)
            .Select(c => new { c, Rows = db.ChangedRows.Count(r => r.ChangeId == c.Id), Undone = db.Changes.Any(u => u.UndoOfId == c.Id) })
            .ToListAsync(cancel);
        var names = await db.Members.ToDictionaryAsync(m => m.Id, m => m.Name, cancel);
        var oldest = clock.UtcNow.AddDays(-UndoChange.Days);
        return [.. page.Select(p => new HistoryLine(p.c.Id, p.c.AtUtc, Who(p.c, names), p.c.What, p.c.From, p.Rows, p.Undone, !p.Undone
            && p.Rows > 0 && p.c.AtUtc >= oldest))];
    }

    /// <summary>What a change altered, value by value; the first two hundred.</summary>
    public async Task<IReadOnlyList<AlteredValue>> ValuesAsync(long changeId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var owner = await db.Changes.Where(c => c.Id == changeId).Select(c => c.MemberId).SingleOrDefaultAsync(cancel);
        if (!currentUser.May(Permission.SeeHistory, owner))
        {
            return [];
        }

        var rows = await db.ChangedRows.AsNoTracking().Where(r => r.ChangeId == changeId).OrderBy(r => r.Ordinal).Take(ValuesShown)
            .ToListAsync(cancel);
        var codes = await db.Yards.ToDictionaryAsync(y => y.Id, y => y.Code, cancel);
        return [.. rows.SelectMany(r => Values(r, r.YardId is { } yard ? codes.GetValueOrDefault(yard, "a yard taken out") : ""))
            .Take(ValuesShown)];
    }

    private static IEnumerable<AlteredValue> Values(ChangedRow row, string yard)
    {
        var name = yard.Length == 0 ? HistoryWords.Kind(row.Kind) : $"{HistoryWords.Kind(row.Kind)} in {yard}";
        if (row.RowAction != RowAction.Changed || row.Before is null || row.After is null)
        {
            yield return new AlteredValue(name, row.RowAction switch
            {
                RowAction.Added => "added",
                RowAction.Removed => "removed",
                _ => "changed; what it held is erased"
            }, "", "", "");
            yield break;
        }

        using var before = JsonDocument.Parse(row.Before);
        using var after = JsonDocument.Parse(row.After);
        foreach (var column in before.RootElement.EnumerateObject().Where(c => !Unshown.Contains(c.Name)))
        {
            yield return new AlteredValue(name, "changed", HistoryWords.Column(column.Name), Text(column.Value),
                Text(after.RootElement.GetProperty(column.Name)));
        }
    }

    private static string Text(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => "–",
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        JsonValueKind.String when value.GetString() is { Length: > 80 } text => text[..79] + "…",
        _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
    };

    private static string Who(Change change, Dictionary<long, string> names) => change.MemberId is { } member
        ? names.GetValueOrDefault(member, "a former member")
        : change.By is { } role ? $"demo {role.ToString().ToLowerInvariant()}"
        : "the program";
}

/// <summary>Kinds of rows and their columns as readers call them.</summary>
public static class HistoryWords
{
    public static string Kind(string kind) => kind switch
    {
        RowKinds.Sighting => "planting",
        RowKinds.Block => "block",
        RowKinds.Infestation => "infestation",
        RowKinds.Plan => "plan",
        RowKinds.Price => "price",
        RowKinds.Weather => "day's weather",
        RowKinds.Taxon => "plant",
        RowKinds.PlantOverride => "overridden value",
        RowKinds.PlantNote => "note about a plant",
        RowKinds.CaseStep => "step of a case",
        RowKinds.Wildlife => "animals seen",
        _ => kind.ToLowerInvariant(),
    };

    /// <summary>"CoverSquareMetres" becomes "cover square metres".</summary>
    public static string Column(string column) => string.Concat(column.Select((c, i) => i > 0 && char.IsUpper(c)
        ? " " + char.ToLowerInvariant(c) : char.ToLowerInvariant(c).ToString()));
}
