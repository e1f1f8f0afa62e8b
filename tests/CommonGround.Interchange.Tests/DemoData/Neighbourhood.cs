using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Tests.DemoData;

/// <summary>The committed files of Quarry Bend, read by the importer and put together.</summary>
public sealed class Neighbourhood
{
    private static readonly string Folder = Path.Combine(TestFiles.Root, "seed-data", "quarry-bend");

    public Neighbourhood()
    {
        Index = new NameIndex(Catalogue.Taxa);
        var states = new Dictionary<(string, string, string), Planting>();
        foreach (var row in Sightings.Sightings)
        {
            var taxon = Index.Resolve(row.Name.Name).ShouldNotBeNull($"{row.Name.Name} is not in the catalogue.");
            states[(row.Yard, row.Bed, taxon.ScientificName)] = new Planting(row, taxon, row.CoverSquareMetres
                ?? DerivedCover(row.Count!.Value, taxon.SpacingMetres!.Value));
        }
        Plantings = [.. states.Values];
        Growing = [.. Plantings.Where(p => p.Cover > 0)];
    }

    public sealed record Planting(SightingRow Last, CatalogueTaxon Taxon, double Cover);

    public ImportFile Catalogue { get; } = CatalogueFile.Read("plants.csv",
        File.ReadAllBytes(Path.Combine(TestFiles.Root, "seed-data", "plants.csv")));
    public ImportFile Places { get; } = Read("places.csv");
    public ImportFile Beds { get; } = Read("beds.csv");
    public ImportFile Sightings { get; } = Read("sightings.csv");
    public ImportFile Infestations { get; } = Read("infestations.csv");
    public ImportFile Streets { get; } = Read("streets.geojson");
    public NameIndex Index { get; }

    /// <summary>Latest state of every yard, bed and taxon.</summary>
    public IReadOnlyList<Planting> Plantings { get; }
    public IReadOnlyList<Planting> Growing { get; }

    public static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Folder, name));

    public static double DerivedCover(int count, double spacing) => count * 0.866 * spacing * spacing;

    public PlaceRow Place(string yard) => Places.Places.Single(p => p.Yard == yard);

    /// <summary>Street and block → its yards, for blocks with yards enough to be shown.</summary>
    public Dictionary<(string Street, string Block), HashSet<string>> ShownBlocks() => Places.Places.GroupBy(p => (p.Street, p.Block))
        .Where(b => b.Count() >= 3).ToDictionary(b => b.Key, b => b.Select(p => p.Yard).ToHashSet());

    /// <summary>Native taxa in flower among the yards, by half-month: each counted once.</summary>
    public int[] NativesInFlower(HashSet<string> yards)
    {
        var natives = Growing.Where(p => yards.Contains(p.Last.Yard) && p.Taxon.Nativity == Nativity.Native && p.Taxon.Bloom is not null)
            .Select(p => p.Taxon).Distinct().ToList();
        return [.. Enumerable.Range(0, HalfMonth.Count).Select(t => natives.Count(n => n.Bloom!.Value.Contains(t)))];
    }

    public static double Metres(GeoPoint a, GeoPoint b)
    {
        const double MetresPerDegree = 111_195;
        var (north, east) = ((a.Latitude - b.Latitude) * MetresPerDegree,
            (a.Longitude - b.Longitude) * MetresPerDegree * Math.Cos(a.Latitude * Math.PI / 180));
        return Math.Sqrt((north * north) + (east * east));
    }

    private static ImportFile Read(string name) => ImportFile.Read(name, Bytes(name));
}
