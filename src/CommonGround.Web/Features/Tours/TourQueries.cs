using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Tours;
using CommonGround.Reports.Tours;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Tours;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Hosting;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Tours;

/// <summary>A tour in the organisers' list.</summary>
/// <param name="Stops">Yards that guests may visit there now.</param>
public sealed record TourLine(long Id, string Key, DateOnly On, string Place, int Stops);

/// <summary>Reads tours: for whoever has a tour's address what its households let guests see, and no more.</summary>
public sealed class TourQueries(NeighbourhoodDatabase database, YardQueries yards, VisitorQueries visitors, LiveCommunity live,
    Likenesses likenesses, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    /// <summary>Days after which a record no longer says how a plant stands.</summary>
    private const int SeenLately = 14;

    private const double DrawingPixels = 110;
    private const int InFlower = 5, InFruit = 2, Touched = 2, Visited = 3;

    private static readonly Lazy<IReadOnlyDictionary<string, string>> Touch = new(() => TouchFile.Read("touch.csv",
        File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "touch.csv"))));

    /// <summary>Tours that are still open, soonest first.</summary>
    public async Task<IReadOnlyList<TourLine>> ListAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var open = await db.Tours.AsNoTracking().OrderBy(t => t.On).ThenBy(t => t.Id).ToListAsync(cancel);
        var lines = new List<TourLine>();
        foreach (var tour in open.Where(IsOpen))
        {
            lines.Add(new(tour.Id, tour.Key, tour.On, await PlaceAsync(db, tour, cancel) ?? "a place that is gone",
                (await StopsAsync(db, tour, cancel)).Count));
        }

        return lines;
    }

    /// <summary>Streets, and yards whose household lets guests in, to choose from.</summary>
    public async Task<(IReadOnlyList<string> Streets, IReadOnlyList<(string Code, string Line)> Yards)> PlacesAsync(
        CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var open = await db.Yards.Where(y => y.OnTour).OrderBy(y => y.Code).Select(y => new { y.Code, y.TourLine, y.BlockId })
            .ToListAsync(cancel);
        var blocks = open.Select(y => y.BlockId).ToHashSet();
        var streets = await db.Streets.Where(s => db.Blocks.Any(b => b.StreetId == s.Id && blocks.Contains(b.Id))).OrderBy(s => s.Name)
            .Select(s => s.Name).ToListAsync(cancel);
        return (streets, [.. open.Select(y => (y.Code, y.TourLine))]);
    }

    /// <summary>A tour by its key, case and hyphens aside; null where there is none, or it is over since yesterday.</summary>
    /// <param name="address">Of its page.</param>
    /// <param name="forSteward">With yards, households and what was doubtful; organisers alone.</param>
    public async Task<TourSheet?> GetAsync(string key, string address, CurrentUser currentUser, bool forSteward,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(currentUser);
        var typed = key.Trim().ToUpperInvariant();
        await using var db = await database.CreateDbContextAsync(cancel);
        if (await db.Tours.AsNoTracking().SingleOrDefaultAsync(t => t.Key == typed, cancel) is not { } tour || !IsOpen(tour)
            || await PlaceAsync(db, tour, cancel) is not { } place)
        {
            return null;
        }

        var stops = await StopsAsync(db, tour, cancel);
        var order = WalkingOrder.Of([.. stops.Select(s => (s.Yard.Latitude, s.Yard.Longitude))]);
        var (forage, shown) = (visitors.Of((await live.LoadedAsync(cancel)).Matrix.Taxa), new HashSet<string>(StringComparer.Ordinal));
        var told = new List<TourStop>();
        foreach (var (i, at) in order.Index())
        {
            var (yard, block) = stops[at];
            var beds = await yards.BedsOnTourAsync(yard.Id, cancel) ?? [];
            var stop = Stop(i + 1, block, yard, beds, HalfMonth.Of(tour.On), tour.On, forage, shown, currentUser.Customary);
            told.Add(forSteward && currentUser.MayOrganise ? stop with
            {
                Steward = await StewardAsync(db, yard, beds, currentUser, cancel)
            } : stop);
        }

        return new TourSheet
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            Place = place,
            On = tour.On,
            Meet = tour.Meet,
            Address = address,
            Stops = told,
        };
    }

    private bool IsOpen(Tour tour) => clock.Today <= tour.On.AddDays(1);

    private static async Task<string?> PlaceAsync(CommonGroundDb db, Tour tour, CancellationToken cancel) => tour.StreetId is { } street
        ? await db.Streets.Where(s => s.Id == street).Select(s => s.Name).SingleOrDefaultAsync(cancel)
        : await db.Yards.Where(y => y.Id == tour.YardId).SelectMany(y => db.Blocks.Where(b => b.Id == y.BlockId)
            .SelectMany(b => db.Streets.Where(s => s.Id == b.StreetId).Select(s => s.Name))).SingleOrDefaultAsync(cancel);

    private static async Task<List<(Yard Yard, string Block)>> StopsAsync(CommonGroundDb db, Tour tour, CancellationToken cancel)
    {
        var found = await db.Yards.AsNoTracking().Where(y => y.OnTour && (tour.YardId != null ? y.Id == tour.YardId
            : db.Blocks.Any(b => b.Id == y.BlockId && b.StreetId == tour.StreetId))).OrderBy(y => y.Id)
            .Select(y => new { Yard = y, Block = db.Blocks.Where(b => b.Id == y.BlockId).Select(b => b.Name).First() }).ToListAsync(cancel);
        return found.ConvertAll(f => (f.Yard, f.Block));
    }

    private TourStop Stop(int number, string block, Yard yard, IReadOnlyList<BedView> beds, int half, DateOnly on, ForageIndex forage,
        HashSet<string> shown, bool feet)
    {
        var plantings = beds.SelectMany(b => b.Plantings).ToList();
        var seen = TourSights.Of(plantings, half, on, SeenLately, t => likenesses.Of(t).Characters, Touch.Value);
        // What an earlier stop has shown comes last: guests see something new at each.
        var chosen = new[] { (TourSight.InFlower, InFlower), (TourSight.InFruit, InFruit), (TourSight.WorthATouch, Touched) }
            .SelectMany(kind => seen.Where(s => s.Kind == kind.Item1).OrderBy(s => shown.Contains(s.Taxon.ScientificName))
                .ThenByDescending(s => s.CoverSquareMetres).ThenBy(s => s.Taxon.ScientificName, StringComparer.Ordinal).Take(kind.Item2))
            .ToList();
        shown.UnionWith(chosen.Select(s => s.Taxon.ScientificName));
        return new(number, block, yard.Directions, yard.TourLine, [.. chosen.Select(s => Plant(s, forage, feet))],
            TourSights.LeaveAlone(plantings.Select(p => p.Taxon)));
    }

    private TourPlant Plant(SeenOnTour s, ForageIndex forage, bool feet)
    {
        var plant = likenesses.Of(s.Taxon);
        var groups = forage.RecordedOn(s.Taxon.ScientificName).Where(v => !v.IsHoneyBee).GroupBy(v => VisitorNames.Of(v) ?? v.Group,
            StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Take(Visited)
            .Select(g => g.Key).ToList();
        return new(s.Taxon.DisplayName, s.Taxon.ScientificName, Portrait.Small(plant, DrawingPixels), s.State, plant.Characters is { } row
            ? MarkWords.Of(row, s.Kind == TourSight.InFruit ? "seed" : s.Kind == TourSight.InFlower ? "flower" : "leaf", feet) : "",
            Words.List(groups), s.Touch, s.Taxon.Caution);
    }

    private async Task<StewardNote> StewardAsync(CommonGroundDb db, Yard yard, IReadOnlyList<BedView> beds, CurrentUser currentUser,
        CancellationToken cancel)
    {
        var plantings = beds.SelectMany(b => b.Plantings).ToList();
        var doubtful = plantings.Where(p => p.Certainty != Certainty.Certain || p.Qualifier.Length > 0).DistinctBy(p => p.Taxon)
            .Select(p => $"{Words.Capital(p.Taxon.DisplayName)} ({p.Taxon.ScientificName}, {PlantWords.Of(p.Certainty)}, seen "
                + $"{Words.Date(p.ObservedOn)}): {(likenesses.Of(p.Taxon).Characters is { } row
                ? $"{MarkWords.Of(row, "flower", currentUser.Customary)} {MarkWords.Of(row, "leaf", currentUser.Customary)}"
                : "nobody has described its marks here yet.")} {p.Taxon.Caution}".TrimEnd());
        var view = await yards.GetAsync(yard.Code, currentUser, cancel);
        return new(yard.Code, yard.Household, plantings.Count == 0 ? null : plantings.Max(p => p.ObservedOn), [.. doubtful],
            [.. (view?.Infestations ?? []).Select(i => $"{Words.Capital(i.Taxon.DisplayName)}, "
                + $"{currentUser.Units.AreaWords(i.AreaSquareMetres)}, seen {Words.Date(i.ObservedOn)}. {i.Taxon.Caution}".TrimEnd())]);
    }
}
