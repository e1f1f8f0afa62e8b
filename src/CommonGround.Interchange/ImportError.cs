namespace CommonGround.Interchange;

/// <summary>One thing wrong in a file, told so that its writer can correct it.</summary>
/// <param name="File">Name of the file, without its folder.</param>
/// <param name="Line">Line in the file from 1, where the row starts; in GeoJSON the feature's number from 1. 0 speaks of the whole
/// file.</param>
/// <param name="Column">Column or property, or empty when the whole row or file is meant.</param>
/// <param name="Value">What stands there now, shortened when long.</param>
/// <param name="What">What is wrong, one sentence.</param>
/// <param name="HowToCorrect">What to do about it, one sentence.</param>
public sealed record ImportError(string File, int Line, string Column, string Value, string What, string HowToCorrect)
{
    private const int LongestShown = 60;

    /// <summary>A value short enough to show, never cut through a surrogate pair.</summary>
    internal static string Shown(ReadOnlySpan<char> value)
    {
        if (value.Length <= LongestShown) return value.ToString();
        var cut = LongestShown - 3;
        return string.Concat(value[..(char.IsHighSurrogate(value[cut - 1]) ? cut - 1 : cut)], "...");
    }

    /// <summary>The error on one line, for a terminal or a list.</summary>
    public override string ToString()
    {
        var place = Line > 0 ? $"{File}, line {Line}" : File;
        if (Column.Length > 0) place += $", {Column}";
        var value = Value.Length > 0 ? $" \"{Value}\":" : ":";
        return $"{place}{value} {What} {HowToCorrect}";
    }
}
