using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>What a column of figures measures, where files write it in more than one unit.</summary>
public enum Quantity { None, Area, Rain, Temperature, SeedPrice }

/// <summary>A unit that files use, and the way from it to ours. Factors are exact: NIST Special Publication 811 (2008), appendix B; the
/// foot is the international foot of 0.3048 m.</summary>
/// <param name="Key">Short and stable, for a choice.</param>
/// <param name="Words">As people read it.</param>
/// <param name="Quantity">What it measures.</param>
/// <param name="Factor">Ours for one of it.</param>
/// <param name="Offset">Subtracted before the factor; 0 but for temperatures.</param>
public sealed record MeasureUnit(string Key, string Words, Quantity Quantity, double Factor, double Offset = 0)
{
    private const double FootMetres = 0.3048, PoundGrams = 453.59237;

    public static readonly MeasureUnit SquareMetres = new("m2", "square metres", Quantity.Area, 1);
    public static readonly MeasureUnit SquareFeet = new("ft2", "square feet", Quantity.Area, FootMetres * FootMetres);
    public static readonly MeasureUnit SquareInches = new("in2", "square inches", Quantity.Area, FootMetres * FootMetres / 144);
    public static readonly MeasureUnit SquareYards = new("yd2", "square yards", Quantity.Area, 9 * FootMetres * FootMetres);
    public static readonly MeasureUnit Acres = new("ac", "acres", Quantity.Area, 43_560 * FootMetres * FootMetres);
    public static readonly MeasureUnit Hectares = new("ha", "hectares", Quantity.Area, 10_000);
    public static readonly MeasureUnit Millimetres = new("mm", "millimetres", Quantity.Rain, 1);
    public static readonly MeasureUnit Inches = new("in", "inches", Quantity.Rain, 25.4);
    public static readonly MeasureUnit Celsius = new("C", "degrees Celsius", Quantity.Temperature, 1);
    public static readonly MeasureUnit Fahrenheit = new("F", "degrees Fahrenheit", Quantity.Temperature, 5d / 9, 32);
    public static readonly MeasureUnit PerGram = new("per-g", "for a gram", Quantity.SeedPrice, 1);
    public static readonly MeasureUnit PerOunce = new("per-oz", "for an ounce", Quantity.SeedPrice, 16 / PoundGrams);
    public static readonly MeasureUnit PerPound = new("per-lb", "for a pound", Quantity.SeedPrice, 1 / PoundGrams);
    public static readonly MeasureUnit PerKilogram = new("per-kg", "for a kilogram", Quantity.SeedPrice, 0.001);

    /// <summary>All units; of each quantity ours comes first.</summary>
    public static readonly IReadOnlyList<MeasureUnit> All = [SquareMetres, SquareFeet, SquareInches, SquareYards, Acres, Hectares,
        Millimetres, Inches, Celsius, Fahrenheit, PerGram, PerOunce, PerPound, PerKilogram];

    /// <summary>How headings and cells write them: small letters and digits alone, words run together.</summary>
    private static readonly (MeasureUnit Unit, string[] Spellings)[] Spelt =
    [
        (SquareMetres, ["m2", "sqm", "sqmt", "sqmtr", "sqmetre", "sqmetres", "sqmeter", "sqmeters", "squaremetre", "squaremetres",
            "squaremeter", "squaremeters", "sqrm"]),
        (SquareFeet, ["ft2", "sqft", "sqfeet", "sqfoot", "squarefeet", "squarefoot", "squareft", "sf", "sqrft", "feet2", "sqfts",
            "feetsq", "ftsq", "feetsquared", "ftsquared"]),
        (SquareInches, ["in2", "sqin", "sqinches", "squareinches"]),
        (SquareYards, ["yd2", "sqyd", "sqyds", "sqyards", "squareyards", "squareyard"]),
        (Acres, ["ac", "acre", "acres"]),
        (Hectares, ["ha", "hectare", "hectares"]),
        (Millimetres, ["mm", "millimetres", "millimeters", "millimetre", "millimeter"]),
        (Inches, ["in", "ins", "inch", "inches"]),
        (Celsius, ["c", "degc", "degreesc", "celsius", "centigrade", "degreescelsius"]),
        (Fahrenheit, ["f", "degf", "degreesf", "fahrenheit", "degreesfahrenheit"]),
        (PerGram, ["pergram", "perg", "gram", "g", "gm"]),
        (PerOunce, ["perounce", "peroz", "oz", "ounce"]),
        (PerPound, ["perpound", "perlb", "lb", "lbs", "pound"]),
        (PerKilogram, ["perkg", "perkilogram", "kg", "kilo"]),
    ];

    /// <summary>What a column of ours measures.</summary>
    public static Quantity Of(string column) => column switch
    {
        "yard_m2" or "lawn_m2" or "area_m2" or "cover_m2" => Quantity.Area,
        "rain_mm" => Quantity.Rain,
        "tmin_c" or "tmax_c" => Quantity.Temperature,
        "seed_per_gram" => Quantity.SeedPrice,
        _ => Quantity.None,
    };

    /// <summary>The units a column of ours may be written in; ours first, none where it has no unit.</summary>
    public static IReadOnlyList<MeasureUnit> For(string column) => Of(column) is var quantity && quantity == Quantity.None ? []
        : [.. All.Where(u => u.Quantity == quantity)];

    public static MeasureUnit? Keyed(string? key) => All.FirstOrDefault(u => u.Key == key);

    /// <summary>The unit a word means, such as "sq. ft" or "°F", among those of a quantity.</summary>
    public static MeasureUnit? Named(string words, Quantity quantity)
    {
        var plain = string.Concat(Parts(words));
        return Spelt.FirstOrDefault(s => s.Unit.Quantity == quantity && s.Spellings.Contains(plain, StringComparer.Ordinal)).Unit;
    }

    /// <summary>A heading cut into its name and the unit it says: "Lot sq ft" is "lot" in square feet. No unit: the whole name.</summary>
    public static (string Name, MeasureUnit? Unit) InHeading(string heading)
    {
        var parts = Parts(heading);
        for (var length = Math.Min(3, parts.Count); length > 0; length--)
        {
            if (Spelling(parts[^length..]) is { } last) return (string.Concat(parts[..^length]), last);
            if (Spelling(parts[..length]) is not { } first) continue;
            var rest = parts[length..];
            if (rest.Count > 0 && rest[0] == "of") rest = rest[1..];
            // "C value" and "In flower" begin with a letter that is no unit.
            if (string.Concat(parts[..length]).Length > 2) return (string.Concat(rest), first);
        }
        return (string.Concat(parts), null);
    }

    /// <summary>A figure in this unit as ours.</summary>
    public double ToOurs(double value) => (value - Offset) * Factor;

    private static MeasureUnit? Spelling(List<string> parts)
    {
        var plain = string.Concat(parts);
        return Spelt.FirstOrDefault(s => s.Spellings.Contains(plain, StringComparer.Ordinal)).Unit;
    }

    /// <summary>Words of a heading in small letters; ² is 2.</summary>
    private static List<string> Parts(string text)
    {
        var sound = new string([.. text.Where(c => !char.IsSurrogate(c))]).Replace('²', '2');
        return [.. new string([.. NameKey.Fold(sound).Select(c => char.IsLetterOrDigit(c) ? c : ' ')])
            .Split(' ', StringSplitOptions.RemoveEmptyEntries)];
    }
}
