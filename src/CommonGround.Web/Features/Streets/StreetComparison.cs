using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>A street beside others.</summary>
/// <param name="LateMean">Late half-months covered, the mean over its blocks that are shown; null where none is.</param>
public sealed record ComparedStreet(int At, string Name, SiteMeasures Site, double? LateMean)
{
    /// <summary>"Kiln" for "Kiln Street", where the row of a table has no room for more.</summary>
    public string Short => Name.LastIndexOf(' ') is var blank and > 0 ? Name[..blank] : Name;
}

/// <summary>A plant that one street has and another has not.</summary>
/// <param name="Yards">Yards of the first street in which it grows.</param>
public sealed record PassedOn(CatalogueTaxon Taxon, int Yards);

/// <summary>Two to four streets side by side over the year, as far as the reader may see them.</summary>
public sealed class StreetComparison
{
    /// <summary>More than these are not read beside each other.</summary>
    public const int Most = 4;

    /// <summary>Plants named in the list of what one street could give another.</summary>
    private const int Named = 8;

    private readonly Figures figures;

    private StreetComparison(Figures figures, IReadOnlyList<ComparedStreet> streets)
    {
        (this.figures, Streets) = (figures, streets);
        if (streets.Count < 2)
        {
            return;
        }

        Fullest = streets.MaxBy(s => (Last(s) ?? -1, Covered(s)))!;
        Emptiest = streets.Where(s => s != Fullest).MinBy(s => (Last(s) ?? -1, Covered(s)))!;
    }

    public IReadOnlyList<ComparedStreet> Streets { get; }

    /// <summary>The street that flowers on longest, and the one that stops first.</summary>
    public ComparedStreet? Fullest { get; }
    public ComparedStreet? Emptiest { get; }

    /// <summary>The streets that may be shown: three yards or more.</summary>
    public static IReadOnlyList<string> Choices(Figures figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        return [.. figures.Matrix.Streets.Index().Where(s => figures.Streets[s.Index].Yards >= Figures.YardsToShow)
            .Select(s => s.Item.Name)];
    }

    /// <param name="figures">As the reader may see them.</param>
    /// <param name="wanted">Names; what is unknown, not shown or named twice is left out. Without two of them the street with the fullest
    /// and the one with the emptiest late season stand beside each other.</param>
    public static StreetComparison Of(Figures figures, IEnumerable<string> wanted)
    {
        ArgumentNullException.ThrowIfNull(figures);
        var shown = figures.Matrix.Streets.Index().Where(s => figures.Streets[s.Index].Yards >= Figures.YardsToShow)
            .Select(s => new ComparedStreet(s.Index, s.Item.Name, figures.Streets[s.Index], LateMeanOf(figures, s.Index))).ToList();
        var chosen = wanted.Distinct(StringComparer.Ordinal).Select(name => shown.Find(s => s.Name == name)).OfType<ComparedStreet>()
            .Take(Most).ToList();
        if (chosen.Count < 2)
        {
            var late = shown.OrderByDescending(s => figures.LateCovered(s.Site)).ThenByDescending(s => s.LateMean).ToList();
            chosen.AddRange(late.Take(1).Concat(late.TakeLast(1)).Where(s => !chosen.Contains(s)).Take(2 - chosen.Count));
        }

        return new StreetComparison(figures, [.. chosen.DistinctBy(s => s.At)]);
    }

    public string Headline()
    {
        if (Fullest is not { } full || Emptiest is not { } empty)
        {
            return "No two streets can be compared yet";
        }

        var (later, sooner) = (Last(full), Last(empty));
        var norm = Words.Spelled(figures.Season.Norm).ToLowerInvariant();
        return sooner is null ? $"{empty.Name} never has {norm} native kinds in flower at once"
            : later > sooner ? $"{empty.Name} stops {Span(later.Value - sooner.Value)} before {full.Name}"
            : Covered(full) > Covered(empty) ? $"{empty.Name} has longer gaps than {full.Name}"
            : Streets.Count == 2 ? $"{empty.Name} and {full.Name} flower equally long" : "These streets flower equally long";
    }

    /// <summary>The half-month in which they differ most late in the season, in figures.</summary>
    public string Lead()
    {
        if (Fullest is not { } full || Emptiest is not { } empty)
        {
            return "A street is shown when three or more of its yards take part.";
        }

        var late = Enumerable.Range(figures.Season.LateFrom, figures.LateHalves);
        var at = Last(empty) is { } last && last < figures.Season.Last && last >= figures.Season.First && Last(full) > last ? last + 1
            : late.MaxBy(t => N(full, t) - N(empty, t));
        return $"{HalfMonthWords.Of(at)}: {full.Name} has {Kinds(N(full, at))} in flower, {empty.Name} {Kinds(N(empty, at), bare: true)}. "
            + "Over the season "
            + $"{string.Join(", ", Streets.Select((s, i) => $"{s.Name} {(i == 0 ? "is covered in" : "in")} {Covered(s)}"))} "
            + $"of {figures.SeasonHalves} half-months.";
    }

    /// <summary>Native plants in flower late that grow on the one street and not on the other: those of most yards first. Everybody's
    /// figures name only plants that three yards grow.</summary>
    public (int Kinds, IReadOnlyList<PassedOn> Plants) PassOn()
    {
        if (Fullest is not { } full || Emptiest is not { } empty)
        {
            return (0, []);
        }

        var matrix = figures.Matrix;
        var there = matrix.YardsOfStreet(empty.At).SelectMany(y => matrix.Yards[y].Presences).Select(p => p.Taxon).ToHashSet();
        var plants = matrix.YardsOfStreet(full.At).SelectMany(y => matrix.Yards[y].Presences.Select(p => p.Taxon).Distinct())
            .GroupBy(t => t).Where(g => !there.Contains(g.Key)).Select(g => new PassedOn(matrix.Taxa[g.Key], g.Count()))
            .Where(p => p.Taxon is { Nativity: Nativity.Native, Bloom: { } bloom } && Enumerable.Range(figures.Season.LateFrom,
            figures.LateHalves).Any(bloom.Contains) && (!figures.IsPublic || p.Yards >= Figures.YardsToShow))
            .OrderByDescending(p => p.Yards).ThenBy(p => p.Taxon.DisplayName, StringComparer.Ordinal).ToList();
        return (plants.Count, [.. plants.Take(Named)]);
    }

    /// <summary>Native kinds that grow on every one of the streets.</summary>
    public int InCommon => Streets.Select(s => figures.Matrix.YardsOfStreet(s.At).SelectMany(y => figures.Matrix.Yards[y].Presences)
        .Select(p => p.Taxon).Where(t => figures.Matrix.Taxa[t].Nativity == Nativity.Native).ToHashSet())
        .Aggregate((IEnumerable<int>?)null, (all, one) => all is null ? one : all.Intersect(one))?.Count() ?? 0;

    public int Covered(ComparedStreet street)
    {
        ArgumentNullException.ThrowIfNull(street);
        return figures.SeasonCovered(street.Site);
    }

    /// <summary>The last half-month of the season that is covered.</summary>
    private int? Last(ComparedStreet street) => Enumerable.Range(figures.Season.First, figures.SeasonHalves)
        .Where(t => N(street, t) >= figures.Season.Norm).Select(t => (int?)t).LastOrDefault();

    private static int N(ComparedStreet street, int half) => street.Site.Bloom.HalfMonths[half].N;

    /// <summary>Half-months as weeks, two each.</summary>
    private static string Span(int halves) => halves == 1 ? "two weeks" : $"{Words.Spelled(halves * 2).ToLowerInvariant()} weeks";

    private static string Kinds(int n, bool bare = false) => n == 0 ? "none" : bare ? $"{n}"
        : Words.Count(n, "native kind", "native kinds");

    private static double? LateMeanOf(Figures figures, int street)
    {
        var blocks = figures.Matrix.BlocksOfStreet(street).Where(figures.Shown.Contains).ToList();
        return blocks.Count == 0 ? null : blocks.Average(b => figures.LateCovered(figures.Blocks[b]));
    }
}
