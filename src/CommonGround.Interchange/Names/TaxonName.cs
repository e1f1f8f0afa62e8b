namespace CommonGround.Interchange.Names;

/// <summary>A scientific name as somebody wrote it, apart from the doubt written into it.</summary>
/// <param name="Name">The name, single spaces, without cf. or aff.</param>
/// <param name="Qualifier"><c>cf.</c>, <c>aff.</c> or empty (Darwin Core identificationQualifier).</param>
public sealed record TaxonName(string Name, string Qualifier)
{
    /// <summary>Takes <c>cf.</c> or <c>aff.</c> out of a name, wherever it stands: "Aster cf. laevis", "cf. Aster laevis".</summary>
    public static TaxonName Parse(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var qualifier = "";
        var words = new List<string>();
        foreach (var word in written.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var found = QualifierIn(word);
            if (found.Length == 0) words.Add(word);
            else if (qualifier.Length == 0) qualifier = found;
        }
        return new TaxonName(string.Join(' ', words), qualifier);
    }

    /// <summary>The name with its doubt, as files write it: the qualifier before the last epithet.</summary>
    public override string ToString()
    {
        if (Qualifier.Length == 0) return Name;
        var cut = Name.IndexOf(' ', StringComparison.Ordinal);
        return cut < 0 ? $"{Qualifier} {Name}" : $"{Name[..cut]} {Qualifier}{Name[cut..]}";
    }

    private static string QualifierIn(string word)
    {
        const int LongestQualifier = 6; // "(aff.)"
        if (word.Length > LongestQualifier) return "";
        return word.Trim('(', ')').ToUpperInvariant() switch
        {
            "CF." or "CF" or "CFR." => "cf.",
            "AFF." or "AFF" => "aff.",
            _ => "",
        };
    }
}
