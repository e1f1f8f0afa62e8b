using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;
using CommonGround.Storage.Places;

namespace CommonGround.Web.Features.Import;

/// <summary>Block shapes, places and beds: a known one is brought up to date, a new one added.</summary>
internal sealed class PlaceImport(PlaceLookup book, ImportFindings ledger)
{
    private const int LongestCode = 40, LongestHousehold = 200;
    private readonly HashSet<long> taken = [];

    public void Take(IReadOnlyList<ImportFile> files, CancellationToken cancel)
    {
        foreach (var shape in files.SelectMany(f => f.Blocks))
        {
            Take(shape);
        }

        foreach (var (file, row) in files.SelectMany(f => f.Places.Select(p => (f.FileName, p))))
        {
            cancel.ThrowIfCancellationRequested();
            var codeTooLong = ledger.TooLong(file, row.Line, "yard", row.Yard, LongestCode);
            if (!ledger.TooLong(file, row.Line, "household", row.Household, LongestHousehold) && !codeTooLong)
            {
                Take(file, row);
            }
        }

        AllPoints(files);

        foreach (var (file, row) in files.SelectMany(f => f.Beds.Select(b => (f.FileName, b))))
        {
            cancel.ThrowIfCancellationRequested();
            Take(file, row);
        }
    }

    private void Take(BlockShape shape)
    {
        var (block, added) = book.EnsureBlock(shape.Street, shape.Block);
        var geometry = GeoJsonText.Geometry(shape.Shape);
        var changed = block.Geometry != geometry;
        if (changed)
        {
            var middle = shape.Middle;
            (block.Geometry, block.MiddleLatitude, block.MiddleLongitude) = (geometry, middle.Latitude, middle.Longitude);
        }

        ledger.Count("blocks", added, changed);
    }

    private void Take(string file, PlaceRow row)
    {
        var (block, _) = book.EnsureBlock(row.Street, row.Block);
        var yard = row.Yard.Length > 0 ? book.Coded(row.Yard) : book.OfHousehold(block.Id, row.Household);
        // Of two codes in the files that are alike, each is a yard of its own.
        if (yard is not null && !yard.Code.Equals(row.Yard, StringComparison.OrdinalIgnoreCase) && row.Yard.Length > 0
            && taken.Contains(yard.Id))
        {
            yard = null;
        }

        var added = yard is null;
        var stays = !row.HasPoint && yard?.BlockId == block.Id;
        if (!row.HasPoint && !stays && block.MiddleLatitude is null)
        {
            NoMiddle(file, row);
            return;
        }

        yard ??= new Yard
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            Code = row.Yard.Length > 0 ? row.Yard : book.NextCode(row.Street)
        };
        taken.Add(yard.Id);
        var before = Facts(yard);
        yard.BlockId = block.Id;
        if (!stays)
        {
            (yard.Latitude, yard.Longitude) = row.HasPoint ? (row.Latitude, row.Longitude)
                : (block.MiddleLatitude!.Value, block.MiddleLongitude!.Value);
        }

        yard.AreaSquareMetres = row.YardSquareMetres;
        yard.LawnSquareMetres = row.Untold.Contains("lawn_m2") ? yard.LawnSquareMetres : row.LawnSquareMetres;
        yard.Light = row.Untold.Contains("light") ? yard.Light : row.Light;
        yard.Moisture = row.Untold.Contains("moisture") ? yard.Moisture : row.Moisture;
        yard.SoilGroup = row.Untold.Contains("soil_group") ? yard.SoilGroup : row.SoilGroup;
        yard.Household = row.Untold.Contains("household") ? yard.Household : row.Household;
        if (added || !row.Untold.Contains("shared"))
        {
            Consent(file, row, yard, added);
        }

        if (added)
        {
            book.Add(yard);
        }

        ledger.Count("yards", added, Facts(yard) != before);
    }

    /// <summary>Told once, not for every yard.</summary>
    private void AllPoints(IReadOnlyList<ImportFile> files)
    {
        foreach (var file in files)
        {
            var without = file.Places.Count(p => !p.HasPoint);
            if (without > 0)
            {
                ledger.Notices.Add(new(file.FileName, 0, "latitude", "", $"{without} of {file.Places.Count} rows have no latitude and "
                    + "longitude: a new yard is put in the middle of its block.",
                    "To give the exact spot, import the yards again with latitude and longitude."));
            }
        }
    }

    /// <summary>Neither the row nor its block says where on the map it is.</summary>
    private void NoMiddle(string file, PlaceRow row)
    {
        var near = book.NearestBlocks(row.Street, row.Block);
        ledger.Refuse(file, row.Line, "block", $"{row.Street}, {row.Block}",
            "The row has no latitude and longitude, and this block has no place on the map.",
            near.Count > 0 ? $"Did you mean the block {string.Join(" or ", near)}? Else add the block first."
                : "Add the street and block first, on the group’s page or with streets.geojson.");
    }

    /// <summary>
    /// A file says one word for both consents. Its no withdraws both. Its yes holds for a yard that nobody keeps yet; where a household
    /// keeps the yard, only the household says yes. A yes to sharing never brings back the place on the map that somebody withdrew.
    /// </summary>
    private void Consent(string file, PlaceRow row, Yard yard, bool added)
    {
        if (row.Shared && !yard.Shared && yard.OwnerId is not null)
        {
            ledger.Notices.Add(new(file, row.Line, "shared",
                "yes", $"Yard {yard.Code} has a household, which does not share it now; the file does not change that.",
                "Ask the household to agree on its yard’s page. To import the same file without this notice, write no."));
            return;
        }

        yard.Shared = row.Shared;
        yard.OnMap = row.Shared && (added || yard.OnMap);
    }

    private void Take(string file, BedRow row)
    {
        if (book.Yard(row.Yard) is not { } yard)
        {
            UnknownYard(ledger, book, file, row.Line, row.Yard);
            return;
        }

        if (row.EstablishedOn is { } day && ledger.InFuture(file, row.Line, "established_on", day))
        {
            return;
        }

        if (row.AreaSquareMetres > yard.AreaSquareMetres)
        {
            ledger.Refuse(file, row.Line,
                "area_m2", $"{row.AreaSquareMetres}", $"The bed is larger than its yard, which is {yard.AreaSquareMetres} m².",
                    "Give the bed's area in m², or correct the yard's in places.csv.");
            return;
        }

        var bed = book.Bed(yard, row.Bed);
        var added = bed is null;
        bed ??= new Bed { NeighbourhoodId = book.NeighbourhoodId, Id = RowIds.Next(), YardId = yard.Id, Name = row.Bed };
        var before = (bed.AreaSquareMetres, bed.EstablishedOn, bed.Light, bed.Moisture);
        bed.AreaSquareMetres = row.Untold.Contains("area_m2") ? bed.AreaSquareMetres : row.AreaSquareMetres;
        bed.EstablishedOn = row.Untold.Contains("established_on") ? bed.EstablishedOn : row.EstablishedOn;
        bed.Light = row.Untold.Contains("light") ? bed.Light : row.Light;
        bed.Moisture = row.Untold.Contains("moisture") ? bed.Moisture : row.Moisture;
        if (added)
        {
            book.Add(bed);
        }

        ledger.Count("beds", added, (bed.AreaSquareMetres, bed.EstablishedOn, bed.Light, bed.Moisture) != before);
    }

    internal static void UnknownYard(ImportFindings ledger, PlaceLookup book, string file, int line, string code)
    {
        var near = book.NearestYards(code);
        ledger.Refuse(file, line, "yard", code, "There is no yard with this code.",
            near.Count > 0 ? $"Did you mean {string.Join(", ", near)}? New yards come from places.csv."
            : book.HasYards ? "Check the code; new yards come from places.csv." : "Bring places.csv first, or in the same import.");
    }

    /// <remarks>Tuples are compared member by member as their declared types are: an enum declared as an object would never equal
    /// itself.</remarks>
    private static (long, double, double, double, double?, Light?, Moisture?, SoilGroup?, string, bool, bool) Facts(Yard y) =>
        (y.BlockId, y.Latitude, y.Longitude, y.AreaSquareMetres, y.LawnSquareMetres, y.Light, y.Moisture, y.SoilGroup, y.Household,
            y.Shared, y.OnMap);
}
