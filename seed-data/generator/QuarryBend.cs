using CommonGround.Ecology.Taxa;
using System.Text;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.DemoData;

/// <summary>The invented neighbourhood as files.</summary>
public static class QuarryBend
{
    /// <summary>File name → content, the same bytes every time for the same catalogue.</summary>
    /// <param name="catalogue">Content of plants.csv.</param>
    public static IReadOnlyDictionary<string, byte[]> Files(byte[] catalogue)
    {
        var read = CatalogueFile.Read("plants.csv", catalogue);
        if (read.Errors.Count > 0) throw new InvalidDataException(read.Errors[0].ToString());
        // The neighbourhood was laid out before the catalogue knew the plants of other states, and stays as it is.
        IReadOnlyList<CatalogueTaxon> taxa = [.. read.Taxa.Where(t => !t.IsAddedForOtherStates)];
        var palette = new Palette(taxa);
        var yards = Yards.Build();
        var plantings = new Gardens(palette).Plant(yards);
        return new Dictionary<string, byte[]>(StringComparer.Ordinal)
        {
            ["places.csv"] = Bytes(PlaceRows.Write(yards.Select(y => y.ToRow()))),
            ["beds.csv"] =
                Bytes(PlaceRows.Write(yards.SelectMany(y => y.Beds.Select(b => new BedRow(0, y.Code, b.Name, b.Area, b.Established,
                b.Light, b.Moisture))))),
            ["sightings.csv"] = Bytes(SightingRows.Write(Walks.Record(plantings))),
            ["infestations.csv"] = Bytes(SightingRows.Write(new Invasions(palette, yards).Record())),
            ["rain.csv"] = Bytes(WeatherRows.Write(Weather.Rain())),
            ["temperature.csv"] = Bytes(WeatherRows.Write(Weather.Temperatures())),
            ["prices.csv"] = Bytes(PriceRows.Write(Prices.Of(taxa))),
            ["streets.geojson"] = Bytes(GeoJsonText.Write(StreetPlan.Shapes())),
        };
    }

    /// <summary>Line ends as the repository keeps them, so that a fresh clone holds the same bytes.</summary>
    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text.Replace("\r\n", "\n", StringComparison.Ordinal));
}
