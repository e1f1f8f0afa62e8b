using System.Security.Cryptography;
using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Operations;

/// <summary>What the database says of a photo's file.</summary>
/// <param name="FileName">Path below the folder photos, with slashes.</param>
/// <param name="Sha256">Hexadecimal.</param>
public sealed record StoredPhoto(string FileName, string Sha256);

/// <summary>Rows and files of photos, compared.</summary>
public static class PhotoFiles
{
    /// <summary>The photos the database knows; null while its model has none.</summary>
    public static async Task<IReadOnlyList<StoredPhoto>?> StoredAsync(CommonGroundDb db, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        return db.Model.GetEntityTypes().Any(t => t.GetTableName() == "Photos")
            ? [.. (await SqlText.RowsAsync(db, """SELECT "FileName", "Sha256" FROM "Photos" ORDER BY "FileName" """,
            cancel)).Select(r => new StoredPhoto(r[0] ?? "", r[1] ?? ""))]
            : null;
    }

    /// <summary>Files of photos that were taken out and that history can still bring back.</summary>
    public static async Task<IReadOnlySet<string>> HeldAsync(CommonGroundDb db, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        var rows = await SqlText.RowsAsync(db, """SELECT "Before" FROM "ChangedRows" WHERE "Kind" = 'Photo' AND "Before" IS NOT NULL""",
            cancel);
        return rows.Select(r => System.Text.Json.Nodes.JsonNode.Parse(r[0]!)?["FileName"]?.GetValue<string>()).OfType<string>()
            .ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>Rows without their file, files that have changed, and files without a row.</summary>
    public static IReadOnlyList<string> Compare(IReadOnlyList<StoredPhoto>? stored, string folder, IReadOnlySet<string>? held = null)
    {
        if (stored is null)
        {
            return [];
        }

        var files = Directory.Exists(folder)
            ? Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Where(f => !LeftoverFiles.Is(f))
            .Select(f => Path.GetRelativePath(folder, f).Replace('\\', '/')).Order(StringComparer.Ordinal).ToList()
            : [];
        var named = stored.Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);
        var found = new List<string>();
        foreach (var photo in stored)
        {
            if (!files.Contains(photo.FileName))
            {
                found.Add($"Photo {photo.FileName}: the database names it, but photos/ does not hold it. What to do: take the file from a "
                    + $"backup, or remove the photo from its page.");
            }
            else if (!Sum(Path.Combine(folder, photo.FileName)).Equals(photo.Sha256, StringComparison.OrdinalIgnoreCase))
            {
                found.Add($"Photo {photo.FileName}: the file is not the one that was stored. What to do: take it from a backup.");
            }
        }

        found.AddRange(files.Where(f => !named.Contains(Features.Photos.PhotoFolder.PhotoOf(f))
            && held?.Contains(Features.Photos.PhotoFolder.PhotoOf(f)) != true)
            .Select(f => $"Photo {f}: photos/ holds it, but the database does not name it. What to do: move it out of the data folder; if "
            + $"it is missed, it can be added again."));
        return found;
    }

    private static string Sum(string file)
    {
        using var stream = File.OpenRead(file);
        return Convert.ToHexString(SHA256.HashData(stream));
    }
}
