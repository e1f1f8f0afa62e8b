using System.IO.Compression;
using System.Text;
using System.Text.Json;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Export;

/// <summary>Everything stored, as the rows that import reads again.</summary>
/// <param name="Blocks">Those with a shape.</param>
public sealed record ExportedRows(IReadOnlyList<PlaceRow> Places, IReadOnlyList<BedRow> Beds, IReadOnlyList<SightingRow> Sightings,
    IReadOnlyList<InfestationRow> Infestations, IReadOnlyList<BlockShape> Blocks)
{
    public IReadOnlyList<RainRow> Rain { get; init; } = [];
    public IReadOnlyList<TemperatureRow> Temperatures { get; init; } = [];
    public IReadOnlyList<PlantPriceRow> Prices { get; init; } = [];
    public IReadOnlyList<PlantOverrideRow> Overrides { get; init; } = [];

    /// <summary>Walks that kept their time: by yard and day.</summary>
    public IReadOnlyDictionary<(string Yard, DateOnly Day), WalkEffort> Walks { get; init; } =
        new Dictionary<(string, DateOnly), WalkEffort>();

    /// <summary>The plants by name, as they stand at this place.</summary>
    public IReadOnlyDictionary<string, CatalogueTaxon> Taxa { get; init; } = new Dictionary<string, CatalogueTaxon>();
}

/// <summary>What a walk took: minutes, and plantings looked at.</summary>
public sealed record WalkEffort(int Minutes, int Looked);

/// <summary>
/// Takes the record out as files. For passing on: only yards whose households agree, as <see cref="OutsiderRows"/> leaves them. Exact:
/// everything, for the group's own keeping.
/// </summary>
public sealed class ExportFiles(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, CommunityQueries community,
    GroupClock clock)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter(JsonNamingPolicy.SnakeCaseLower) }
    };

    public async Task<ExportedRows> RowsAsync(bool exact, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var streets = await db.Streets.ToDictionaryAsync(s => s.Id, s => s.Name, cancel);
        var blocks = await db.Blocks.AsNoTracking().ToDictionaryAsync(b => b.Id, cancel);
        var yards = await db.Yards.AsNoTracking().Where(y => (exact || y.OnMap)).OrderBy(y => y.Code).ToListAsync(cancel);
        var beds = await db.Beds.AsNoTracking().Where(b => (exact || db.Yards.Any(y => y.Id == b.YardId && y.OnMap))).OrderBy(b => b.YardId)
            .ThenBy(b => b.Name).ToListAsync(cancel);
        var taxa = await db.Taxa.ToDictionaryAsync(t => t.Id, t => t.ScientificName, cancel);
        var sightings = await db.Sightings.AsNoTracking().Where(s => (exact || db.Yards.Any(y => y.Id == s.YardId && y.OnMap)))
            .OrderBy(s => s.ObservedOn).ThenBy(s => s.Id).ToListAsync(cancel);
        var infestations = await db.Infestations.AsNoTracking()
            .Where(i => (exact || i.YardId == null || db.Yards.Any(y => y.Id == i.YardId && y.OnMap))).OrderBy(i => i.ObservedOn)
            .ThenBy(i => i.Id).ToListAsync(cancel);
        var walks = await db.Walks.AsNoTracking().Where(w => exact || db.Yards.Any(y => y.Id == w.YardId && y.OnMap))
            .GroupBy(w => new { w.YardId, w.WalkedOn })
            .Select(g => new { g.Key.YardId, g.Key.WalkedOn, Minutes = g.Sum(w => w.Minutes), Looked = g.Sum(w => w.Looked) })
            .ToListAsync(cancel);
        var weather = await db.WeatherDays.AsNoTracking().OrderBy(w => w.Date).ToListAsync(cancel);
        var prices = await db.Prices.AsNoTracking().ToListAsync(cancel);
        var overrides = await db.PlantOverrides.AsNoTracking().ToListAsync(cancel);
        var codes = yards.ToDictionary(y => y.Id, y => y.Code);
        var bedNames = beds.ToDictionary(b => b.Id, b => b.Name);
        var key = await db.Neighbourhoods.Where(n => n.Id == neighbourhood.Id).Select(n => n.OffsetKey).SingleAsync(cancel);
        var placed = yards.ConvertAll(y => exact ? (y.Latitude, y.Longitude)
            : PlaceOffset.Move(y.Latitude, y.Longitude, y.OffsetNorthMetres, y.OffsetEastMetres));
        var rows = new ExportedRows(
            [.. yards.Select((y, i) => new PlaceRow(i + 2, streets[blocks[y.BlockId].StreetId], blocks[y.BlockId].Name, y.Code,
                placed[i].Latitude, placed[i].Longitude, y.AreaSquareMetres, y.LawnSquareMetres, y.Light, y.Moisture, y.SoilGroup, exact
                    ? y.Household : "", y.Shared))],
            [.. beds.Select((b, i) => new BedRow(i + 2, codes[b.YardId], b.Name, b.AreaSquareMetres, b.EstablishedOn, b.Light,
                b.Moisture))],
            [.. sightings.Select((s, i) => new SightingRow(i + 2, codes[s.YardId], bedNames[s.BedId],
                new TaxonName(taxa[s.TaxonId], s.Qualifier), s.ObservedOn, s.CoverDerived ? null : s.CoverSquareMetres, s.Count, s.Origin,
                    s.Certainty, s.GrowthStage, s.Observer, s.Remarks) { Patch = s.Patch,
                        Finding = s is { Finding: Ecology.Taxa.Finding.Growing, CoverSquareMetres: 0 } ? Ecology.Taxa.Finding.Ended
                            : s.Finding, VerifiedBy = exact ? s.VerifiedBy : "",
                        PlaceInBed = exact ? s.PlaceInBed : "", SeedGrams = s.SeedCollectedGrams,
                        Key = RecordKey.Of(key, "sighting", s.Id) })],
            [.. infestations.Select((n, i) => new InfestationRow(i + 2, n.YardId is { } y ? codes[y] : "", n.YardId is null
                ? $"{streets[blocks[n.BlockId].StreetId]}, {blocks[n.BlockId].Name}" : "", new TaxonName(taxa[n.TaxonId], ""),
                n.ObservedOn, n.AreaSquareMetres, n.CoverPercent, n.GrowthStage, n.Remarks)
            {
                Key = RecordKey.Of(key, "infestation", n.Id)
            })],
            [.. blocks.Values.Where(b => b.Geometry is not null).OrderBy(b => b.Id)
                .Select((b, i) => new BlockShape(i + 1, streets[b.StreetId], b.Name, Shape(b.Geometry!)))])
        {
            Rain = [.. weather.Where(w => w.RainMillimetres is not null)
                .Select((w, i) => new RainRow(i + 2, w.Date, w.RainMillimetres!.Value))],
            Temperatures = [.. weather.Where(w => w is { MinimumCelsius: not null, MaximumCelsius: not null })
                .Select((w, i) => new TemperatureRow(i + 2, w.Date, w.MinimumCelsius!.Value, w.MaximumCelsius!.Value))],
            Walks = walks.ToDictionary(w => (codes[w.YardId], w.WalkedOn), w => new WalkEffort(w.Minutes, w.Looked)),
            Prices = [.. prices.Select(p => (Name: taxa[p.TaxonId], Price: p)).OrderBy(p => p.Name, StringComparer.Ordinal)
                .Select((p, i) => new PlantPriceRow(i + 2, p.Name, p.Price.SeedPerGram, p.Price.PlugEach))],
            Overrides = [.. overrides.Select(o => (Name: taxa[o.TaxonId], Own: o)).OrderBy(o => o.Name, StringComparer.Ordinal)
                .ThenBy(o => o.Own.Trait, StringComparer.Ordinal)
                .Select((o, i) => new PlantOverrideRow(i + 2, o.Name, o.Own.Trait, o.Own.Value, o.Own.Reason))],
        };
        return exact ? rows : OutsiderRows.Of(rows, yards.ToDictionary(y => y.Code, y => OutsiderRows.Code(key, y.Id)));
    }

    /// <summary>All kinds of rows in one archive, each file ready to be imported again.</summary>
    public async Task WriteCsvZipAsync(Stream to, bool exact, CancellationToken cancel = default)
    {
        var rows = await RowsAsync(exact, cancel);
        using var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true);
        var files = new List<(string Name, string Text)>
        {
            ("places.csv", PlaceRows.Write(rows.Places)), ("beds.csv", PlaceRows.Write(rows.Beds)),
                ("sightings.csv", SightingRows.Write(rows.Sightings)),
            ("infestations.csv", SightingRows.Write(rows.Infestations)), ("streets.geojson", GeoJsonText.Write(rows.Blocks)),
            ("rain.csv", WeatherRows.Write(rows.Rain)), ("temperature.csv", WeatherRows.Write(rows.Temperatures)),
                ("prices.csv", PriceRows.Write(rows.Prices)),
            ("plant-overrides.csv", PlantOverrideRows.Write(rows.Overrides)),
        };
        if (!exact)
        {
            files.Add(("README.txt", PlaceOffset.Generalised + "\n" + PlaceOffset.Withheld + "\n"));
        }

        foreach (var (name, text) in files)
        {
            await using var entry = await zip.CreateEntry(name).OpenAsync(cancel);
            await entry.WriteAsync(Encoding.UTF8.GetBytes(text), cancel);
        }
    }

    /// <summary>The record for a biodiversity database, under the licence that the group gives it.</summary>
    public async Task WriteArchiveAsync(Stream to, Licence licence, string contactName, string contactEmail, bool exact,
        CancellationToken cancel = default)
    {
        var taxa = (await community.LoadAsync(clock.CalendarToday, cancel)).Figures(sharedOnly: false).Matrix.Taxa;
        var rows = await RowsAsync(exact, cancel) with
        {
            Taxa = taxa.DistinctBy(t => t.ScientificName).ToDictionary(t => t.ScientificName, StringComparer.Ordinal)
        };
        var about = new DataSet(neighbourhood.Name, clock.CalendarToday, licence, contactName, contactEmail,
            neighbourhood.Locality?.State ?? "");
        await DarwinCoreArchive.WriteAsync(to, rows, about, exact, cancel);
    }

    public async Task<string> SightingsCsvAsync(CancellationToken cancel = default) =>
        SightingRows.Write((await RowsAsync(exact: false, cancel)).Sightings);

    public async Task<string> JsonAsync(bool exact, CancellationToken cancel = default)
    {
        var rows = await RowsAsync(exact, cancel);
        return JsonSerializer.Serialize(new
        {
            neighbourhood = neighbourhood.Name,
            asOf = clock.CalendarToday.ToString("yyyy-MM-dd"),
            dataGeneralizations = exact ? null : PlaceOffset.Generalised,
            informationWithheld = exact ? null : PlaceOffset.Withheld,
            rows.Places,
            rows.Beds,
            sightings = rows.Sightings.Select(s => new
            {
                s.Yard,
                s.Bed,
                scientificName = s.Name.Name,
                identificationQualifier = s.Name.Qualifier,
                s.ObservedOn,
                coverM2 = s.CoverSquareMetres,
                s.Count,
                s.Origin,
                s.Certainty,
                s.GrowthStage,
                s.Observer,
                s.Remarks
            }),
            infestations = rows.Infestations.Select(i => new
            {
                i.Yard,
                i.Block,
                scientificName = i.Name.Name,
                i.ObservedOn,
                areaM2 = i.AreaSquareMetres,
                i.CoverPercent,
                i.GrowthStage,
                i.Remarks
            }),
            rain = rows.Rain.Select(r => new { r.Date, rainMm = r.RainMillimetres }),
            temperature = rows.Temperatures.Select(t => new { t.Date, tminC = t.MinimumCelsius, tmaxC = t.MaximumCelsius }),
            prices = rows.Prices.Select(p => new { p.ScientificName, p.SeedPerGram, p.PlugEach }),
            plantOverrides = rows.Overrides.Select(o => new { o.ScientificName, o.Trait, o.Value, o.Reason }),
        }, Json) + "\n";
    }

    /// <summary>Blocks with their measures, and sharing yards as points.</summary>
    public async Task<string> GeoJsonAsync(bool exact, CancellationToken cancel = default)
    {
        var rows = await RowsAsync(exact, cancel);
        var loaded = await community.LoadAsync(clock.CalendarToday, cancel);
        var figures = loaded.Figures(sharedOnly: !exact);
        var byName = figures.Matrix.Blocks.Select((b, i) => (Key: (figures.Matrix.Streets[b.Street].Name, b.Name), i)).Where(p => exact
            || figures.Shown.Contains(p.i)).ToDictionary(p => p.Key, p => figures.Blocks[p.i]);
        var features = rows.Blocks.Select(b => new GeoFeature(b.Shape,
            [new("kind", "block"), new("street", b.Street), new("block", b.Block),
                .. Measures(byName.GetValueOrDefault((b.Street, b.Block)))]))
            .Concat(rows.Places.Select(p => new GeoFeature(GeoShape.Point(new GeoPoint(p.Latitude, p.Longitude)),
            [new("kind", "yard"), new("yard", p.Yard), new("dataGeneralizations", exact ? null : PlaceOffset.Generalised),
                new("informationWithheld", exact ? null : PlaceOffset.Withheld),
                    new("coordinateUncertaintyInMeters", exact ? null : PlaceOffset.FarthestMetres)])));
        return GeoJsonText.Write(features, exact ? null : PlaceOffset.Generalised);
    }

    private IEnumerable<KeyValuePair<string, object?>> Measures(SiteMeasures? m) => m is null ? [] :
    [
        new("yards", m.Yards), new("nativeRichness", m.NativeRichness), new("nativeMeanC", m.NativeMeanC),
            new("cTable", Regions.RegionWords.Table(neighbourhood)), new("coveredShare", m.CoveredShare),
        new("lateSeasonCoveredShare", m.LateSeasonCoveredShare), new("invasivePressureM2", m.InvasivePressureSquareMetres),
    ];

    private static GeoShape Shape(string geometry)
    {
        using var document = JsonDocument.Parse(geometry);
        var coordinates = document.RootElement.GetProperty("coordinates");
        static IReadOnlyList<GeoPoint> Points(JsonElement part) =>
            [.. part.EnumerateArray().Select(p => new GeoPoint(p[1].GetDouble(), p[0].GetDouble()))];
        return document.RootElement.GetProperty("type").GetString() == "Polygon"
            ? GeoShape.Polygon([.. coordinates.EnumerateArray().Select(Points)])
            : GeoShape.Line(Points(coordinates));
    }
}
