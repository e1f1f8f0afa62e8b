using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary>Looks the stored data over: the file, the references, the catalogue, and rows the rules would no longer let in.</summary>
internal static class DataCheck
{
    public static async Task<IReadOnlyList<string>> RunAsync(IDbContextFactory<CommonGroundDb> database, int neighbourhoodId, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var found = new List<string>();
        if (db.Database.IsSqlite())
        {
            found.AddRange((await TextsAsync(db, "PRAGMA integrity_check", cancel)).Where(t => t != "ok").Select(t => $"Database file: {t}"));
            found.AddRange((await TextsAsync(db, "PRAGMA foreign_key_check", cancel)).Select(t => $"A row of {t} points to a row that is gone."));
        }

        if (!await db.Taxa.AnyAsync(t => t.NeighbourhoodId == neighbourhoodId && !t.Unlisted, cancel))
        {
            found.Add("The catalogue is empty.");
        }

        var absurd = await db.Sightings.Where(s => s.NeighbourhoodId == neighbourhoodId)
            .Join(db.Beds, s => new { s.NeighbourhoodId, Id = s.BedId }, b => new { b.NeighbourhoodId, b.Id }, (s, b) => new { s.CoverSquareMetres, s.ObservedOn, b.Name, b.AreaSquareMetres, b.YardId })
            .Where(x => x.AreaSquareMetres != null && x.CoverSquareMetres > x.AreaSquareMetres)
            .Join(db.Yards.Where(y => y.NeighbourhoodId == neighbourhoodId), x => x.YardId, y => y.Id, (x, y) => new { y.Code, x.Name, x.ObservedOn, x.CoverSquareMetres, x.AreaSquareMetres })
            .ToListAsync(cancel);
        found.AddRange(absurd.Select(x => $"Yard {x.Code}, {x.Name}, {x.ObservedOn:yyyy-MM-dd}: a sighting covers {x.CoverSquareMetres} m², the bed is {x.AreaSquareMetres} m²."));
        return found;
    }

    private static async Task<List<string>> TextsAsync(CommonGroundDb db, string pragma, CancellationToken cancel)
    {
        var connection = db.Database.GetDbConnection();
        await db.Database.OpenConnectionAsync(cancel);
        await using var command = connection.CreateCommand();
        command.CommandText = pragma;
        var texts = new List<string>();
        await using var reader = await command.ExecuteReaderAsync(cancel);
        while (await reader.ReadAsync(cancel))
        {
            texts.Add(reader.GetString(0));
        }

        return texts;
    }
}
