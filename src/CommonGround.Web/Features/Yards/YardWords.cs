using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>A yard in words and as a strip.</summary>
public static class YardWords
{
    public static string Lead(YardView view)
    {
        var site = view.Measures;
        if (site.NativeRichness == 0)
        {
            return "Nothing native is recorded here yet.";
        }

        var beds = Words.Count(view.Beds.Count, "bed");
        var start = $"{Capital(Words.Count(site.NativeRichness, "native kind", "native kinds"))} in {beds}";
        if (site.Gaps.Count == 0)
        {
            return $"{start}, and something is in flower from {HalfMonthWords.FirstDay(view.Season.First)} to "
                + $"{HalfMonthWords.LastDay(view.Season.Last)}.";
        }

        var covered = CoveredRun(site.Bloom.HalfMonths, view.Season);
        var gaps = Words.List([.. site.Gaps.Select(g => HalfMonthWords.Run(g.From, g.To))]);
        return covered is { } run
            ? $"{start}; the season is covered from {HalfMonthWords.FirstDay(run.From)} to {HalfMonthWords.LastDay(run.To)}. Fewer than "
            + $"{Words.Spelled(view.Season.Norm).ToLowerInvariant()} species flower {gaps}."
            : $"{start}, but in no half-month do {Words.Spelled(view.Season.Norm).ToLowerInvariant()} of them flower together.";
    }

    public static Chart Strip(YardView view, int half, double width, Units units)
    {
        var lines = view.Beds.SelectMany(b => b.Plantings).GroupBy(p => p.Taxon)
            .Where(g => g.Key.Nativity == Nativity.Native || g.Key.Bloom is not null)
            .Select(g => new BloomLine(g.Key.DisplayName, g.Key.ScientificName, g.Key.Nativity == Nativity.Native ? g.Key.Bloom : null,
                NoWindow(g.Key), g.Key.FlowerColour, g.Sum(p => p.CoverSquareMetres), g.All(p => p.Certainty == Certainty.Tentative)))
            .ToList();
        return BloomStripChart.Draw($"Bloom strip of yard {view.Facts.Code}", lines, Figures.InFlower(view.Measures),
            Figures.InFlowerCertain(view.Measures), view.Season, half, width,
                new BloomStripLook(AreaUnit: units.AreaUnit, SquareMetresPerUnit: 1 / units.Area(1)));
    }

    /// <summary>"31 native kinds in flower now".</summary>
    public static string InFlower(YardView view,
        int half) => $"{Words.Count(view.Measures.Bloom.HalfMonths[half].N, "native kind")} in flower now";

    /// <summary>"142 kinds of visitors, 61 of them bees".</summary>
    public static string Fed(Ecology.Pollinators.FedVisitors fed) => fed.Support.Visitors == 0 ? "nobody on record"
        : $"{Words.Count(fed.Support.Visitors, "kind")} on record, {fed.Support.Bees} of them bees";

    /// <summary>"78 native, fidelity 5.8, pressure 14.7".</summary>
    public static string Measures(
        YardView view) => $"{view.Measures.NativeRichness} native, fidelity {Words.Number(view.Measures.NativeMeanC)}, pressure "
            + $"{Words.Number(view.Measures.InvasivePressureSquareMetres)}";

    public static string Ground(YardFacts facts)
    {
        var light = facts.Light is { } l ? Capital(PlantWords.Of(l)) : "Light not known";
        var moisture = facts.Moisture is { } m ? $"{PlantWords.Of(m)} soil" : "moisture not known";
        var soil = facts.SoilGroup is { } s ? $"soil group {s}" : "soil group not known";
        return $"{light}, {moisture}, {soil}. {(facts.InPublic ? "Counts in what the public sees of its block." : facts.Shared ? "Shares; it will count in public once enough of its block’s yards do." : "Not shared: it takes no part in public figures.")}";
    }

    private static string NoWindow(CatalogueTaxon taxon) => taxon.LifeForm switch
    {
        LifeForm.Grass or LifeForm.Sedge or LifeForm.Fern or LifeForm.Turf => PlantWords.Of(taxon.LifeForm) + ", no bloom window",
        _ when taxon.Nativity != Nativity.Native => "introduced, not counted",
        _ => "bloom window not known",
    };

    private static (int From, int To)? CoveredRun(IReadOnlyList<BloomHalfMonth> halves, Season season)
    {
        var covered = Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => halves[t].N >= season.Norm).ToList();
        return covered.Count == 0 ? null : (covered[0], covered[^1]);
    }

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
