using CommonGround.Ecology.Phenology;
using CommonGround.Reports.Charts;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Tests.Charts;

public sealed class ChartInkTests
{
    private static readonly int[] s_inFlower = [0, 0, 0, 0, 0, 0, 1, 2, 3, 3, 4, 6, 8, 9, 9, 7, 6, 4, 3, 1, 0, 0, 0, 0];
    private static readonly int[] s_certain = [.. s_inFlower.Select(n => Math.Max(0, n - 1))];

    [Fact]
    public void Every_mark_of_every_chart_has_ink_on_paper()
    {
        string[] colours = ["white", "yellow", "orange", "red", "pink", "purple", "blue", "green", ""];
        var lines = colours.Select((c, i) => new BloomLine($"plant {i}", $"Planta numerosa{i}", i == 0 ? null : new BloomWindow(i, i + 6),
            "grass", c, i + 0.5, i % 2 == 0)).ToList();
        var season = Season.Default;
        Chart[] charts =
        [
            BloomStripChart.Draw("strip", lines, s_inFlower, s_certain, season, 15, 830),
            BloomStripChart.Draw("strip", lines, s_inFlower, s_certain, season, 15, 400),
            SeasonLineChart.Line("line", s_inFlower, season, 15, 19),
            SeasonLineChart.Bars("bars", s_inFlower, season, 9),
            SeasonLineChart.Panel("panel", s_inFlower, season, 15),
            SeasonPairChart.Draw("pair", [("a", s_inFlower), ("b", s_certain)], season, 15, 830),
            SmallCharts.Window(new BloomWindow(12, 15), "blue", season, 14, tentative: true),
            SmallCharts.Range(4, 3, 6, 10, " m²"),
            SmallCharts.Cover(3, 10),
            SmallCharts.CoveredBlocks("blocks", s_inFlower, 31, season, 15, 900),
            VisitLinesChart.Draw("visits",
                [new(2025, [.. Enum.GetValues<VisitMark>().Select((m, i) => new Visit(new DateOnly(2025, i + 1, 9), m, i % 2 == 0))],
                    "1 m²", 0.5), new(2026, []) { InFlower = (new(2026, 7, 1), new(2026, 8, 1)) }], new BloomWindow(12, 15),
                        new BloomWindow(22, 1), "blue", 900),
            VisitLinesChart.Draw("visits", [new(2025, [new Visit(new DateOnly(2025, 6, 1), VisitMark.Bud)])], new BloomWindow(12, 15),
                null, "", 328),
            VisitLinesChart.OneLine("visits", [2025, 2026], [new Visit(new DateOnly(2025, 6, 1), VisitMark.Leaves)], "red", 560),
            VisitLinesChart.Key(VisitMark.Ripe, ""),
            SmallCharts.YearBars("year", s_inFlower, 31, season, 15, 600),
        ];
        foreach (var mark in charts.SelectMany(c => c.Marks))
        {
            if (mark is TextMark text)
            {
                ChartInk.Words(text.Style, 1).Size.ShouldBeGreaterThan(0);
            }
            else
            {
                var ink = ChartInk.Of(mark.Style);
                (ink.Brush() is not null || ink.Stroke(1) is not null).ShouldBeTrue(mark.Style);
                (mark is not LineMark || ink.Stroke(1) is not null).ShouldBeTrue(mark.Style);
            }
        }
    }

    [Fact]
    public void A_style_nobody_has_given_ink_is_refused() => Should.Throw<ArgumentException>(() => ChartInk.Of("g-unheard-of"));

    [Fact]
    public void Flower_lines_reach_three_to_one_on_white_so_that_they_read_in_grey()
    {
        // WCAG 2.2, success criterion 1.4.11 (non-text contrast) and its relative luminance.
        foreach (var colour in new[] { "white", "yellow", "orange", "red", "pink", "purple", "blue", "green", "none" })
        {
            Contrast(ChartInk.Of("fl-" + colour).Line!.Value).ShouldBeGreaterThanOrEqualTo(3, colour);
        }

        Contrast(ChartInk.Of("g-bar").Fill!.Value).ShouldBeGreaterThanOrEqualTo(4.5);
        Contrast(ChartInk.Of("st-off").Line!.Value).ShouldBeGreaterThanOrEqualTo(4.5);
    }

    [Fact]
    public void A_tentative_line_is_told_apart_by_shape_not_only_by_colour()
    {
        var tentative = ChartInk.Of("fl-purple tentative");
        tentative.Dash.ShouldNotBeNull();
        tentative.Fill.ShouldNotBe(ChartInk.Of("fl-purple").Fill);
    }

    private static double Contrast(XColor ink)
    {
        static double Linear(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
        var luminance = (0.2126 * Linear(ink.R / 255.0)) + (0.7152 * Linear(ink.G / 255.0)) + (0.0722 * Linear(ink.B / 255.0));
        return 1.05 / (luminance + 0.05);
    }
}
