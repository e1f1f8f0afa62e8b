using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Spreadsheets;

namespace CommonGround.Web.Features.Export;

/// <summary>Everything stored as one workbook, a sheet a kind, each ready to be brought again.</summary>
public static class WorkbookExport
{
    public static void Write(Stream to, ExportedRows rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Sheet.WriteXlsx(to,
        [
            Sheet.Of("places", PlaceRows.Write(rows.Places)), Sheet.Of("beds", PlaceRows.Write(rows.Beds)),
                Sheet.Of("sightings", SightingRows.Write(rows.Sightings)),
            Sheet.Of("infestations", SightingRows.Write(rows.Infestations)), Sheet.Of("rain", WeatherRows.Write(rows.Rain)),
                Sheet.Of("temperature", WeatherRows.Write(rows.Temperatures)),
            Sheet.Of("prices", PriceRows.Write(rows.Prices)),
            Sheet.Of("plant-overrides", PlantOverrideRows.Write(rows.Overrides)),
        ]);
    }
}
