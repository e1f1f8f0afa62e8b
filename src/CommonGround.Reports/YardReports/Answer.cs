using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>What the report answers: its headline, its lead and the four figures that carry it.</summary>
internal sealed class Answer(YardReport report)
{
    private readonly Season _season = report.Season;
    private readonly BloomCoverage _bloom = report.Measures.Bloom;

    public int SeasonHalves => _season.Last - _season.First + 1;

    public int Covered => Wording.Covered(_bloom, _season, _season.First);

    public int CoveredWithoutTentative => Wording.Covered(report.Measures.BloomWithoutTentative, _season, _season.First);

    public string Headline()
    {
        var flowering = Half().Where(t => _bloom.HalfMonths[t].N > 0).ToList();
        if (flowering.Count == 0)
        {
            return report.LawnSquareMetres is { } lawn && lawn > 0
                ? $"Nothing native flowers here yet: {Wording.Area(lawn, report.Units)} of lawn could change that"
                : "Nothing native flowers here yet";
        }

        var covered = Half().Where(t => _bloom.HalfMonths[t].N >= _season.Norm).ToList();
        if (covered.Count == 0)
        {
            return $"Something native flowers here, but never {Wording.Count(_season.Norm)} kinds at a time";
        }

        var (first, last) = (covered[0], covered[^1]);
        var between = report.Measures.Gaps.Where(g => g.From > first && g.To < last).ToList();
        return between.Count switch
        {
            0 when covered.Count == SeasonHalves => $"Your yard flowers all season, {Wording.Runs([new(first, last)])}",
            0 when first / 2 == last / 2 => $"Your yard flowers only {Wording.Runs([new(first, last)])}",
            0 => $"Your yard flowers {FromTo(first, last)}",
            1 => $"Your yard flowers {FromTo(first, last)}, but for {Wording.Runs(between)}",
            _ => $"Your yard flowers in {covered.Count} of the season’s {SeasonHalves} half-months",
        };
    }

    public string Lead()
    {
        var measures = report.Measures;
        var cover = report.Beds.SelectMany(b => b.Plantings).Sum(p => p.CoverSquareMetres);
        var sentences = new List<string>
        {
            measures.NativeRichness == 0
                ? $"No native species is recorded in this yard as of {Wording.Date(report.AsOf)}."
                : $"This yard holds {Wording.Count(measures.NativeRichness, "native species", "native species")} as of "
                + $"{Wording.Date(report.AsOf)}, and its plants cover {Wording.Area(cover, report.Units)}.",
        };
        if (measures.NativeRichness > 0)
        {
            var doubt = CoveredWithoutTentative < Covered
                ? $", or {CoveredWithoutTentative} if the plants marked tentative are something else" : "";
            sentences.Add($"{Wording.Capital(Wording.Count(_season.Norm))} or more are in flower at once in {Covered} of the season’s "
                + $"{SeasonHalves} half-months{doubt}.");
        }

        if (measures.NativeRichness > 0 && measures.Gaps.Count is > 0 and <= 3 && Covered > 0)
        {
            sentences.Add($"Too few flower {Wording.Runs(measures.Gaps)}.");
        }

        if (report.Suggestions.Count > 0)
        {
            sentences.Add(First(report.Suggestions[0].Taxon));
        }

        sentences.Add(measures.NativeRichness > 0
            ? "Cover was judged by eye; flowering dates are estimates."
            : "Flowering dates are estimates.");
        return string.Join(" ", sentences);
    }

    public IReadOnlyList<KeyFigure> Figures()
    {
        var measures = report.Measures;
        var half = HalfMonth.Of(report.AsOf);
        var now = _bloom.HalfMonths[half];
        var late = Wording.Covered(_bloom, _season, _season.LateFrom);
        var lateCertain = Wording.Covered(measures.BloomWithoutTentative, _season, _season.LateFrom);
        return
        [
            new("Native species", $"{measures.NativeRichness}", $"of {measures.Richness} kinds; {measures.IntroducedRichness} introduced"),
            new("Season covered", $"{Covered} of {SeasonHalves}",
                Doubt(CoveredWithoutTentative, Covered, $"half-months, {Months(_season.First)}–{Months(_season.Last)}")),
            new("Late season covered", $"{late} of {_season.Last - _season.LateFrom + 1}",
                Doubt(lateCertain, late, $"half-months from {HalfMonthWords.FirstDay(_season.LateFrom)}")),
            new("In flower now", now.N == 0 ? Wording.Undefined : Wording.Area(now.AreaSquareMetres, report.Units), now.N == 0
                ? $"no native, {HalfMonthWords.Short(half)}" : $"{now.N} native species, {HalfMonthWords.Short(half)}"),
        ];
    }

    private static string FromTo(int first,
        int last) => $"from {Wording.Unbroken(HalfMonthWords.FirstDay(first))} to {Wording.Unbroken(HalfMonthWords.LastDay(last))}";

    private static string Doubt(int certain, int all, string of) => certain < all ? $"{of}; {certain} without tentative" : of;

    private static string Months(int half) => HalfMonthWords.Month(half)[..3];

    private static string First(CatalogueTaxon taxon) => taxon.Bloom is { } window
        ? $"A first plant to add: {taxon.DisplayName}, in flower {Wording.Unbroken(HalfMonthWords.Run(window.Start, window.End))}."
        : $"A first plant to add: {taxon.DisplayName}.";

    private IEnumerable<int> Half() => Enumerable.Range(_season.First, SeasonHalves);
}
