using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;

namespace CommonGround.Reports.Charts;

/// <summary>What page and report say of visitors, so that they cannot disagree.</summary>
public static class VisitorWords
{
    /// <summary>Plants drawn at most: more lines nobody reads.</summary>
    public const int MostDrawn = 16;

    /// <summary>Goes under every picture.</summary>
    public const string Key =
        "Coloured bars: in flower. Dots: kinds of visitors written down there, larger for more. No dot: nobody wrote any down, not that "
        + "none come.";

    /// <summary>Where the record is from, and what it cannot say.</summary>
    public const string Effort = VisitorRecords.Caveat
        + " Plants that were watched more often have longer lists, and nobody counted how many came.";

    /// <summary>"Its 24 native plants with flowers feed 120 kinds of bees, 84 of them from two plants or more, and 310 kinds of visitors in
    /// all."</summary>
    public static string Feeds(VisitorSupport support, int plants)
    {
        ArgumentNullException.ThrowIfNull(support);
        return support.Visitors == 0
            ? "Of the plants here no visitors are written down. That is a gap in the record, not proof that nobody comes."
            : $"By the record the {(plants == 1 ? "one native flower here feeds" : $"{plants} native flowers here feed")} "
            + $"{Kinds(support.Bees)} of bees{(plants == 1 ? "" : $", {support.BeesTwice} of them from two plants or more")}, and "
            + $"{Kinds(support.Visitors)} of visitors in all.";
    }

    /// <summary>When least is in flower for bees, within the season; empty where nothing is fed.</summary>
    public static string Thinnest(VisitorSupport support, Season season)
    {
        ArgumentNullException.ThrowIfNull(support);
        ArgumentNullException.ThrowIfNull(season);
        if (support.Bees == 0) return "";
        var least = Enumerable.Range(season.First, season.Last - season.First + 1).MinBy(t => support.HalfMonths[t].Bees);
        var half = support.HalfMonths[least];
        if (half.Bees == 0)
        {
            var none = Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => support.HalfMonths[t].Bees == 0).ToList();
            // Neighbours in one run: their number less their place is the same.
            var runs = none.Select((t, i) => (t, Run: t - i)).GroupBy(n => n.Run).Select(g => HalfMonthWords.Run(g.First().t, g.Last().t));
            return $"No bee is written down for what flowers here {string.Join(", ", runs)}.";
        }

        return $"Least is there {HalfMonthWords.Of(least)}: {Kinds(half.Bees)} of bees {(half.Bees == 1 ? "has" : "have")} a plant in "
            + $"flower, {half.BeesTwice} of them two or more.";
    }

    /// <summary>Bees that were seen on one plant family only; empty where there are none.</summary>
    public static string Specialists(VisitorSupport support)
    {
        ArgumentNullException.ThrowIfNull(support);
        return support.Specialists.Count switch
        {
            0 => "",
            1 => $"One of them was seen on plants of one family only: {support.Specialists[0]}.",
            _ => $"{support.Specialists.Count} of them were seen on plants of one family only: {string.Join(", ", support.Specialists)}.",
        };
    }

    /// <summary>How much of the set the record knows; empty where it knows all.</summary>
    public static string Known(VisitorSupport support)
    {
        ArgumentNullException.ThrowIfNull(support);
        var unknown = support.Estimated + support.Blank;
        return unknown == 0 ? ""
            : $"Of {unknown} of the plants no visitors are written down: they add nothing to these figures, and that is not a nought.";
    }

    /// <summary>"8 kinds of bees more, 20 of all visitors".</summary>
    public static string Adds(ForageAddition addition)
    {
        ArgumentNullException.ThrowIfNull(addition);
        return addition.Visitors == 0 ? $"a second plant for {Kinds(addition.BeesTwice)} of bees"
            : $"{Kinds(addition.Bees)} of bees more, {addition.Visitors} of all visitors" + (addition.Taxon.Bloom is { } bloom
            ? $"; in flower {HalfMonthWords.Run(bloom.Start, bloom.End)}" : "");
    }

    /// <summary>Says which plants are drawn; empty where all are.</summary>
    public static string Drawn(int plants) => plants <= MostDrawn ? ""
        : $"Drawn are the {MostDrawn} plants that most kinds come to, of {plants}; the bars below count all. ";

    /// <summary>The picture of a set, its plants cut to those that most kinds come to.</summary>
    public static Chart Picture(string title, FedVisitors fed, Season season, double width)
    {
        ArgumentNullException.ThrowIfNull(fed);
        var rows = fed.Plants.Select(p => new VisitedRow(p.Taxon.DisplayName, p.Taxon.Bloom!.Value, p.Taxon.FlowerColour, p.Kinds));
        return VisitorChart.Draw(title, VisitorChart.Most(rows, MostDrawn), season, width, fed.Flowering > 1 ? fed.Support.HalfMonths
            : null);
    }

    private static string Kinds(int n) => n == 1 ? "1 kind" : $"{n} kinds";
}
