using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;

namespace CommonGround.Reports.Tests.ConversionReports;

public sealed class PlanChartTests
{
    private static readonly ConversionPlan s_plan = SamplePlans.Ordinary().Plan;

    private static readonly ConversionPlan s_bed = SamplePlans.Three().Plan;

    private static Chart[] Charts() =>
    [
        SketchChart.Draw("sketch", new Sketch(s_plan.Request.Areas, 630, [new(0, 0), new(30, 0), new(30, 21), new(0, 21)], "Kiln Street"),
            false, 640, 300),
        SketchChart.Draw("sketch", new Sketch([new ConversionArea("corner", 12, [])], null, []), true, 640, 300),
        .. DriftPlan.Of(s_bed.Request, s_bed.Mix).Select(d => DriftChart.Draw("bed", d, s_bed.Mix.Numbered, true, 640)),
        .. DriftPlan.Of(s_bed.Request, s_bed.Mix).Select(d => DriftChart.Draw("bed", d, s_bed.Mix.Numbered, false, 328)),
        WaterChart.Draw(s_plan.Water!, ChartUnit.CubicMetres, 390),
        RunoffChart.Draw(s_plan.Runoff, 120, ChartUnit.CubicMetres, false, 390),
        NotesChart.Draw(s_plan.Money, "lawn", "$", 420),
        ClockChart.Draw(s_plan.Work, "lawn", 830),
        BarsChart.Draw("water", [new("lawn", 5700, "5,700 gal", true), new("planting", 0, "0 gal", false)], 390),
        TradeOffChart.Draw([new(100, 5, 1, 8), new(200, 9, 2, 12)], new(150, 8, 1.5, 9), "$", 390),
        HoursChart.Draw(s_plan.Work, 390),
        MonthsChart.Draw(11, 2),
        QrChart.Draw("https://quarrybend.example/plan", "a plan"),
    ];

    [Fact]
    public void Every_mark_has_ink_on_paper_and_stays_inside_its_chart()
    {
        foreach (var chart in Charts())
        {
            chart.AltText.Length.ShouldBeGreaterThanOrEqualTo(3);
            foreach (var mark in chart.Marks)
            {
                if (mark is TextMark text)
                {
                    ChartInk.Words(text.Style, 1).Size.ShouldBeGreaterThan(0);
                    (text.X >= 0 && text.X <= chart.Width && text.Y >= 0
                        && text.Y <= chart.Height).ShouldBeTrue($"{text} in {chart.AltText}");
                    continue;
                }

                var ink = ChartInk.Of(mark.Style);
                (ink.Brush() is not null || ink.Stroke(1) is not null).ShouldBeTrue(mark.Style);
                foreach (var (x, y) in Corners(mark))
                {
                    (x >= -0.5 && x <= chart.Width + 0.5 && y >= -0.5
                        && y <= chart.Height + 0.5).ShouldBeTrue($"{mark} in {chart.AltText}");
                }
            }
        }
    }

    [Fact]
    public void Areas_are_to_scale_with_their_ruler()
    {
        foreach (var chart in Charts().Take(2))
        {
            var area = chart.Marks.OfType<PathMark>().Last(m => m.Style == "sk-area");
            var words = chart.Marks.OfType<TextMark>().Single(m => m.Text.Contains("a square: ", StringComparison.Ordinal)).Text;
            var feet = words.Contains(" ft (", StringComparison.Ordinal);
            var ruler = chart.Marks.OfType<LineMark>().Where(m => m.Style == "ground").Max(m => Math.Abs(m.X2 - m.X1));
            var metre = ruler / (double.Parse(words.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture) * (feet ? 0.3048
                : 1));
            // Shoelace formula on the corners drawn.
            var drawn = Math.Abs(area.Points.Zip([.. area.Points.Skip(1), area.Points[0]])
                .Sum(p => (p.First.X * p.Second.Y) - (p.Second.X * p.First.Y))) / 2 / (metre * metre);
            drawn.ShouldBe(feet ? 12 : Shoelace(s_plan.Request.Areas[1].Outline), 1e-6);
        }
    }

    [Fact]
    public void Bars_and_lines_stand_at_the_records_figures()
    {
        var runoff = RunoffChart.Draw(s_plan.Runoff, 120, ChartUnit.CubicMetres, false, 390);
        var before = runoff.Marks.OfType<RectMark>().Where(m => m.Style == "before").ToList();
        var after = runoff.Marks.OfType<RectMark>().Where(m => m.Style == "after").ToList();
        (after[^1].Height / before[^1].Height).ShouldBe(s_plan.Runoff.Storms[^1].AfterMillimetres.Mid
            / s_plan.Runoff.Storms[^1].BeforeMillimetres.Mid, 1e-9);

        var water = WaterChart.Draw(s_plan.Water!, ChartUnit.CubicMetres, 390);
        var months = water.Marks.OfType<RectMark>().Where(m => m.Style == "before").Skip(1).ToList();
        months.Count.ShouldBe(s_plan.Water!.LawnByMonth.Count(v => v > 0));
        (months[0].Height / months[1].Height).ShouldBe(s_plan.Water.LawnByMonth.First(v => v > 0)
            / s_plan.Water.LawnByMonth.Where(v => v > 0).ElementAt(1), 1e-9);
    }

    [Fact]
    public void Notes_can_be_counted_and_come_to_the_sums()
    {
        foreach (var money in new[] { s_plan.Money, s_bed.Money })
        {
            var chart = NotesChart.Draw(money, "lawn", "$", 420);
            var note = NotesChart.Note(Math.Max(money.LawnByYear[^1].Mid, money.PlantingByYear[^1].Mid));
            var notes = chart.Marks.OfType<RectMark>().Where(m => m.Style is "st-on" or "before" or "g-under").ToList();
            notes.Count.ShouldBe((int)Math.Round(money.LawnByYear[^1].Mid / note) + (int)Math.Round(money.PlantingByYear[^1].Mid / note));
            notes.Count(m => m.Style == "st-on").ShouldBe((int)Math.Round(money.PlantingByYear[0].Mid / note));
        }
    }

    [Fact]
    public void Clock_faces_come_to_the_hours()
    {
        var chart = ClockChart.Draw(s_plan.Work, "lawn", 830);
        var whole = chart.Marks.OfType<CircleMark>().Count(m => m.Style == "st-on");
        var hours = s_plan.Work.Years.Select(y => y.Sum()).ToList();
        whole.ShouldBe(hours.Sum(h => h >= 9.95 ? (int)Math.Round(h) : (int)Math.Floor(h + 0.05)));
        chart.AltText.ShouldContain("each later year");
    }

    [Fact(DisplayName = "A QR code has its three finder patterns and four modules of quiet zone (ISO/IEC 18004)")]
    public void A_code_has_its_finder_patterns()
    {
        var code = QrChart.Draw("https://quarrybend.example/plan", "a plan");
        var size = (int)(code.Width / 4);
        var dark = new bool[size, size];
        foreach (var run in code.Marks.OfType<RectMark>())
        {
            for (var x = (int)(run.X / 4); x < (int)Math.Round((run.X + run.Width) / 4); x++)
            {
                dark[x, (int)(run.Y / 4)] = true;
            }
        }

        // 7 × 7: a dark ring, a light ring, a dark square of three.
        foreach (var (left, top) in new[] { (4, 4), (size - 11, 4), (4, size - 11) })
        {
            for (var i = 0; i < 49; i++)
            {
                var (x, y) = (i % 7, i / 7);
                var ring = Math.Max(Math.Abs(x - 3), Math.Abs(y - 3));
                dark[left + x, top + y].ShouldBe(ring != 2, $"{x},{y} of the pattern at {left},{top}");
            }
        }

        Enumerable.Range(0, size).ShouldAllBe(i => !dark[i, 0] && !dark[i, 3] && !dark[0, i] && !dark[3, i]);
        ((size - 8 - 17) % 4).ShouldBe(0);
        code.AltText.ShouldBe("QR code of https://quarrybend.example/plan: a plan");
    }

    private static double Shoelace(IReadOnlyList<PlanPoint> corners) =>
        Math.Abs(corners.Zip([.. corners.Skip(1), corners[0]]).Sum(p => (p.First.East * p.Second.North) - (p.Second.East * p.First.North)))
            / 2;

    private static IEnumerable<(double X, double Y)> Corners(Mark mark) => mark switch
    {
        LineMark m => [(m.X1, m.Y1), (m.X2, m.Y2)],
        RectMark m => [(m.X, m.Y), (m.X + m.Width, m.Y + m.Height)],
        CircleMark m => [(m.X - m.Radius, m.Y - m.Radius), (m.X + m.Radius, m.Y + m.Radius)],
        PathMark m => m.Points,
        _ => [],
    };
}
