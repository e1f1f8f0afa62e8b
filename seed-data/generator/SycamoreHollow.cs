using System.Text;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;

namespace CommonGround.DemoData;

/// <summary>A second invented group, small, in south-western Missouri: three streets, twenty-four yards, the plants of its own
/// state.</summary>
public static class SycamoreHollow
{
    private const double South = 37.205, West = -93.296, MetresPerDegree = 111_195, Cosine = 0.7965; // cos 37.2°

    private static readonly string[] Streets = ["Juniper Lane", "Limestone Street", "Spring Branch Road"];

    /// <summary>Natives of Missouri by the state's table, as people there plant them.</summary>
    private static readonly string[] Natives =
    [
        "Salvia azurea", "Verbesina alternifolia", "Vernonia baldwinii", "Echinacea pallida", "Echinacea paradoxa",
            "Schizachyrium scoparium", "Andropogon gerardii",
        "Sorghastrum nutans", "Bouteloua curtipendula", "Sporobolus heterolepis", "Asclepias tuberosa", "Asclepias viridis",
            "Amsonia illustris", "Coreopsis lanceolata",
        "Coreopsis palmata", "Liatris pycnostachya", "Liatris aspera", "Monarda fistulosa", "Monarda bradburiana", "Penstemon digitalis",
            "Rudbeckia missouriensis",
        "Rudbeckia hirta", "Ratibida pinnata", "Silphium integrifolium", "Solidago rigida", "Solidago speciosa",
            "Symphyotrichum oblongifolium", "Symphyotrichum laeve",
        "Eryngium yuccifolium", "Oenothera macrocarpa", "Callirhoe involucrata", "Tradescantia ohiensis", "Pycnanthemum tenuifolium",
            "Parthenium integrifolium",
        "Phlox pilosa", "Aquilegia canadensis", "Cercis canadensis", "Dalea purpurea", "Vernonia arkansana", "Carex pensylvanica",
    ];

    /// <summary>File name → content, the same bytes every time.</summary>
    public static IReadOnlyDictionary<string, byte[]> Files()
    {
        List<PlaceRow> places = [];
        List<BedRow> beds = [];
        List<SightingRow> seen = [];
        List<InfestationRow> unwanted = [];
        List<BlockShape> shapes = [];
        for (var street = 0; street < Streets.Length; street++)
        {
            for (var block = 0; block < 2; block++)
            {
                var name = block == 0 ? "mill to bridge" : "bridge to school";
                shapes.Add(new BlockShape(shapes.Count + 1, Streets[street], name,
                    GeoShape.Line([Point(block * 130, street * 110), Point((block + 1) * 130, street * 110)])));
                for (var yard = 0; yard < 4; yard++)
                {
                    Add($"{Streets[street][..2].ToUpperInvariant()}-{(block * 4) + yard + 1:00}", street, block, yard);
                }
            }
        }

        return new Dictionary<string, byte[]>(StringComparer.Ordinal)
        {
            ["places.csv"] = Bytes(PlaceRows.Write(places)),
            ["beds.csv"] = Bytes(PlaceRows.Write(beds)),
            ["sightings.csv"] = Bytes(SightingRows.Write(seen.OrderBy(s => s.ObservedOn).ThenBy(s => s.Yard, StringComparer.Ordinal)
                .ThenBy(s => s.Name.Name, StringComparer.Ordinal))),
            ["infestations.csv"] = Bytes(SightingRows.Write(unwanted)),
            ["streets.geojson"] = Bytes(GeoJsonText.Write([.. shapes])),
        };

        void Add(string code, int street, int block, int yard)
        {
            var chance = new Chance("Sycamore Hollow " + code);
            var at = Point((block * 130) + 18 + (yard * 30), (street * 110) + (yard % 2 == 0 ? 16 : -16));
            var area = chance.Whole(500, 1100);
            places.Add(new PlaceRow(0, Streets[street], block == 0 ? "mill to bridge" : "bridge to school", code, at.Latitude,
                at.Longitude, area, Math.Round(area * 0.45),
                chance.Happens(0.7) ? Light.FullSun : Light.PartShade, chance.Happens(0.5) ? Moisture.Dry : Moisture.Medium,
                    SoilGroup.C, $"Household {code}", yard != 3));
            beds.Add(new BedRow(0, code, "front", chance.Whole(12, 40), new DateOnly(2023, 4, chance.Whole(2, 28)), null, null));
            var kinds = chance.Whole(6, 16);
            foreach (var plant in Natives.Select(n => (n, chance.Share())).OrderBy(p => p.Item2).Take(kinds).Select(p => p.n))
            {
                seen.Add(new SightingRow(0, code, "front", TaxonName.Parse(plant),
                    new DateOnly(2026, chance.Whole(5, 8), chance.Whole(1, 18)), Math.Round(chance.Between(0.2, 1.6), 2), null,
                    Origin.Planted, Certainty.Certain, null, $"walker {chance.Whole(1, 3)}", ""));
            }

            if (yard == 1)
            {
                unwanted.Add(new InfestationRow(0, code, "", TaxonName.Parse(street == 0 ? "Lespedeza cuneata" : "Lonicera maackii"),
                    new DateOnly(2026, 6, chance.Whole(1, 28)), chance.Whole(1, 14), 35, 3, ""));
            }
        }
    }

    private static GeoPoint Point(double east, double north) =>
        new(Math.Round(South + (north / MetresPerDegree), 6), Math.Round(West + (east / (MetresPerDegree * Cosine)), 6));

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text.Replace("\r\n", "\n", StringComparison.Ordinal));
}
