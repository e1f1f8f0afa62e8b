using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>What the street page says in words.</summary>
public static class StreetsWords
{
    /// <summary>A street's own page.</summary>
    public static string StreetAddress(string street) => "/streets/street?street=" + Uri.EscapeDataString(street);

    /// <summary>The page that plans all its yards at once.</summary>
    public static string PlanAddress(string street) => "/streets/plan?street=" + Uri.EscapeDataString(street);

    public static string Headline(Figures figures)
    {
        var shown = figures.Shown.Count;
        if (shown == 0)
        {
            return "No block has three yards yet";
        }

        // The late half-month in which the most blocks that were covered before fall out.
        var covered = figures.BlocksCovered();
        var worst = Enumerable.Range(figures.Season.LateFrom, figures.LateHalves).MaxBy(t => covered[t - 1] - covered[t]);
        var quiet = shown - covered[worst];
        var when = (worst % 2 == 0 ? "early " : "mid-") + HalfMonthWords.Month(worst);
        return quiet == 0 ? $"Every block keeps flowering to {HalfMonthWords.LastDay(figures.Season.Last)}"
            : $"{Share(quiet, shown)} the blocks go quiet in {when}";
    }

    public static string Lead(Figures figures)
    {
        var shown = figures.Shown.Count;
        if (shown == 0)
        {
            return "A block is shown when three or more of its yards take part. Register more yards to fill the map.";
        }

        var few = figures.Shown.Count(b => figures.LateCovered(figures.Blocks[b]) < 3);
        return $"Of {Words.Count(shown, "block")} shown, {few} {(few == 1 ? "has" : "have")} "
            + $"{Words.Spelled(figures.Season.Norm).ToLowerInvariant()} native species in flower in fewer than three "
            + $"of the {Words.Spelled(figures.LateHalves).ToLowerInvariant()} half-months from {HalfMonthWords.FirstDay(figures.Season.LateFrom)}.";
    }

    /// <summary>Says on organisers' pages that more yards count there than the public sees.</summary>
    public static string Organisers(Figures figures)
    {
        var silent = figures.Matrix.Yards.Count(y => !y.Shared);
        return figures.Matrix.Yards.Count == 0 ? "" : silent == 0 ? "Every yard shares: the public sees the same."
            : $"Counts {Words.Count(silent, "yard")} that the public does not see counted. Do not hand these figures on.";
    }

    private static string Share(int part, int whole) => (part * 100 / whole) switch
    {
        >= 90 => "Nearly all",
        >= 60 => "Most of",
        >= 40 => "Half",
        >= 28 => "A third of",
        >= 18 => "A quarter of",
        _ => "A few of",
    };
}
