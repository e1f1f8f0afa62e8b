using System.Globalization;
using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Operations;

/// <summary>Reads rows as text past the model, so that a row which the model can no longer read is seen too.</summary>
internal static class SqlText
{
    public static async Task<List<string?[]>> RowsAsync(CommonGroundDb db, string sql, CancellationToken cancel)
    {
        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = sql;
            await using var reader = await command.ExecuteReaderAsync(cancel);
            var rows = new List<string?[]>();
            while (await reader.ReadAsync(cancel))
            {
                rows.Add([.. Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? null
                    : Convert.ToString(reader.GetValue(i), CultureInfo.InvariantCulture))]);
            }

            return rows;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }
}
