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
        var yard = book.Yard(row.Yard);
        var added = yard is null;
        yard ??= new Yard { NeighbourhoodId = book.NeighbourhoodId, Id = RowIds.Next(), Code = row.Yard };
        var before = Facts(yard);
        yard.BlockId = block.Id;
        yard.Latitude = row.Latitude;
        yard.Longitude = row.Longitude;
        yard.AreaSquareMetres = row.YardSquareMetres;
        yard.LawnSquareMetres = row.LawnSquareMetres;
        yard.Light = row.Light;
        yard.Moisture = row.Moisture;
        yard.SoilGroup = row.SoilGroup;
        yard.Household = row.Household;
        Consent(file, row, yard, added);
        if (added)
        {
            book.Add(yard);
        }

        ledger.Count("yards", added, Facts(yard) != before);
    }

    /// <summary>
    /// A file says one word for both consents. Its no withdraws both. Its yes holds for a yard that nobody keeps yet; where a household
    /// keeps the yard, only the household says yes.
    /// A yes to sharing never brings back the place on the map that somebody withdrew.
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
        (bed.AreaSquareMetres, bed.EstablishedOn, bed.Light, bed.Moisture) = (row.AreaSquareMetres, row.EstablishedOn, row.Light,
            row.Moisture);
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
