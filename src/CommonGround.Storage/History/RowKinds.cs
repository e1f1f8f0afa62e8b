using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.History;

/// <summary>
/// What history calls the kinds of rows and their columns. These words stand in the databases of groups for years: they are written here
/// and in the mappings by hand, are never taken from a type's name, and are never changed. A type or property may be renamed as one likes,
/// as long as its mapping keeps the word.
/// </summary>
public static class RowKinds
{
    public const string Bed = "Bed", Block = "StreetBlock", Infestation = "InfestationRecord", Invitation = "Invitation",
        Member = "Member", Neighbourhood = "Neighbourhood",
        Photo = "Photo", Plan = "SavedPlan", Price = "PriceRow", PlantNote = "PlantNote", PlantOverride = "PlantOverride",
            Sighting = "Sighting", Street = "Street", Taxon = "Taxon", Tour = "Tour", Weather = "WeatherDay", Yard = "Yard",
        Walk = "Walk", Wildlife = "WildlifeRecord", Treatment = "Treatment", CaseStep = "CaseStep";

    /// <summary>Columns that the program looks for in what history kept.</summary>
    public const string AccountId = "AccountId", CodeHash = "CodeHash", FileName = "FileName", OffsetKey = "OffsetKey", Rates = "Rates",
        Settings = "Settings";

    private const string KindKey = "History:Kind", ColumnKey = "History:Column", WorkedOutKey = "History:WorkedOut";

    /// <summary>Rows of this kind have a history, under this word.</summary>
    public static EntityTypeBuilder<T> HasHistory<T>(this EntityTypeBuilder<T> builder, string kind)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.HasAnnotation(KindKey, kind);
        return builder;
    }

    /// <summary>What history calls a column whose property was renamed since; without it the property's name is the word.</summary>
    public static PropertyBuilder<T> HasHistoryName<T>(this PropertyBuilder<T> builder, string column)
    {
        ArgumentNullException.ThrowIfNull(builder);
        return builder.HasAnnotation(ColumnKey, column);
    }

    /// <summary>Renewed or worked out by the program: history neither keeps nor compares it.</summary>
    public static PropertyBuilder<T> IsWorkedOut<T>(this PropertyBuilder<T> builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        return builder.HasAnnotation(WorkedOutKey, true);
    }

    /// <summary>The word for a kind of row; null where it has no history.</summary>
    public static string? Of(IReadOnlyEntityType type)
    {
        ArgumentNullException.ThrowIfNull(type);
        return (string?)type.FindAnnotation(KindKey)?.Value;
    }

    /// <summary>The word for a column; null where it is worked out.</summary>
    public static string? ColumnOf(IReadOnlyProperty property)
    {
        ArgumentNullException.ThrowIfNull(property);
        return property.FindAnnotation(WorkedOutKey) is not null ? null : (string?)property.FindAnnotation(ColumnKey)?.Value
            ?? property.Name;
    }

    /// <summary>The property that history calls so; null where it has been dropped since.</summary>
    public static IReadOnlyProperty? Find(IReadOnlyEntityType type, string column)
    {
        ArgumentNullException.ThrowIfNull(type);
        return type.GetProperties().FirstOrDefault(p => ColumnOf(p) == column);
    }
}
