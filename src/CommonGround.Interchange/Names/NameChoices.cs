namespace CommonGround.Interchange.Names;

/// <summary>Puts the names of the catalogue that somebody chose in place of those a file has; cf. and aff. stay.</summary>
internal static class NameChoices
{
    public static ImportFile Apply(ImportFile file, IReadOnlyDictionary<string, string> names) => names.Count == 0 ? file : file with
    {
        Sightings = [.. file.Sightings.Select(r => r with { Name = Chosen(r.Name, names) })],
        Infestations = [.. file.Infestations.Select(r => r with { Name = Chosen(r.Name, names) })],
        Prices = [.. file.Prices.Select(r => r with { ScientificName = names.GetValueOrDefault(r.ScientificName, r.ScientificName) })],
        Overrides = [.. file.Overrides.Select(r => r with { ScientificName = names.GetValueOrDefault(r.ScientificName,
            r.ScientificName) })],
    };

    private static TaxonName Chosen(TaxonName name, IReadOnlyDictionary<string, string> names) =>
        names.TryGetValue(name.Name, out var chosen) ? name with { Name = chosen } : name;
}
