using System.Globalization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Web.Shared;

/// <summary>Figures and dates as they are read: units said, unknown as a dash.</summary>
public static class Words
{
    public const double SquareFeetPerSquareMetre = 10.763910416709722; // exact: (1 / 0.3048)², international foot
    public const double FeetPerMetre = 1 / 0.3048;

    public static string Date(DateOnly day) => DayWords.Date(day);

    public static string ShortDate(DateOnly day) => DayWords.Short(day);

    public static string DayMonth(DateOnly day) => DayWords.DayMonth(day);

    /// <summary>"August 2026".</summary>
    public static string Month(DateOnly day) => day.ToString("MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Number(double? value, string format = "0.0") => value is { } v ? v.ToString(format, CultureInfo.InvariantCulture)
        : "–";

    public static string Percent(double? share) => share is { } s ? $"{Math.Round(s * 100)} %" : "–";

    /// <summary>The first letter large.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>"1 yard", "3 yards".</summary>
    public static string Count(int count, string one, string? many = null) => count == 1 ? $"1 {one}"
        : $"{count.ToString("#,0", CultureInfo.InvariantCulture)} {many ?? one + "s"}";

    /// <summary>Small numbers as words at the head of a sentence: "Eight streets".</summary>
    public static string Spelled(int number) => number switch
    {
        0 => "No",
        1 => "One",
        2 => "Two",
        3 => "Three",
        4 => "Four",
        5 => "Five",
        6 => "Six",
        7 => "Seven",
        8 => "Eight",
        9 => "Nine",
        10 => "Ten",
        11 => "Eleven",
        12 => "Twelve",
        _ => number.ToString(CultureInfo.InvariantCulture),
    };

    public static string List(IReadOnlyList<string> items) => items.Count switch
    {
        0 => "",
        1 => items[0],
        _ => string.Join(", ", items.Take(items.Count - 1)) + " and " + items[^1],
    };
}

/// <summary>Metric or US customary, by the reader's choice; everything is stored in SI.</summary>
public sealed record Units(bool Customary)
{
    private const double GramsPerOunce = 28.349523125; // exact: international avoirdupois ounce

    /// <summary>"11 plugs to 10 sq ft", of plugs per square metre.</summary>
    public string PlugsWords(double perSquareMetre) => Customary
        ? $"{(10 * perSquareMetre / Words.SquareFeetPerSquareMetre).ToString("0.#", CultureInfo.InvariantCulture)} plugs to 10 sq ft"
        : $"{perSquareMetre.ToString("0.#", CultureInfo.InvariantCulture)} plugs to a square metre";

    /// <summary>"12 g" or "0.4 oz".</summary>
    public string MassWords(double grams) => Customary ? $"{(grams / GramsPerOunce).ToString("0.##", CultureInfo.InvariantCulture)} oz"
        : $"{grams.ToString("0.#", CultureInfo.InvariantCulture)} g";

    public string AreaUnit => Customary ? "ft²" : "m²";

    public double Area(double squareMetres) => Customary ? squareMetres * Words.SquareFeetPerSquareMetre : squareMetres;

    /// <summary>An area as it stands in a field to be typed over.</summary>
    public double? AreaTyped(double? squareMetres) => squareMetres is { } a ? Math.Round(Area(a), Customary ? 0 : 1) : null;

    /// <summary>An area typed into a field, in m².</summary>
    public double? AreaTold(double? typed) => Customary ? typed / Words.SquareFeetPerSquareMetre : typed;

    /// <summary>The figure alone, for a column whose heading carries the unit.</summary>
    public string AreaFigure(double squareMetres)
    {
        var area = Area(squareMetres);
        return area.ToString(area >= 100 || Customary ? "#,0" : "0.0", CultureInfo.InvariantCulture);
    }

    public string AreaWords(double squareMetres) => $"{AreaFigure(squareMetres)} {AreaUnit}";

    /// <summary>"600 m" or "2,000 ft": a way as far as it is known, in round figures.</summary>
    public string DistanceWords(double metres)
    {
        var way = Customary ? metres * Words.FeetPerMetre : metres;
        var step = way < 20 ? 1 : way < 100 ? 5 : 50;
        return $"{(Math.Round(way / step) * step).ToString("#,0", CultureInfo.InvariantCulture)} {(Customary ? "ft" : "m")}";
    }

    public string LengthWords(double metres) => Customary
        ? $"{(metres * Words.FeetPerMetre).ToString("0.#", CultureInfo.InvariantCulture)} ft"
        : $"{metres.ToString("0.0#", CultureInfo.InvariantCulture)} m";
}
