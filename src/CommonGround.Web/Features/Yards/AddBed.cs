using System.Globalization;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>Adds a bed to a yard.</summary>
public sealed class AddBed(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public async Task<IReadOnlyList<Problem>> SaveAsync(long yardId, string name, string typedArea, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(typedArea);
        ArgumentNullException.ThrowIfNull(by);
        return (await database.WriteAsync(
            async db =>
            {
                var yard = await db.Yards.SingleOrDefaultAsync(y => y.Id == yardId, cancel);
                if (yard is null || !by.MayRecord(yard.OwnerId))
                {
                    return Intent.Refuse("", "This yard is gone, or not yours to change.");
                }

                double? area = null;
                if (typedArea.Trim().Length > 0)
                {
                    if (!double.TryParse(typedArea, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var typed)
                        || !double.IsFinite(typed) || typed <= 0)
                    {
                        return Intent.Refuse(
                            "area", $"“{typedArea}” is not an area. Write a figure above 0 with a point, such as 12.5, or leave it blank.");
                    }

                    area = by.Customary ? typed / Words.SquareFeetPerSquareMetre : typed;
                }

                if (area > yard.AreaSquareMetres)
                {
                    return Intent.Refuse("area", $"The bed is larger than its yard, which is {by.Units.AreaWords(yard.AreaSquareMetres)}.");
                }

                var wanted = name.Trim();
                if (wanted.Length is 0 or > 100)
                {
                    return Intent.Refuse("name", "Give the bed a name, such as Front bed.");
                }

                var names = await db.Beds.Where(b => b.YardId == yardId).Select(b => b.Name).ToListAsync(cancel);
                if (names.Contains(wanted, StringComparer.OrdinalIgnoreCase))
                {
                    return Intent.Refuse("name", $"This yard has a bed called {wanted}. Choose another name.");
                }

                db.Beds.Add(new Bed
                {
                    NeighbourhoodId = neighbourhood.Id,
                    YardId = yardId,
                    Name = wanted,
                    AreaSquareMetres = area,
                    EstablishedOn = clock.Today
                });
                return by.Note($"added the bed {wanted} to {yard.Code}");
            }, cancel)).Problems;
    }
}
