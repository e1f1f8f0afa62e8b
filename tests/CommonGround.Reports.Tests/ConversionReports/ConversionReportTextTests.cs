using System.Globalization;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tests.ConversionReports;

/// <summary>What the reader finds on paper is what the plan holds; the figures are formatted here again, by hand.</summary>
public sealed class ConversionReportTextTests
{
    private static readonly CultureInfo s_plain = CultureInfo.InvariantCulture;

    [Theory]
    [InlineData("three", PaperSize.Letter)]
    [InlineData("ordinary", PaperSize.Letter)]
    [InlineData("ordinary", PaperSize.A4)]
    [InlineData("ordinary in feet", PaperSize.A4)]
    [InlineData("sixty", PaperSize.Letter)]
    public void Every_line_of_the_shopping_list_holds_the_plans_figures_and_never_splits(string name, PaperSize paper)
    {
        var report = ConversionReportPagesTests.Plan(name);
        var pages = ConversionReportPagesTests.Read(report, paper).Pages;
        var perUnit = report.Units == Units.UsCustomary ? 0.3048 * 0.3048 : 1;
        foreach (var (taxon, number) in Numbered(report.Plan))
        {
            var share = (100 * taxon.Share).ToString(taxon.Share < 0.0995 ? "0.0" : "0", s_plain);
            var seeds = (taxon.SeedsPerSquareMetre * perUnit).ToString(perUnit < 1 ? "0.0" : "0", s_plain);
            var cost = taxon.Cost.ToString("#,0.00", s_plain) + (taxon.PriceEstimated ? "*" : "");
            var row = taxon.As == PlantedAs.Seed
                ? $"seed{share}{seeds}{Grams(taxon.PlsGrams)}{Grams(taxon.BulkGrams)}–{cost}"
                : $"plugs{share}–––{taxon.Plugs.ToString("#,0", s_plain)}{cost}";
            pages.Count(p => p.Contains($"{number} {taxon.Taxon.DisplayName} {taxon.Taxon.ScientificName}{row}", StringComparison.Ordinal))
                .ShouldBe(1, $"{taxon.Taxon.ScientificName}: {row}");
        }

        var sum = $"{report.Plan.Mix.Taxa.Sum(t => t.Plugs).ToString("#,0", s_plain)}{report.Plan.Mix.Cost.ToString("#,0.00", s_plain)}";
        pages.ShouldContain(p => p.Contains(sum, StringComparison.Ordinal));
    }

    [Fact]
    public void The_cover_says_what_it_costs_what_it_saves_and_what_it_asks()
    {
        var report = SamplePlans.Ordinary();
        var plan = report.Plan;
        var cover = ConversionReportPagesTests.Read(report).Pages[0];
        cover.ShouldContain("120 m² of lawn could be in flower");
        cover.ShouldContain($"It costs about ${plan.Money.Establishment.Mid.ToString("#,0", s_plain)} to start");
        cover.ShouldContain($"from year {plan.Money.BreakEvenYear}");
        cover.ShouldContain($"0 → {plan.Yard.CoveredAfter}");
        cover.ShouldContain($"likely ${plan.Money.Establishment.Low.ToString("#,0", s_plain)}–${plan.Money.Establishment.High.ToString("#,0", s_plain)}");
        cover.ShouldContain("invented prices");
        var storm = plan.Runoff.Storms.Single(s => s.RainMillimetres == 76.2);
        cover.ShouldContain($"In 76 mm of rain about {((storm.BeforeMillimetres.Mid - storm.AfterMillimetres.Mid) * 0.12).ToString("0.0", s_plain)} m³ less runs off");
        cover.ShouldContain($"−{(100 - (100 * storm.AfterMillimetres.Mid / storm.BeforeMillimetres.Mid)).ToString("0", s_plain)} %");
        cover.ShouldContain($"about {plan.Work.Years[0].Sum().ToString("0", s_plain)} hours of you in the first year");
    }

    [Fact]
    public void Where_the_lawn_is_cheaper_cover_and_money_say_so_with_the_sum()
    {
        var report = SamplePlans.Three();
        var money = report.Plan.Money;
        money.BreakEvenYear.ShouldBeNull();
        var more = "$" + (money.PlantingByYear[^1].Mid - money.LawnByYear[^1].Mid).ToString("#,0", s_plain);
        var read = ConversionReportPagesTests.Read(report);
        read.Pages[0].ShouldContain($"keeping the lawn is cheaper, by about {more} after ten years");
        read.Text.ShouldContain($"Money: the lawn stays cheaper, by about {more} in ten years");
        read.Text.ShouldNotContain("planting cheaper from");
    }

    [Fact]
    public void Money_is_printed_low_middle_and_high_and_invented_prices_are_said_so_where_they_are_read()
    {
        var report = SamplePlans.Ordinary();
        var pages = ConversionReportPagesTests.Read(report).Pages;
        string Words(
            Spread s) => $"${s.Mid.ToString("#,0", s_plain)} (${s.Low.ToString("#,0", s_plain)}–${s.High.ToString("#,0", s_plain)})";
        foreach (var year in new[] { 1, 3, 5, 10 })
        {
            string.Join('\n', pages)
                .ShouldContain($"{year} {(year == 1 ? "year" : "years")}{Words(report.Plan.Money.PlantingByYear[year])}{Words(report.Plan.Money.LawnByYear[year])}");
        }

        foreach (var heading in new[] { "Shopping list", "Money: the planting", "What more or less money buys" })
        {
            pages.Single(p => p.Contains(heading, StringComparison.Ordinal)).ShouldContain("All prices are invented for the demo.");
        }

        pages.ShouldAllBe(p => p.Contains("All prices are invented.", StringComparison.Ordinal));
        var real = report with { Demo = false, Plan = report.Plan with { Money = report.Plan.Money with { PricesInvented = false } } };
        ConversionReportPagesTests.Read(real).Text.ShouldNotContain("nvented");
    }

    [Fact]
    public void Without_prices_no_cost_is_printed_and_the_reason_is()
    {
        var text = ConversionReportPagesTests.Read(SamplePlans.Priceless()).Text;
        text.ShouldNotContain("$1");
        text.ShouldNotContain("$2");
        text.ShouldContain("The group has entered no prices, so no cost is given.");
        text.ShouldContain("Money: not worked out");
        text.ShouldNotContain("What more or less money buys");
    }

    [Fact]
    public void Water_and_runoff_carry_their_ranges_in_the_readers_units()
    {
        var report = SamplePlans.Ordinary();
        var water = report.Plan.Water.ShouldNotBeNull();
        string Cubic(double litres) => (litres / 1000).ToString(litres < 9950 ? "0.0" : "0", s_plain);
        var text = ConversionReportPagesTests.Read(report).Text;
        text.ShouldContain($"{Cubic(water.LawnLitres.Mid)} ({Cubic(water.LawnLitres.Low)}–{Cubic(water.LawnLitres.High)}) m³");
        text.ShouldContain($"{Cubic(report.Plan.Runoff.YearBeforeLitres!.Value.Mid)} "
            + $"({Cubic(report.Plan.Runoff.YearBeforeLitres.Value.Low)}–{Cubic(report.Plan.Runoff.YearBeforeLitres.Value.High)}) m³ "
            + $"before");
        text.ShouldContain("Curve number 79 (74–86) before, 71 (65–74) after");

        var customary = ConversionReportPagesTests.Read(SamplePlans.Ordinary(Units.UsCustomary)).Text;
        var gallons = Math.Round(water.LawnLitres.Mid / 3.785411784 / 100) * 100;
        customary.ShouldContain($"{gallons.ToString("#,0", s_plain)} (");
        customary.ShouldContain("1,292 ft² of lawn");
        customary.ShouldContain("In 3 in of rain");
        customary.ShouldNotContain(" m³");
    }

    [Fact]
    public void Without_weather_the_reason_stands_where_the_water_would()
    {
        var text = ConversionReportPagesTests.Read(SamplePlans.Three()).Text;
        text.ShouldContain("Water: not worked out");
        text.ShouldContain("The weather has temperatures for 41 days of its last year");
    }

    [Theory]
    [InlineData("ordinary")]
    [InlineData("three")]
    [InlineData("sixty")]
    public void Dangers_and_law_are_in_print(string name)
    {
        var report = ConversionReportPagesTests.Plan(name);
        var text = ConversionReportPagesTests.Read(report).Text;
        foreach (var words in new[] { "Not for eating", "Before you dig", "call 811", "The label is the law", "licensed applicator",
            "Do not burn", "Ask the code office", "Noxious weeds", "Call before you dig: lines can lie" })
        {
            text.ShouldContain(words);
        }

        var squeezed = text.Replace(" ", "", StringComparison.Ordinal);
        foreach (var taxon in report.Plan.Mix.Taxa.Select(t => t.Taxon).Where(t => t.Caution.Length > 0))
        {
            squeezed.ShouldContain(taxon.Caution.Replace(" ", "", StringComparison.Ordinal), Case.Sensitive, taxon.ScientificName);
        }
    }

    [Fact]
    public void Every_taxon_has_its_height_its_flowering_and_its_caution_in_the_table()
    {
        var report = SamplePlans.Ordinary();
        var pages = ConversionReportPagesTests.Read(report).Pages;
        foreach (var (taxon, number) in Numbered(report.Plan))
        {
            var t = taxon.Taxon;
            var page = pages.Skip(1).First(p => p.Contains($"{number} {t.DisplayName} ", StringComparison.Ordinal));
            var at = page.IndexOf($"{number} {t.DisplayName} ", StringComparison.Ordinal);
            var row = page.Substring(at, Math.Min(260, page.Length - at));
            var height = t.HeightMinMetres == t.HeightMaxMetres ? $"{t.HeightMaxMetres!.Value.ToString("0.0#", s_plain)}" : "–";
            row.ShouldContain(height, Case.Sensitive, t.ScientificName);
            row.ShouldContain(t.Bloom is { } window ? HalfMonthWords.RunShort(window.Start, window.End) : "grass", Case.Sensitive,
                t.ScientificName);
            row.ShouldContain(t.Toxicity.Length > 0 ? t.Toxicity.Split(' ')[0] : t.Caution.Length > 0 ? "see Care" : "none found",
                Case.Sensitive, t.ScientificName);
        }
    }

    [Fact]
    public void The_calendar_names_every_step_and_the_page_address_is_printed()
    {
        var report = SamplePlans.Ordinary();
        var squeezed = ConversionReportPagesTests.Read(report).Text.Replace(" ", "", StringComparison.Ordinal);
        foreach (var step in report.Plan.Calendar)
        {
            squeezed.ShouldContain(step.Do.Replace(" ", "", StringComparison.Ordinal));
            squeezed.ShouldContain(step.Expect.Replace(" ", "", StringComparison.Ordinal));
            squeezed.ShouldContain(step.Caution.Replace(" ", "", StringComparison.Ordinal));
        }

        squeezed.ShouldContain("quarrybend.example/yards/KI-12/plan/3");
        squeezed.ShouldContain("Nov–Feb");
    }

    private static IEnumerable<(PlannedTaxon Taxon, int Number)> Numbered(ConversionPlan plan) =>
        plan.Mix.Taxa.OrderBy(t => t.Taxon.Bloom?.Start ?? 99).ThenBy(t => t.Taxon.Bloom?.End ?? 99).ThenBy(t => t.Taxon.ScientificName,
            StringComparer.Ordinal).Select((t, i) => (t, i + 1));

    private static string Grams(double grams) => grams.ToString(grams < 1 ? "0.00" : grams < 100 ? "0.0" : "#,0", s_plain);
}
