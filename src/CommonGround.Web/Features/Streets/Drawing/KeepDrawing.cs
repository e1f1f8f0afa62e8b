using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Streets;

/// <summary>Stores a drawing: its streets, blocks and yards in one change, which can be undone as one.</summary>
public sealed class KeepDrawing(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    private const int LongestName = 200;

    /// <summary>What is wrong with a drawing before it is compared with the record; pure.</summary>
    public static IReadOnlyList<Problem> Check(DrawnGround ground, double? usualYardSquareMetres)
    {
        ArgumentNullException.ThrowIfNull(ground);
        var problems = new List<Problem>();
        void Refuse(bool wrong, string field, string message)
        {
            if (wrong)
            {
                problems.Add(new(field, message));
            }
        }

        Refuse(ground.Streets.Any(s => s.Name.Length == 0 && ground.Blocks.Any(b => b.StreetId == s.Id)), "street",
            "A street has no name yet. Type it beside the map.");
        Refuse(ground.Streets.Any(s => s.Name.Length > LongestName) || ground.Blocks.Any(b => b.Name.Length > LongestName), "street",
            $"Keep the names of streets and blocks to {LongestName} characters.");
        foreach (var same in ground.Streets.Where(s => s.Name.Length > 0).GroupBy(s => s.Name, StringComparer.OrdinalIgnoreCase)
            .Where(g => g.Count() > 1))
        {
            Refuse(true, "street", $"Two streets are called {same.Key}. Give one of them another name.");
        }

        foreach (var same in ground.Blocks.Where(b => b.Name.Length > 0)
            .GroupBy(b => (b.StreetId, b.Name.ToUpperInvariant())).Where(g => g.Count() > 1))
        {
            Refuse(true, "street", $"{ground.Street(same.Key.StreetId).Name} has two blocks called {same.First().Name}. Rename one.");
        }

        Refuse(ground.Yards.Any(y => y.Began is null) && (usualYardSquareMetres is not { } area || area <= 0 || !double.IsFinite(area)),
            "yard", "How large is a usual yard here, house and drive included? New yards begin with this; each household corrects it.");
        return problems;
    }

    /// <param name="usualYardSquareMetres">Area that new yards begin with, m²; needed only where there are some.</param>
    public async Task<IReadOnlyList<Problem>> SaveAsync(DrawnGround ground, double? usualYardSquareMetres, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(ground);
        ArgumentNullException.ThrowIfNull(by);
        if (!by.MayOrganise)
        {
            return [new("", "Organisers draw streets and blocks.")];
        }

        if (Check(ground, usualYardSquareMetres) is { Count: > 0 } problems)
        {
            return problems;
        }

        return (await database.WriteAsync(db => PrepareAsync(db, ground, usualYardSquareMetres, by, cancel), cancel)).Problems;
    }

    private async Task<Intent> PrepareAsync(CommonGroundDb db, DrawnGround ground, double? area, CurrentUser by, CancellationToken cancel)
    {
        var streets = await db.Streets.ToDictionaryAsync(s => s.Id, cancel);
        var blocks = await db.Blocks.ToDictionaryAsync(b => b.Id, cancel);
        var yards = await db.Yards.ToDictionaryAsync(y => y.Id, cancel);
        if (Since(ground, streets, blocks, yards) is { } since)
        {
            return since;
        }

        var gone = new DrawnRemoval(db, ground, streets, blocks, yards);
        if (await gone.RefusedAsync(cancel) is { } refused)
        {
            return refused;
        }

        TakeStreets(db, ground, streets);
        TakeBlocks(db, ground, blocks);
        if (TakeYards(db, ground, yards, area) is { } yard)
        {
            return yard;
        }

        await gone.ApplyAsync(cancel);
        db.ChangeTracker.DetectChanges();
        return db.ChangeTracker.HasChanges()
            ? by.Note($"drew streets: {Words.Count(ground.Blocks.Count, "block")} on {Words.Count(ground.Streets.Count, "street")}")
            : Intent.Nothing;
    }

    /// <summary>Somebody else altered a row that this drawing alters too.</summary>
    private static Problem? Since(DrawnGround ground, Dictionary<long, Street> streets, Dictionary<long, StreetBlock> blocks,
        Dictionary<long, Yard> yards)
    {
        static Problem Told(string what) => new("",
            $"Somebody else changed {what} while you drew. What you drew is kept on this device: load the page again and look.");
        foreach (var street in ground.Streets.Where(s => s.Began is not null && s.Name != s.Began))
        {
            if (!streets.TryGetValue(street.Id, out var stored) || (stored.Name != street.Began && stored.Name != street.Name))
            {
                return Told(street.Began!);
            }
        }

        foreach (var block in ground.Blocks.Where(b => b.Began is not null))
        {
            if (!blocks.TryGetValue(block.Id, out var stored) || DrawingQueries.Told(stored) != block.Began)
            {
                return Told($"the block {DrawingWords.Blocks(ground)[block.Id]}");
            }
        }

        var moved = ground.Yards.FirstOrDefault(y => y.Began is not null && y.IsChanged && (!yards.TryGetValue(y.Id, out var stored)
            || new DrawnYard(y.Id, stored.BlockId, "", new(stored.Latitude, stored.Longitude), null).Told != y.Began));
        return moved is null ? null : Told($"yard {moved.Code}");
    }

    private void TakeStreets(CommonGroundDb db, DrawnGround ground, Dictionary<long, Street> streets)
    {
        foreach (var street in ground.Streets.Where(s => ground.Blocks.Any(b => b.StreetId == s.Id) || s.Began is not null))
        {
            if (!streets.TryGetValue(street.Id, out var row))
            {
                row = new Street { NeighbourhoodId = neighbourhood.Id, Id = street.Id, Name = street.Name };
                db.Streets.Add(row);
            }

            row.Name = street.Name;
        }
    }

    private void TakeBlocks(CommonGroundDb db, DrawnGround ground, Dictionary<long, StreetBlock> blocks)
    {
        var names = DrawingWords.Blocks(ground);
        foreach (var block in ground.Blocks)
        {
            if (!blocks.TryGetValue(block.Id, out var row))
            {
                row = new StreetBlock { NeighbourhoodId = neighbourhood.Id, Id = block.Id, StreetId = block.StreetId, Name = "" };
                db.Blocks.Add(row);
            }

            row.Name = names[block.Id];
            var shape = block.IsLine ? GeoJsonText.Geometry(GeoShape.Line(ground.LineOf(block))) : block.Kept;
            if (row.Geometry != shape && (block.Laid is null || block.Laid != shape))
            {
                var middle = ground.MiddleOf(block);
                (row.Geometry, row.MiddleLatitude, row.MiddleLongitude) = (shape, middle?.Latitude, middle?.Longitude);
            }
        }
    }

    private Problem? TakeYards(CommonGroundDb db, DrawnGround ground, Dictionary<long, Yard> yards, double? area)
    {
        foreach (var yard in ground.Yards.Where(y => y.IsChanged))
        {
            if (yards.TryGetValue(yard.Id, out var row))
            {
                (row.BlockId, row.Latitude, row.Longitude) = (yard.BlockId, yard.At.Latitude, yard.At.Longitude);
                continue;
            }

            if (yards.Values.Any(y => y.Code.Equals(yard.Code, StringComparison.OrdinalIgnoreCase)))
            {
                return new("yard", $"There is a yard {yard.Code} by now. Take yours back on its block and place it again.");
            }

            db.Yards.Add(new Yard
            {
                NeighbourhoodId = neighbourhood.Id,
                Id = yard.Id,
                BlockId = yard.BlockId,
                Code = yard.Code,
                Latitude = yard.At.Latitude,
                Longitude = yard.At.Longitude,
                AreaSquareMetres = area!.Value,
                RegisteredOn = clock.Today,
            });
        }

        return null;
    }
}
