using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.DemoData;

/// <summary>Six seasons of walks through the yards, and what was written down on them.</summary>
internal static class Walks
{
    private const int LastYear = 2026, Walkers = 14;
    private static readonly DateOnly LastDay = new(LastYear, 8, 18);
    private static readonly string[] Remarks =
    [
        "by the downspout", "first flowers today", "seedlings only", "browsed by rabbits", "label of the nursery still there",
            "full of bees", "leaning after the storm", "moved here from the back",
        "two clumps", "along the walk, keep low", "mildew on the lower leaves", "photograph taken", "needs a second opinion",
            "divided last fall",
    ];

    public static List<SightingRow> Record(IReadOnlyList<Planting> plantings)
    {
        var rows = new List<SightingRow>();
        foreach (var yard in plantings.GroupBy(p => p.Yard))
        {
            var days = DaysOf(yard.Key);
            foreach (var planting in yard) rows.AddRange(Follow(planting, days));
        }
        return [.. rows.OrderBy(r => r.ObservedOn).ThenBy(r => r.Yard, StringComparer.Ordinal).ThenBy(r => r.Bed, StringComparer.Ordinal)
            .ThenBy(r => r.Name.Name, StringComparer.Ordinal)];
    }

    /// <summary>The days of the yard's walks: spring, summer, and late summer where somebody had the time.</summary>
    private static List<(DateOnly Day, string Walker)> DaysOf(Yard yard)
    {
        var chance = new Chance($"walks {yard.Code}");
        var own = chance.Whole(1, Walkers);
        var days = new List<(DateOnly Day, string Walker)>();
        for (var year = yard.FirstYear; year <= LastYear; year++)
        {
            string Who() => chance.Happens(0.7) ? $"walker {own}" : $"walker {chance.Whole(1, Walkers)}";
            if (chance.Happens(yard.Character == Character.OldPrairie ? 1 : 0.5))
                days.Add((new DateOnly(year, 5, chance.Whole(6, 31)), Who()));
            days.Add((year == LastYear ? new DateOnly(year, 7, chance.Whole(1, 20))
                : new DateOnly(year, chance.Whole(6, 7), chance.Whole(5, 28)), Who()));
            if (chance.Happens(0.55))
                days.Add((year == LastYear ? new DateOnly(year, 8, chance.Whole(1, LastDay.Day))
                    : new DateOnly(year, chance.Whole(8, 9), chance.Whole(2, 28)), Who()));
        }
        return [.. days.Distinct().OrderBy(d => d.Day)];
    }

    private static IEnumerable<SightingRow> Follow(Planting planting, List<(DateOnly Day, string Walker)> days)
    {
        var chance = new Chance($"sightings {planting.Yard.Code} {planting.Bed.Name} {planting.Taxon.ScientificName}");
        var isFirst = true;
        for (var year = planting.FirstYear; year <= LastYear; year++)
        {
            var ofYear = days.Where(d => d.Day.Year == year).ToList();
            if (year == planting.GoneIn)
            {
                var (gone, seenBy) = ofYear[^1];
                yield return Row(planting, gone, seenBy, 0, chance) with { Remarks = "not found again" };
                yield break;
            }
            if (!isFirst && !chance.Happens(0.44)) continue;
            // What is in flower is what a walker sees first.
            var inFlower = ofYear.Where(d => planting.Taxon.Bloom?.Contains(HalfMonth.Of(d.Day)) == true).ToList();
            var (day, walker) = chance.Pick(inFlower.Count > 0 && chance.Happens(0.6) ? inFlower : ofYear);
            yield return Row(planting, day, walker, CoverIn(planting, year, chance), chance);
            isFirst = false;
        }
    }

    /// <summary>Cover grows towards what the planting holds in the last year; relicts stay as they are.</summary>
    private static double CoverIn(Planting planting, int year, Chance chance)
    {
        double Grown(int age) => planting.Origin == Origin.Relict || planting.Yard.Character == Character.OldPrairie
            ? 1 - (0.02 * Math.Max(0, LastYear - planting.FirstYear - age)) : 1 - Math.Exp(-0.45 * (age + 0.5));
        var cover = planting.Cover * Grown(year - planting.FirstYear) / Grown(LastYear - planting.FirstYear) * chance.Between(0.95, 1.03);
        return Math.Max(0.01, Math.Round(Math.Min(planting.Cover, cover), 2));
    }

    private static SightingRow Row(Planting planting, DateOnly day, string walker, double cover, Chance chance)
    {
        var taxon = planting.Taxon;
        var (name, certainty) = (taxon.ScientificName, planting.Certainty);
        if (day.Year <= 2022 && taxon.Synonyms.Count > 0 && chance.Happens(0.06)) name = taxon.Synonyms[0];
        int? count = null;
        double? coverGiven = cover;
        if (taxon.SpacingMetres is { } spacing && cover > 0 && planting.Yard.Character != Character.OldPrairie && chance.Happens(0.09))
        {
            count = (int)(cover / (0.866 * spacing * spacing));
            if (count is > 0 and < 60) coverGiven = null;
            else count = null;
        }
        var stage = cover > 0 && chance.Happens(0.85) ? StageOf(taxon, day, chance) : null;
        var remarks = chance.Happens(0.06) ? chance.Pick(Remarks) : "";
        var qualifier = certainty != Certainty.Tentative ? "" : chance.Happens(0.85) ? "cf." : "aff.";
        return new SightingRow(0, planting.Yard.Code, planting.Bed.Name, new TaxonName(name, qualifier), day, coverGiven, count,
            planting.Origin, certainty, stage, walker, remarks);
    }

    /// <summary>BBCH principal stage to be expected on a day, from how far it lies before or after the bloom window; null for plants
    /// without one.</summary>
    private static int? StageOf(CatalogueTaxon taxon, DateOnly day, Chance chance)
    {
        if (taxon.Bloom is not { } bloom) return null;
        var t = HalfMonth.Of(day);
        if (bloom.Contains(t)) return t == bloom.End && chance.Happens(0.3) ? 7 : 6;
        if (t < bloom.Start) return (bloom.Start - t) switch { 1 => 5, <= 3 => 3, <= 5 => 2, _ => 1 };
        return (t - bloom.End) switch { <= 2 => 7, <= 4 => 8, _ => 9 };
    }
}
