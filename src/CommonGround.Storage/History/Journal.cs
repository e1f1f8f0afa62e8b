using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;

namespace CommonGround.Storage.History;

/// <summary>Turns what a save is about to write into rows of history.</summary>
public static class Journal
{
    private const string NeighbourhoodColumn = "NeighbourhoodId", Version = "Version", Yard = "YardId";

    /// <summary>Sign-in's own rows, history itself and what is worked out from the record have no history.</summary>
    public static bool Keeps(IReadOnlyEntityType type) =>
        type.ClrType.Namespace != typeof(Account).Namespace && type.ClrType.Namespace!.StartsWith("CommonGround.", StringComparison.Ordinal)
        && type.ClrType != typeof(Change) && type.ClrType != typeof(ChangedRow) && type.ClrType != typeof(PublishedYards)
        && type.ClrType != typeof(ChangeStamp) && type.ClrType != typeof(SiteCounter);

    internal static int NeighbourhoodOf(EntityEntry entry) => entry.Entity is Neighbourhood neighbourhood ? neighbourhood.Id : (int)entry.Property(NeighbourhoodColumn).CurrentValue!;

    /// <summary>The row as history, or null where only its version is renewed.</summary>
    internal static ChangedRow? Of(EntityEntry entry, ChangeNote note)
    {
        var type = entry.Metadata;
        var did = entry.State switch { EntityState.Added => Did.Added, EntityState.Deleted => Did.Removed, _ => Did.Changed };
        var altered = did == Did.Changed ? entry.Properties.Where(p => p.Metadata.Name != Version && !p.Metadata.GetValueComparer().Equals(p.OriginalValue, p.CurrentValue)).Select(p => p.Metadata).ToList() : [];
        if (did == Did.Changed && altered.Count == 0)
        {
            return null;
        }

        var row = new ChangedRow { NeighbourhoodId = note.NeighbourhoodId, ChangeId = 0, Kind = type.ClrType.Name, RowKey = Key(entry), Did = did, YardId = YardOf(entry) };
        row.Before = did switch { Did.Removed => Write(Columns(type), entry.OriginalValues), Did.Changed => Write(altered, entry.OriginalValues), _ => null };
        row.After = did == Did.Changed ? Write(altered, entry.CurrentValues) : null;
        row.Print = did == Did.Removed ? "" : Print(entry);
        return row;
    }

    /// <summary>Fingerprint of what a row holds, its version aside.</summary>
    public static string Print(EntityEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var buffer = new ArrayBufferWriter<byte>(512);
        Write(buffer, Columns(entry.Metadata), entry.CurrentValues);
        return Convert.ToHexString(SHA256.HashData(buffer.WrittenSpan)[..8]);
    }

    /// <summary>The values of a row's key in the model's order, ready to find it.</summary>
    public static object[] KeyValues(IReadOnlyEntityType type, int neighbourhoodId, string rowKey)
    {
        ArgumentNullException.ThrowIfNull(type);
        ArgumentNullException.ThrowIfNull(rowKey);
        var parts = new Queue<string>(rowKey.Split('|'));
        return [.. type.FindPrimaryKey()!.Properties.Select(p => p.Name == NeighbourhoodColumn ? neighbourhoodId : Part(p.ClrType, parts.Dequeue()))];
    }

    /// <summary>Puts values kept by history back into a row.</summary>
    public static void PutBack(EntityEntry entry, string columns)
    {
        ArgumentNullException.ThrowIfNull(entry);
        using var document = JsonDocument.Parse(columns);
        foreach (var column in document.RootElement.EnumerateObject())
        {
            // A column that has been dropped from the model since has no place to go back to.
            if (entry.Metadata.FindProperty(column.Name) is { } property)
            {
                entry.Property(property.Name).CurrentValue = column.Value.ValueKind == JsonValueKind.Null ? null : column.Value.Deserialize(property.ClrType, Options);
            }
        }
    }

    private static readonly JsonSerializerOptions Options = new() { Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter() } };

    private static object Part(Type type, string text) => type == typeof(DateOnly)
        ? DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture)
        : Convert.ChangeType(text, type, CultureInfo.InvariantCulture);

    private static string Key(EntityEntry entry) => string.Join('|', entry.Metadata.FindPrimaryKey()!.Properties.Where(p => p.Name != NeighbourhoodColumn)
        .Select(p => entry.Property(p.Name).CurrentValue is DateOnly day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : Convert.ToString(entry.Property(p.Name).CurrentValue, CultureInfo.InvariantCulture)));

    private static long? YardOf(EntityEntry entry) => entry.Entity is Yard yard ? yard.Id
        : entry.Metadata.FindProperty(Yard) is { } property ? (long?)entry.Property(property.Name).CurrentValue
        : null;

    private static IEnumerable<IProperty> Columns(IEntityType type) => type.GetProperties().Where(p => p.Name != Version);

    private static string Write(IEnumerable<IProperty> columns, PropertyValues values)
    {
        var buffer = new ArrayBufferWriter<byte>(256);
        Write(buffer, columns, values);
        return System.Text.Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(IBufferWriter<byte> to, IEnumerable<IProperty> columns, PropertyValues values)
    {
        using var json = new Utf8JsonWriter(to);
        json.WriteStartObject();
        foreach (var column in columns)
        {
            json.WritePropertyName(column.Name);
            Write(json, values[column]);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, object? value)
    {
        switch (value)
        {
            case null: json.WriteNullValue(); break;
            case string text: json.WriteStringValue(text); break;
            case long number: json.WriteNumberValue(number); break;
            case int number: json.WriteNumberValue(number); break;
            case double number: json.WriteNumberValue(number); break;
            case bool yes: json.WriteBooleanValue(yes); break;
            case Enum word: json.WriteStringValue(word.ToString()); break;
            case DateOnly day: json.WriteStringValue(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)); break;
            // To the millisecond: one database keeps seven digits, the other six.
            case DateTime moment: json.WriteStringValue(moment.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture)); break;
            default: JsonSerializer.Serialize(json, value, value.GetType(), Options); break;
        }
    }
}
