using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Web.Operations;

/// <summary>Rows that point to a row which is not there, for every reference the model knows, on any database.</summary>
internal static class OrphanRows
{
    private const int Named = 5;

    public static async Task<IReadOnlyList<string>> FindAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var found = new List<string>();
        foreach (var key in db.Model.GetEntityTypes().SelectMany(t => t.GetDeclaredForeignKeys()).Where(k => !k.IsOwnership
            && k.DeclaringEntityType.FindPrimaryKey() is not null))
        {
            var rows = await SqlText.RowsAsync(db, Query(key), cancel);
            if (rows.Count > 0)
            {
                var keys = string.Join("; ", rows.Take(Named).Select(r => string.Join(", ", r)));
                found.Add($"A row of {key.DeclaringEntityType.GetTableName()} points to a row of {key.PrincipalEntityType.GetTableName()} "
                    + $"that is gone ({Columns(key.DeclaringEntityType.FindPrimaryKey()!.Properties)}: "
                    + $"{keys}{(rows.Count > Named ? "; and more" : "")}). What to do: bring the missing row back from a backup, or take "
                    + $"the loose row out.");
            }
        }

        return found;
    }

    private static string Query(IForeignKey key)
    {
        var (from, to) = (key.DeclaringEntityType, key.PrincipalEntityType);
        var given = string.Join(" AND ", key.Properties.Select(p => $"d.\"{p.GetColumnName()}\" IS NOT NULL"));
        var same = string.Join(" AND ", key.Properties.Zip(key.PrincipalKey.Properties,
            (d, p) => $"p.\"{p.GetColumnName()}\" = d.\"{d.GetColumnName()}\""));
        var columns = string.Join(", ", from.FindPrimaryKey()!.Properties.Select(p => $"d.\"{p.GetColumnName()}\""));
        return $"SELECT {columns} FROM \"{from.GetTableName()}\" d WHERE {given} AND NOT EXISTS (SELECT 1 FROM \"{to.GetTableName()}\" p "
            + $"WHERE {same}) ORDER BY {columns} LIMIT {Named + 1}";
    }

    private static string Columns(IEnumerable<IProperty> properties) => string.Join(", ", properties.Select(p => p.GetColumnName()));
}
