using System.Globalization;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.ConversionReports;
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
    public void Every_line_of_shopping_list_and_amounts_holds_the_plans_figures_and_never_splits(string name, PaperSize paper)
    {
        var report = ConversionReportPagesTests.Plan(name);
        var pages = ConversionReportPagesTests.Read(report, paper).Pages;
        var feet = report.Units == Units.UsCustomary;
        foreach (var (taxon, number) in Numbered(report.Plan))
        {
            var share = (100 * taxon.Share).ToString(taxon.Share < 0.0995 ? "0.0" : "0", s_plain);
            var seeds = Density(taxon.SeedsPerSquareMetre * (feet ? 0.3048 * 0.3048 : 1));
            var cost = taxon.Cost.ToString("#,0.00", s_plain) + (taxon.PriceEstimated ? "*" : "");
            var plant = $"{number} {taxon.Taxon.DisplayName} {taxon.Taxon.ScientificName}";
            var row = taxon.As == PlantedAs.Seed
                ? $"seed{share}{seeds}{Weight(taxon.PlsGrams, feet)}{Weight(taxon.BulkGrams, feet)}–{cost}"
                : $"plugs{share}–––{taxon.Plugs.ToString("#,0", s_plain)}{cost}";
            pages.Count(p => p.Contains(plant + row, StringComparison.Ordinal)).ShouldBe(1, $"{taxon.Taxon.ScientificName}: {row}");
            var listed = taxon.As == PlantedAs.Seed ? $"seed{Weight(taxon.BulkGrams, feet)} {(feet ? "oz" : "g")}{cost}"
                : $"plugs{taxon.Plugs.ToString("#,0", s_plain)}{cost}";
            pages.Count(p => p.Contains(plant, StringComparison.Ordinal) && p.Contains(listed, StringComparison.Ordinal))
                .ShouldBeGreaterThanOrEqualTo(1, $"{taxon.Taxon.ScientificName}: {listed}");
        }

        var sum = $"{report.Plan.Mix.Taxa.Sum(t => t.Plugs).ToString("#,0", s_plain)}{report.Plan.Mix.Cost.ToString("#,0.00", s_plain)}";
        pages.ShouldContain(p => p.Contains(sum, StringComparison.Ordinal));
    }

    [Fact]
    public void The_first_page_answers_in_one_sentence_and_three_figures()
    {
        var report = SamplePlans.Ordinary();
        var plan = report.Plan;
        var cover = ConversionReportPagesTests.Read(report).Pages[0];
        cover.ShouldContain("120 m² of lawn could be in flower");
        cover.ShouldContain($"Turn 120 m² of lawn into a low-edged planting of 20 native kinds: it costs about "
            + $"${plan.Money.Establishment.Mid.ToString("#,0", s_plain)} to start, and it asks about "
            + $"{plan.Work.Years[0].Sum().ToString("0", s_plain)} hours of you in the first year");
        var after = plan.Yard.CoveredAfter;
        cover.ShouldContain($"0 → {after / 2}{(after % 2 == 1 ? "½" : "")}");
        cover.ShouldContain($"likely ${plan.Money.Establishment.Low.ToString("#,0", s_plain)}–"
            + plan.Money.Establishment.High.ToString("$#,0", s_plain));
        cover.ShouldContain("invented prices");
    }

    [Fact]
    public void A_householders_pages_use_no_words_of_the_trade()
    {
        var read = ConversionReportPagesTests.Read(SamplePlans.Local());
        var householder = read.Pages.TakeWhile(p => !p.Contains("For those who want to know more", StringComparison.Ordinal)).ToList();
        householder.Count.ShouldBeGreaterThanOrEqualTo(5);
        foreach (var page in householder)
        {
            foreach (var word in new[] { "taxa", "taxon", "fidelity", "Shannon", "evapotranspiration", "Curve number", "pure live",
                "m²-eq", "not known:" })
            {
                page.ShouldNotContain(word, Case.Insensitive);
            }
        }
    }

    [Fact]
    public void What_the_group_wrote_of_town_and_growers_is_printed_and_defers_to_the_town()
    {
        var text = ConversionReportPagesTests.Read(SamplePlans.Local()).Text;
        text.ShouldContain("“Grass over eight inches is cut; planted beds are no grass.” (Code of Quarry Bend, 9-4, read on May 3, 2026)");
        text.ShouldContain("ask the code office before you plant");
        text.ShouldContain("Spring sale at the mill, second Saturday of May; Seed box in the library.");
        text.ShouldContain("Your yard on June 14, 2026.");
        // With photo and pictures, too, the first page holds the answer, the figures and the year.
        var cover = ConversionReportPagesTests.Read(SamplePlans.Local()).Pages[0];
        foreach (var part in new[] { "Your yard on June 14, 2026.", "early September, third year", "Your hours", "once grown in" })
        {
            cover.ShouldContain(part);
        }

        var without = ConversionReportPagesTests.Read(SamplePlans.Ordinary()).Text;
        without.ShouldContain("The group has not entered your town’s rules.");
        without.ShouldContain("The group has not entered its growers yet");
    }

    [Fact]
    public void A_photo_that_cannot_be_read_is_left_out_and_the_report_is_whole()
    {
        var broken = SamplePlans.Ordinary() with { Photo = new ReportPhoto([1, 2, 3], new DateOnly(2026, 6, 14), "") };
        ConversionReportPagesTests.Read(broken).Pages[0].ShouldNotContain("Your yard on");
    }

    [Fact]
    public void Worries_are_answered_and_visitors_go_by_the_names_people_use()
    {
        var text = ConversionReportPagesTests.Read(SamplePlans.Ordinary()).Text;
        foreach (var worry in new[] { "weeds the first summer", "Ticks", "Snakes", "Hay fever and stings", "dead in winter",
            "Selling the house", "seed will not come up", "Centers for Disease Control",
            "beside the walk the plants stand about 0.6 m high" })
        {
            text.ShouldContain(worry);
        }

        foreach (var visitor in new[] { "Bumblebees6wild bergamot, prairie clover", "Mining bees21", "Monarch1butterfly weed" })
        {
            text.ShouldContain(visitor);
        }
    }

    [Fact]
    public void Where_the_lawn_is_cheaper_the_money_page_says_so_with_the_sum_and_what_it_is_a_month()
    {
        var report = SamplePlans.Three();
        var money = report.Plan.Money;
        money.BreakEvenYear.ShouldBeNull();
        var more = money.PlantingByYear[^1].Mid - money.LawnByYear[^1].Mid;
        var read = ConversionReportPagesTests.Read(report);
        read.Text.ShouldContain($"About ${more.ToString("#,0", s_plain)} more than keeping the lawn, over ten years");
        read.Text.ShouldContain($"That is about ${(more / 120).ToString("0.00", s_plain)} a month.");
        read.Text.ShouldNotContain("it has cost less");
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

        foreach (var heading in new[] { "Shopping list", "keeping the lawn, over ten years", "What more or less money buys" })
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
        text.ShouldContain("what it costs cannot be said, since the group has entered no prices");
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
        customary.ShouldContain("A heavy rain, 3 in");
        foreach (var metric in new[] { " m³", " m²", " mm", " cm", " km", "°C", " litres", " g" + "0", "0.0 oz", " kg" })
        {
            customary.ShouldNotContain(metric);
        }

        text.ShouldNotContain("0.0 g");
    }

    [Theory]
    [InlineData(0.02, false, "0.02 g")]
    [InlineData(0.001, false, "under 0.01 g")]
    [InlineData(3.26, false, "3.3 g")]
    [InlineData(1234, false, "1.2 kg")]
    // 1 oz is 28.349523125 g and 1 lb 16 oz (NIST Handbook 44, appendix C).
    [InlineData(0.9, true, "0.03 oz")]
    [InlineData(28.349523125, true, "1.0 oz")]
    [InlineData(453.59237, true, "1.0 lb")]
    [InlineData(0.05, true, "under 0.01 oz")]
    public void A_weight_of_seed_is_never_a_nought(double grams, bool customary, string words) =>
        SeedWords.Weight(grams, customary).Replace('\u00A0', ' ').ShouldBe(words);

    [Theory]
    [InlineData("from memory; held against Gray 1890: keep", "from memory, checked against Gray 1890")]
    [InlineData("from memory; common practice; within 2x: Kew SID, Iowa strips study; confidence high",
        "from memory, common practice, within a factor of two of Kew SID, Iowa strips study")]
    [InlineData("Robertson 1929 (name probable), 12 visitor taxa", "Robertson 1929")]
    public void Working_notes_of_a_source_stay_behind(string source, string printed) =>
        CautionsAndSources.Plain(source).ShouldBe(printed);

    [Fact]
    public void Without_weather_the_reason_stands_where_the_water_would()
    {
        var text = ConversionReportPagesTests.Read(SamplePlans.Three()).Text;
        text.ShouldContain("Watering: not worked out");
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
            var page = pages.SkipWhile(p => !p.Contains("and what each brings", StringComparison.Ordinal))
                .First(p => p.Contains($"{number} {t.DisplayName} ", StringComparison.Ordinal));
            var at = page.IndexOf($"{number} {t.DisplayName} ", StringComparison.Ordinal);
            var row = page.Substring(at, Math.Min(260, page.Length - at));
            var height = t.HeightMinMetres == t.HeightMaxMetres ? $"{t.HeightMaxMetres!.Value.ToString("0.0#", s_plain)}" : "–";
            row.ShouldContain(height, Case.Sensitive, t.ScientificName);
            row.ShouldContain(t.Bloom is { } window ? HalfMonthWords.RunShort(window.Start, window.End) : "grass", Case.Sensitive,
                t.ScientificName);
            row.ShouldContain(t.Toxicity.Length > 0 ? t.Toxicity.Split(' ')[0] : t.Caution.Length > 0 ? "see “Plants" : "none found",
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

    private static string Weight(double grams, bool feet)
    {
        var value = feet ? grams / 28.349523125 : grams;
        return value < 0.005 ? "under 0.01" : value.ToString(value < 0.995 ? "0.00" : value < 9.95 ? "0.0" : "#,0", s_plain);
    }

    private static string Density(double seeds) => seeds.ToString(seeds < 0.095 ? "0.00" : seeds < 9.95 ? "0.0" : "0", s_plain);
}
