using System.Globalization;
using System.Text.RegularExpressions;

namespace CommonGround.Interchange.Csv;

/// <summary>Figures as people type them: "7,200", "10 sq ft", "about 12", "3 x 4 ft", "1/2", "10-12".</summary>
internal static partial class UntidyNumber
{
    private const int LongestRead = 40;
    private const string Figure = @"(?:[0-9]{1,3}(?:[, ][0-9]{3})+(?:\.[0-9]+)?|[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+"
        + @"|[0-9]+,[0-9]{1,2}(?![0-9])|[0-9]*[½¼¾]|[0-9]+)";

    private static readonly string[] Counted = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve"];

    /// <summary>The figure in our unit and, where something was guessed, what; null where it is no figure.</summary>
    /// <param name="cell">As written.</param>
    /// <param name="column">Column of ours that it belongs to.</param>
    /// <param name="unit">The column's unit; a unit in the cell goes before it.</param>
    public static (double Value, string Guess)? Read(string cell, string column, MeasureUnit? unit)
    {
        if (cell.Length > LongestRead) return null;
        var quantity = MeasureUnit.Of(column);
        if (quantity == Quantity.Area && Sides().Match(cell) is { Success: true } sides) return Product(sides, unit);
        if (column == "count" && Array.IndexOf(Counted, cell.ToLowerInvariant()) is var at and >= 0) return (at + 1, "");
        if (Plain().Match(cell) is not { Success: true } match) return null;
        var value = Value(match.Groups["a"].Value);
        var guess = match.Groups["about"].Length > 0 ? "an estimate" : "";
        if (match.Groups["b"].Length > 0)
        {
            var other = Value(match.Groups["b"].Value);
            if (!(other > value)) return null;
            (value, guess) = ((value + other) / 2, "the middle of a range");
        }
        var word = match.Groups["unit"].Value.Trim(' ', '.', '?', '+');
        if (word.Length > 0 && quantity == Quantity.None)
        {
            // "3 clumps" counts; "40%" of something else does not.
            if (column != "count" || !word.All(c => char.IsLetter(c) || c == ' ')) return column == "cover_percent" && word == "%"
                ? (value, guess) : null;
        }
        else if (word.Length > 0)
        {
            if (MeasureUnit.Named(word, quantity) is not { } own) return null;
            unit = own;
        }
        if (match.Groups["sign"].Length > 0) value = -value;
        value = unit?.ToOurs(value) ?? value;
        return double.IsFinite(value) ? (column == "count" ? Math.Floor(value) : value, guess) : null;
    }

    /// <summary>Length by width; the sides carry feet or metres, or the column's unit tells.</summary>
    private static (double Value, string Guess)? Product(Match sides, MeasureUnit? unit)
    {
        var said = sides.Groups["ub"].Length > 0 ? sides.Groups["ub"].Value : sides.Groups["ua"].Value;
        var of = said.ToLowerInvariant() switch
        {
            "'" or "’" or "ft" or "ft." or "feet" or "foot" => MeasureUnit.SquareFeet,
            "m" or "metres" or "meters" => MeasureUnit.SquareMetres,
            "\"" or "”" or "in" or "inches" => MeasureUnit.SquareInches,
            "yd" or "yards" => MeasureUnit.SquareYards,
            _ => unit,
        };
        return of is null ? null : (of.ToOurs(Value(sides.Groups["a"].Value) * Value(sides.Groups["b"].Value)), "length times width");
    }

    private static double Value(string text)
    {
        var half = text.Length > 0 ? text[^1] switch { '½' => 0.5, '¼' => 0.25, '¾' => 0.75, _ => 0 } : 0;
        if (half > 0) return half + (text.Length > 1 ? Value(text[..^1]) : 0);
        if (text.Contains('/', StringComparison.Ordinal))
        {
            var parts = text.Split(' ', '/').Select(Value).ToArray();
            return parts.Length == 3 ? parts[0] + (parts[1] / parts[2]) : parts[0] / parts[1];
        }
        // A comma before three digits parts thousands; before one or two it is the decimal mark.
        var comma = text.LastIndexOf(',');
        var plain = comma >= 0 && text.Length - comma - 1 != 3 && !text.Contains('.', StringComparison.Ordinal)
            ? text.Replace(',', '.') : text.Replace(",", "", StringComparison.Ordinal);
        return double.TryParse(plain.Replace(" ", "", StringComparison.Ordinal), NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture, out var value) ? value : double.NaN;
    }

    [GeneratedRegex(@"^(?<about>~|≈|about |approx\.? ?|approximately |ca\.? ?|around |roughly |est\.? ?|maybe )?\s*\$?(?<sign>[-−])?"
        + $"(?<a>{Figure})" + @"(?: ?(?:-|–|to) ?" + $"(?<b>{Figure}))?" + @"(?<unit> ?[^0-9 ,./-].*|\+)?$",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Plain();

    [GeneratedRegex($"^(?<a>{Figure})" + @" ?(?<ua>'|’|ft\.?|feet|foot|m|metres|meters|""|”|in|inches|yd|yards)? ?(x|×|by|\*) ?"
        + $"(?<b>{Figure})" + @" ?(?<ub>'|’|ft\.?|feet|foot|m|metres|meters|""|”|in|inches|yd|yards)?$",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Sides();
}
