using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>What the dates of bloom rest on, as of a day.</summary>
/// <param name="Year">Of that day.</param>
/// <param name="UsesOwn">The group lets its own records take over.</param>
/// <param name="OwnTaxa">For so many taxa they do.</param>
/// <param name="OwnFrom">First year of them; 0 where none do.</param>
/// <param name="OwnTo">Last year of them.</param>
/// <param name="WarmthDays">How much later bloom is by that day's warmth; negative is earlier, null where no temperatures are
/// given.</param>
/// <param name="HasUsual">Usual temperatures are given.</param>
public sealed record BloomDates(int Year, bool UsesOwn, int OwnTaxa, int OwnFrom, int OwnTo, int? WarmthDays, bool HasUsual)
{
    /// <summary>The catalogue's dates alone.</summary>
    public static BloomDates OfCatalogue { get; } = new(0, false, 0, 0, 0, null, false);
}

/// <summary>Moves the dates of bloom by the group's own records, where it wants that, and by this year's warmth. The one way; the place has
/// moved them before.</summary>
/// <remarks>Own records are those of yards that the public sees counted, so that everybody reads the same dates and none is one
/// household's.</remarks>
internal static class GroupBloom
{
    /// <summary>What a group's own value of a plant has in place of where it was observed.</summary>
    private const string ThisGroup = "this group";

    public static async Task<(List<CatalogueTaxon> Taxa, BloomDates Dates)> MovedAsync(CommonGroundDb db, IReadOnlyList<Taxon> rows,
        IReadOnlyList<CatalogueTaxon> traits, GroupRules rules, IReadOnlySet<long> counted, DateOnly asOf, CancellationToken cancel)
    {
        var warmth = await Warmth.ReadAsync(db, rules, asOf, cancel);
        var looks = rules.OwnBloom ? await LooksAsync(db, null, counted, asOf, cancel) : [];
        var own = traits.Select((t, i) => rules.OwnBloom ? Own(t, looks.GetValueOrDefault(rows[i].Id) ?? [], warmth) : null).ToList();
        var used = own.OfType<OwnBloomWindow>().ToList();
        var dates = new BloomDates(asOf.Year, rules.OwnBloom, used.Count, used.Select(o => o.FirstYear).DefaultIfEmpty().Min(),
            used.Select(o => o.LastYear).DefaultIfEmpty().Max(),
            warmth?.DaysLater(asOf.Year, asOf.DayOfYear), warmth is not null);
        return ([.. traits.Select((t, i) => Moved(t, own[i], warmth, asOf.Year))], dates);
    }

    /// <summary>What the neighbourhood's own records say of one taxon, used or not; null with too few of them.</summary>
    public static OwnBloomWindow? Own(CatalogueTaxon taxon, IEnumerable<BloomLook> looks, Warmth? warmth) =>
        taxon.BloomPlace != ThisGroup && (taxon.UsualBloom ?? taxon.Bloom) is { } usual
            ? OwnBloom.Estimate(usual, looks, warmth is null ? null : (year, day) => warmth.DaysLater(year, day) ?? 0) : null;

    /// <summary>Looks with a stage by taxon, of yards that count and names that are not tentative.</summary>
    public static async Task<Dictionary<int, List<BloomLook>>> LooksAsync(CommonGroundDb db, int? taxonId, IReadOnlySet<long> counted,
        DateOnly asOf, CancellationToken cancel)
    {
        var looks = await db.Sightings.AsNoTracking().Where(s => s.ObservedOn <= asOf && s.GrowthStage != null && s.CoverSquareMetres > 0
            && s.Certainty != Certainty.Tentative && (taxonId == null || s.TaxonId == taxonId))
            .Select(s => new { s.TaxonId, s.YardId, s.ObservedOn, Stage = s.GrowthStage!.Value }).ToListAsync(cancel);
        return looks.Where(l => counted.Contains(l.YardId)).GroupBy(l => l.TaxonId).ToDictionary(g => g.Key,
            g => g.Select(l => new BloomLook(l.YardId, l.ObservedOn, l.Stage)).ToList());
    }

    private static CatalogueTaxon Moved(CatalogueTaxon taxon, OwnBloomWindow? own, Warmth? warmth, int year)
    {
        if (taxon.Bloom is not { } usual)
        {
            return taxon;
        }

        if (taxon.BloomPlace == ThisGroup)
        {
            return taxon with { BloomBasis = BloomBasis.SetByGroup, UsualBloom = usual };
        }

        var window = own?.Window ?? usual;
        var days = warmth?.DaysLater(year, HalfMonth.FirstDay(window.Start, year).DayOfYear + 7);
        return taxon with
        {
            Bloom = days is { } d ? SpringShift.Shifted(window, Math.Clamp(d, -SpringShift.MostDays, SpringShift.MostDays)) : window,
            UsualBloom = usual,
            OwnBloom = own,
            WarmthDays = days,
            BloomBasis = own is null ? BloomBasis.Catalogue : BloomBasis.OwnRecords,
        };
    }
}
