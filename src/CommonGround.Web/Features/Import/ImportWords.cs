using CommonGround.Interchange;
using CommonGround.Interchange.Csv;

namespace CommonGround.Web.Features.Import;

/// <summary>The import's words for people.</summary>
public static class ImportWords
{
    private const int LongestSample = 24;

    public static readonly IReadOnlyList<(ImportKind Kind, string Words)> Kinds =
    [
        (ImportKind.Unrecognised, "Choose…"), (ImportKind.Places, "yards"), (ImportKind.Beds, "beds of yards"),
            (ImportKind.Sightings, "plants seen growing"),
        (ImportKind.Infestations, "unwanted plants"), (ImportKind.Rain, "rain, day by day"),
            (ImportKind.Temperature, "temperature, day by day"), (ImportKind.Prices, "prices of seed and plants"),
        (ImportKind.Overrides, "values of plants that the group has overridden"), (ImportKind.Catalogue, "the plant catalogue"),
    ];

    /// <summary>A column of ours as people read it: "cover, m²".</summary>
    public static string Column(string ours)
    {
        ArgumentNullException.ThrowIfNull(ours);
        return ours switch
        {
            "yard" => "yard’s code",
            "yard_m2" => "whole yard, m²",
            "lawn_m2" => "lawn, m²",
            "area_m2" => "area, m²",
            "cover_m2" => "cover, m²",
            "rain_mm" => "rain, mm",
            "tmin_c" => "lowest temperature, °C",
            "tmax_c" => "highest temperature, °C",
            "observed_on" => "day it was seen",
            "established_on" => "day it was first planted",
            "seed_per_gram" => "seed, money a gram",
            "plug_each" => "plug, money each",
            _ => ours.Replace('_', ' '),
        };
    }

    /// <summary>A day written with slashes as one order reads it; nothing where it is no day.</summary>
    public static string Read(string cell, DateOrder order) => DateOrders.Read(cell, order) is { } day ? $": {Shared.Words.Date(day)}" : "";

    /// <summary>Whether a column that a file lacks may be the same in every row, such as the street of a file of one street.</summary>
    public static bool MayBeSame(string ours) => ours is "street" or "block" or "yard" or "bed" or "observed_on";

    /// <summary>A figure of a column in its unit, and what is stored of it: "7,200 becomes 669 m²".</summary>
    public static string Becomes(double figure, MeasureUnit unit, MeasureUnit ours)
    {
        ArgumentNullException.ThrowIfNull(unit);
        ArgumentNullException.ThrowIfNull(ours);
        var stored = unit.ToOurs(figure);
        return unit == ours ? $"{figure:#,0.###} {Sign(ours)} as it is"
            : $"{figure:#,0.###} becomes {(stored >= 100 ? $"{stored:#,0}" : $"{stored:0.##}")} {Sign(ours)}";
    }

    private static string Sign(MeasureUnit unit) => unit.Quantity switch
    {
        Quantity.Area => "m²",
        Quantity.Rain => "mm",
        Quantity.Temperature => "°C",
        _ => "a gram",
    };

    public static string Short(string cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return cell.Length == 0 ? "–" : cell.Length <= LongestSample ? cell
            : cell[..(char.IsHighSurrogate(cell[LongestSample - 1]) ? LongestSample - 1 : LongestSample)] + "…";
    }
}
