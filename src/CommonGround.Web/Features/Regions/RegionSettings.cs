using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Regions;

/// <summary>What follows from a place, line by line.</summary>
/// <param name="What">Such as "Natives are those of".</param>
/// <param name="Now">What holds now.</param>
/// <param name="Then">What would hold.</param>
public sealed record RegionLine(string What, string Now, string Then);

/// <summary>Where the group is: what follows from it, and the write that changes it. What was recorded stays as it is.</summary>
public sealed class RegionSettings(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, Neighbourhoods all)
{
    /// <summary>What would change, before anybody saves.</summary>
    public async Task<IReadOnlyList<RegionLine>> PreviewAsync(Locality then, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(then);
        await using var db = await database.CreateDbContextAsync(cancel);
        var grown = await db.Sightings.Select(s => s.TaxonId).Distinct().ToListAsync(cancel);
        var taxa = await db.Taxa.AsNoTracking().ToListAsync(cancel);
        var mine = taxa.Where(t => grown.Contains(t.Id)).Select(t => t.Traits).ToList();
        var listed = taxa.ConvertAll(t => t.Traits);
        return Compare(neighbourhood.Locality, then, listed, mine);
    }

    /// <summary>Keeps the place.</summary>
    public async Task<IReadOnlyList<Problem>> SaveAsync(PlaceDraft draft, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        if (!by.May(Permission.Administer) || neighbourhood.IsDemo)
        {
            return [new("", neighbourhood.IsDemo ? "The demo stays where it is." : "Only administrators change where the group is.")];
        }

        var (place, problems) = draft.Read();
        if (place is null)
        {
            return problems;
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var row = await db.Neighbourhoods.SingleAsync(n => n.Id == neighbourhood.Id, cancel);
                Put(row, place, draft.PlaceName);
                return by.Note("changed where the group is");
            }, cancel);
        if (saved.IsStored)
        {
            await all.TryReadAsync(cancel);
        }

        return saved.Problems;
    }

    public static void Put(Storage.Places.Neighbourhood row, Locality place, string name)
    {
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(name);
        (row.PlaceName, row.State, row.Latitude, row.Longitude, row.ElevationMetres, row.RegionalTable) = (name.Trim(), place.State,
            place.Latitude, place.Longitude, place.ElevationMetres, place.Table);
    }

    /// <summary>Two places side by side; pure but for the files of the program.</summary>
    internal static IReadOnlyList<RegionLine> Compare(Locality? now, Locality then, IReadOnlyList<CatalogueTaxon> listed,
        IReadOnlyList<CatalogueTaxon> grown)
    {
        var (before, after) = (now is null ? null : RegionFiles.At(now), RegionFiles.At(then));
        CatalogueTaxon Now(CatalogueTaxon taxon) => before?.Of(taxon) ?? taxon;
        var lines = new List<RegionLine>
        {
            new("Natives and C values", Table(before), Table(after)),
            new("What that table lacks", Second(before), Second(after)),
            new("Weed law", Law(now?.State ?? "IL"), Law(then.State)),
            new("Spring, against northern Illinois", RegionWords.Days(now?.SpringDays ?? 0), RegionWords.Days(then.SpringDays)),
            new("Native plants in the catalogue", Count(listed.Count(t => Now(t).Nativity == Nativity.Native)),
                Count(listed.Count(t => after.Of(t).Nativity == Nativity.Native))),
        };
        if (grown.Count > 0)
        {
            var other = grown.Where(t => Now(t).Nativity != after.Of(t).Nativity).Select(t => t.DisplayName)
                .Order(StringComparer.OrdinalIgnoreCase).ToList();
            lines.Add(new("Native kinds among those recorded here", Count(grown.Count(t => Now(t).Nativity == Nativity.Native)),
                Count(grown.Count(t => after.Of(t).Nativity == Nativity.Native))));
            if (other.Count > 0)
            {
                lines.Add(new("Recorded plants that count differently", "",
                    string.Join(", ", other.Take(12)) + (other.Count > 12 ? $" and {other.Count - 12} more" : "")));
            }
        }

        return lines;
    }

    private static string Count(int number) => number.ToString("#,0", System.Globalization.CultureInfo.InvariantCulture);

    private static string Table(RegionalCatalogue? catalogue) => catalogue is null ? "Chicago region 2017, as the catalogue has it"
        : catalogue.Tables is { } tables
        ? $"{RegionalTables.NameOf(tables.First)}. {tables.Why} {RegionalTables.Find(tables.First)?.Note}".Trim()
        : "No table is held for this place: no C, and nothing is called native.";

    private static string Second(RegionalCatalogue? catalogue) => catalogue?.Tables is { Second.Count: > 0 } tables
        ? $"Borrowed from {string.Join(", then ", tables.Second.Select(RegionalTables.NameOf))}, and said so" : "No value of a neighbour";

    private static string Law(string state) => StateRules.Find(state) is not { } here ? "None is held"
        : $"{here.Name}: {RegionFiles.Law.Count(r => r.Jurisdiction == state)} entries, "
        + $"{(here.Law == LawCoverage.Complete ? "the whole list as it was read" : "a part of the lists")}";
}
