using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Yards;

/// <summary>A bed's record as a bed that can be drawn.</summary>
/// <param name="Bed">Its plants; as long and deep as its area allows, since the record holds no outline.</param>
/// <param name="Year">1, 2, or 3 and more, since the bed was made.</param>
public sealed record YardScene(Bed Bed, int Year)
{
    /// <summary>A bed of unknown area is drawn with so much room for each m² of cover.</summary>
    private const double RoomForCover = 1.25;

    /// <summary>Draws up a bed.</summary>
    /// <param name="bed">The record.</param>
    /// <param name="today">By which its age is told.</param>
    /// <param name="likeness">How a plant is drawn.</param>
    /// <returns>Null where nothing of it can be drawn.</returns>
    public static YardScene? Of(BedView bed, DateOnly today, Func<CatalogueTaxon, Likeness> likeness)
    {
        ArgumentNullException.ThrowIfNull(bed);
        ArgumentNullException.ThrowIfNull(likeness);
        var area = bed.AreaSquareMetres is > 0 and var known ? known : bed.Plantings.Sum(p => p.CoverSquareMetres) * RoomForCover;
        if (bed.Plantings.Count == 0 || area <= 0)
        {
            return null;
        }

        var deep = Math.Clamp(Math.Sqrt(area / 3), .6, 5);
        var wide = area / deep;
        var drifts = bed.Plantings.GroupBy(p => p.Taxon).Select(g => Drift(likeness(g.Key), g.Sum(p => p.CoverSquareMetres)))
            .OrderBy(d => d.Plant.ScientificName, StringComparer.Ordinal).ToList();
        var year = bed.EstablishedOn is { } made && made <= today ? Math.Min(3, today.Year - made.Year + 1) : 3;
        return new YardScene(new Bed([new(0, 0), new(wide, 0), new(wide, deep), new(0, deep)], drifts, $"bed {bed.Id}"), year);
    }

    /// <summary>A piece of it, as dense as the whole, for a narrow picture.</summary>
    /// <param name="longestMetres">Above 0.</param>
    /// <returns>The bed itself where it is no longer.</returns>
    public Bed Piece(double longestMetres)
    {
        var (wide, deep) = (Bed.Outline.Max(p => p.X), Bed.Outline.Max(p => p.Y));
        if (wide <= longestMetres)
        {
            return Bed;
        }

        var share = longestMetres / wide;
        return Bed with
        {
            Outline = [new(0, 0), new(longestMetres, 0), new(longestMetres, deep), new(0, deep)],
            Drifts = [.. Bed.Drifts.Select(d => d with { Count = (int)Math.Round(d.Count * share) }).Where(d => d.Count > 0)],
        };
    }

    /// <summary>So many plants cover so much: the ground one of them covers is the circle of its spread.</summary>
    public static int Individuals(double coverSquareMetres, double spreadCm) =>
        Math.Max(1, (int)Math.Round(coverSquareMetres / (Math.PI / 4 * Math.Pow(spreadCm / 100, 2))));

    private static DriftOf Drift(Likeness plant, double coverSquareMetres)
    {
        var count = Individuals(coverSquareMetres, plant.SpreadCm);
        return new DriftOf(plant, count, plant.Characters is { HasBlades: true } ? Spread.Matrix : count < 6 ? Spread.Dot : Spread.Drift);
    }
}
