using System.Text.RegularExpressions;

namespace CommonGround.Planning.Conversion;

/// <summary>Sentences that hold a measure twice, "[15–20 cm|6–8 in]", for readers of either.</summary>
public static partial class UnitWords
{
    /// <summary>The sentence with metric measures, or with those customary in the United States. Text without brackets stays as it
    /// is.</summary>
    public static string In(string text, bool customary) =>
        Measures().Replace(text, m => m.Groups[customary ? "customary" : "metric"].Value);

    [GeneratedRegex(@"\[(?<metric>[^|\]]*)\|(?<customary>[^\]]*)\]", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Measures();
}
