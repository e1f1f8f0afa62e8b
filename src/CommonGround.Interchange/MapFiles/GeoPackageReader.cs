using Microsoft.Data.Sqlite;
using NetTopologySuite.IO;

namespace CommonGround.Interchange.MapFiles;

/// <summary>Reads the feature tables of a GeoPackage (OGC 12-128r19): a SQLite file.</summary>
internal static class GeoPackageReader
{
    private const string Tables = """
        SELECT g.table_name, g.column_name, s.organization, s.organization_coordsys_id, s.definition
        FROM gpkg_geometry_columns g
        JOIN sqlite_master m ON m.name = g.table_name AND m.type = 'table'
        LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id
        ORDER BY g.table_name
        """;

    public static IReadOnlyList<MapLayer> Read(byte[] content)
    {
        // SQLite reads files, not bytes.
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, content);
            using var file = new SqliteConnection(new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Mode = SqliteOpenMode.ReadOnly,
                Pooling = false,
            }.ToString());
            file.Open();
            // A file from elsewhere: nothing it defines is run.
            Run(file, "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA query_only = ON;");
            return [.. TablesOf(file).Select(t => Read(file, t.Name, t.Shapes, t.System))];
        }
        catch (SqliteException wrong)
        {
            throw new MapFileException("This SQLite file is damaged or no GeoPackage.", "Fetch it again, or save the streets as GeoJSON.",
                wrong);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static List<(string Name, string Shapes, string System)> TablesOf(SqliteConnection file)
    {
        using var command = Command(file, Tables);
        using var rows = command.ExecuteReader();
        var tables = new List<(string, string, string)>();
        while (rows.Read())
        {
            var code = rows.IsDBNull(2) || rows.IsDBNull(3) ? "" : $"{rows.GetString(2)}:{rows.GetInt64(3)}";
            var text = rows.IsDBNull(4) ? "" : rows.GetString(4);
            tables.Add((rows.GetString(0), rows.GetString(1), text.Contains('[', StringComparison.Ordinal) ? text
                : code.StartsWith("EPSG", StringComparison.OrdinalIgnoreCase) ? code : ""));
        }

        return tables;
    }

    private static MapLayer Read(SqliteConnection file, string table, string shapes, string system)
    {
        using var command = Command(file, $"SELECT * FROM \"{table.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
        using var rows = command.ExecuteReader();
        var at = Enumerable.Range(0, rows.FieldCount)
            .FirstOrDefault(i => rows.GetName(i).Equals(shapes, StringComparison.OrdinalIgnoreCase), -1);
        var others = Enumerable.Range(0, rows.FieldCount).Where(i => i != at).ToList();
        var gathered = new MapFeatures(table, [.. others.Select(rows.GetName)], system);
        var reader = new GeoPackageGeoReader();
        while (rows.Read())
        {
            var shape = at >= 0 && rows.GetValue(at) is byte[] bytes ? Shape(reader, bytes) : null;
            gathered.Add(shape, [.. others.Select(rows.GetValue)]);
        }

        return gathered.Layer;
    }

    private static NetTopologySuite.Geometries.Geometry? Shape(GeoPackageGeoReader reader, byte[] bytes)
    {
        try
        {
            return reader.Read(bytes);
        }
        catch (Exception wrong) when (wrong is IOException or ArgumentException or ParseException or InvalidOperationException
            or OverflowException)
        {
            // One shape that cannot be read is counted as left out; the others are good.
            return null;
        }
    }

    private static SqliteCommand Command(SqliteConnection file, string text)
    {
        var command = file.CreateCommand();
#pragma warning disable CA2100 // The only part that comes from the file is a table's name, quoted.
        command.CommandText = text;
#pragma warning restore CA2100
        return command;
    }

    private static void Run(SqliteConnection file, string text)
    {
        using var command = Command(file, text);
        command.ExecuteNonQuery();
    }
}
