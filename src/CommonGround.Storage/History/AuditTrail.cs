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
public static class AuditTrail
{
    private const string NeighbourhoodColumn = "NeighbourhoodId", Yard = "YardId";

    private const int LettersPerColumn = 4;

    /// <summary>Whether rows of this kind have a history. Sign-in's own rows, history itself and what is worked out from the record have
    /// none.</summary>
    public static bool Keeps(IReadOnlyEntityType type) => RowKinds.Of(type) is not null;

    internal static int NeighbourhoodOf(EntityEntry entry) => entry.Entity is Neighbourhood neighbourhood ? neighbourhood.Id
        : (int)entry.Property(NeighbourhoodColumn).CurrentValue!;

    /// <summary>The row as history, or null where only what is worked out is renewed.</summary>
    /// <param name="named">Kinds whose columns this change has named already; grows.</param>
    internal static ChangedRow? Of(EntityEntry entry, ChangeNote note, HashSet<string> named)
    {
        var type = entry.Metadata;
        var action = entry.State switch
        {
            EntityState.Added => RowAction.Added,
            EntityState.Deleted => RowAction.Removed,
            _ => RowAction.Changed
        };
        var altered = action == RowAction.Changed ? entry.Properties.Where(p => RowKinds.ColumnOf(p.Metadata) is not null
            && !p.Metadata.GetValueComparer().Equals(p.OriginalValue, p.CurrentValue)).Select(p => p.Metadata).ToList() : [];
        if (action == RowAction.Changed && altered.Count == 0)
        {
            return null;
        }

        var row = new ChangedRow
        {
            NeighbourhoodId = note.NeighbourhoodId,
            ChangeId = 0,
            Kind = RowKinds.Of(type)!,
            RowKey = Key(entry),
            RowAction = action,
            YardId = YardOf(entry)
        };
        row.Before = action switch
        {
            RowAction.Removed => Write(Columns(type), entry.OriginalValues),
            RowAction.Changed => Write(altered, entry.OriginalValues),
            _ => null
        };
        row.After = action == RowAction.Changed ? Write(altered, entry.CurrentValues) : null;
        row.Hash = action == RowAction.Removed ? "" : HashOf(entry);
        row.Columns = row.Hash.Length > 0 && named.Add(row.Kind) ? ColumnsOf(type) : null;
        return row;
    }

    /// <summary>Hash of what a row holds, four letters (24 bits) for each of <see cref="ColumnsOf"/>.</summary>
    public static string HashOf(EntityEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var buffer = new ArrayBufferWriter<byte>(128);
        return string.Concat(Compared(entry.Metadata).Select(p => HashOf(buffer, entry.CurrentValues[p])));
    }

    /// <summary>The columns that a hash is taken over now, in its order, with blanks between.</summary>
    public static string ColumnsOf(IEntityType type) => string.Join(' ', Compared(type).Select(RowKinds.ColumnOf));

    /// <summary>Whether a row still has the hash that history kept, in the columns the model still has.</summary>
    /// <param name="entry">The row as it is now.</param>
    /// <param name="hash">What history kept.</param>
    /// <param name="columns">The columns it was taken over.</param>
    public static bool IsUnchanged(EntityEntry entry, string hash, IReadOnlyList<string> columns)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(hash);
        ArgumentNullException.ThrowIfNull(columns);
        var buffer = new ArrayBufferWriter<byte>(128);
        return hash.Length == columns.Count * LettersPerColumn
            && !columns.Where((column, i) => RowKinds.Find(entry.Metadata, column) is IProperty property
            && !hash.AsSpan(i * LettersPerColumn, LettersPerColumn).SequenceEqual(HashOf(buffer, entry.CurrentValues[property]))).Any();
    }

    private static string HashOf(ArrayBufferWriter<byte> buffer, object? value)
    {
        buffer.ResetWrittenCount();
        using (var json = new Utf8JsonWriter(buffer))
        {
            Write(json, value);
        }

        return Convert.ToBase64String(SHA256.HashData(buffer.WrittenSpan)[..3]);
    }

    /// <summary>Key columns cannot be altered, so they are not compared.</summary>
    private static IProperty[] Compared(IEntityType type) => type.GetOrAddRuntimeAnnotationValue("History:Compared",
        static t => Columns(t!).Where(p => !p.IsPrimaryKey()).ToArray(), type)!;

    /// <summary>The values of a row's key in the model's order, ready to find it.</summary>
    public static object[] KeyValues(IReadOnlyEntityType type, int neighbourhoodId, string rowKey)
    {
        ArgumentNullException.ThrowIfNull(type);
        ArgumentNullException.ThrowIfNull(rowKey);
        var parts = new Queue<string>(rowKey.Split('|'));
        return [.. type.FindPrimaryKey()!.Properties.Select(p => p.Name == NeighbourhoodColumn ? neighbourhoodId
            : Part(p.ClrType, parts.Dequeue()))];
    }

    /// <summary>Puts values kept by history back into a row.</summary>
    public static void PutBack(EntityEntry entry, string columns)
    {
        ArgumentNullException.ThrowIfNull(entry);
        using var document = JsonDocument.Parse(columns);
        foreach (var column in document.RootElement.EnumerateObject())
        {
            // A column that has been dropped from the model since has no place to go back to.
            if (RowKinds.Find(entry.Metadata, column.Name) is { } property)
            {
                entry.Property(property.Name).CurrentValue = column.Value.ValueKind == JsonValueKind.Null ? null
                    : column.Value.Deserialize(property.ClrType, Options);
            }
        }
    }

    /// <summary>A row that history kept whole, ready to be stored again. Columns that came later begin empty.</summary>
    public static void Restore(EntityEntry entry, string columns)
    {
        PutBack(entry, columns);
        foreach (var property in entry.Properties.Where(p => p.CurrentValue is null && !p.Metadata.IsNullable
            && p.Metadata.ClrType == typeof(string)))
        {
            property.CurrentValue = "";
        }
    }

    private static readonly JsonSerializerOptions Options = new(
        )
    { Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter() } };

    private static object Part(Type type, string text) => type == typeof(DateOnly)
        ? DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture)
        : Convert.ChangeType(text, type, CultureInfo.InvariantCulture);

    private static string Key(EntityEntry entry) => string.Join('|',
        entry.Metadata.FindPrimaryKey()!.Properties.Where(p => p.Name != NeighbourhoodColumn)
        .Select(p => entry.Property(p.Name).CurrentValue is DateOnly day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        : Convert.ToString(entry.Property(p.Name).CurrentValue, CultureInfo.InvariantCulture)));

    private static long? YardOf(EntityEntry entry) => entry.Entity is Yard yard ? yard.Id
        : entry.Metadata.FindProperty(Yard) is { } property ? (long?)entry.Property(property.Name).CurrentValue
        : null;

    private static IEnumerable<IProperty> Columns(IEntityType type) => type.GetProperties().Where(p => RowKinds.ColumnOf(p) is not null);

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
            json.WritePropertyName(RowKinds.ColumnOf(column)!);
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
