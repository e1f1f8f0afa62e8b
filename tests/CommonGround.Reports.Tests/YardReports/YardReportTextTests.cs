using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tests.YardReports;

public sealed class YardReportTextTests
{
    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void Every_planting_is_printed_with_both_names_and_its_cover(PaperSize paper)
    {
        var report = SampleYards.Settled();
        var text = ReadBack.Of(report, paper).Text;
        foreach (var planting in report.Beds.SelectMany(b => b.Plantings))
        {
            var latin = planting.Qualifier.Length == 0 ? planting.Taxon.ScientificName
                : planting.Taxon.ScientificName.Replace(" ", $" {planting.Qualifier} ", StringComparison.Ordinal);
            text.ShouldContain($"{planting.Taxon.DisplayName} "
                + $"{latin}{planting.CoverSquareMetres.ToString("0.0", CultureInfo.InvariantCulture)}");
        }
    }

    [Fact]
    public void The_headline_figures_are_those_of_the_record()
    {
        var report = SampleYards.Settled();
        var first = ReadBack.Of(report).Pages[0];
        var bloom = report.Measures.Bloom;
        var season = Enumerable.Range(6, 14).Count(t => bloom.HalfMonths[t].N >= 3);
        var late = Enumerable.Range(15, 5).Count(t => bloom.HalfMonths[t].N >= 3);
        // August 19 lies in the half-month of August 16–31, index 15.
        var now = bloom.HalfMonths[15];
        first.ShouldContain($"Native species {report.Measures.NativeRichness} of {report.Measures.Richness} kinds; "
            + $"{report.Measures.IntroducedRichness} introduced");
        first.ShouldContain($"Season covered {season} of 14 half-months, Apr–Oct");
        first.ShouldContain($"Late season covered {late} of 5 half-months from August 16");
        first.ShouldContain($"In flower now {now.AreaSquareMetres.ToString("0.0", CultureInfo.InvariantCulture)} m² {now.N} native "
            + $"species, Aug 16–31");
        first.ShouldContain("as of August 19, 2026");
    }

    [Fact]
    public void The_headline_is_the_answer()
    {
        var report = SampleYards.Settled();
        var covered = Enumerable.Range(6, 14).Where(t => report.Measures.Bloom.HalfMonths[t].N >= 3).ToList();
        ReadBack.Of(report).Pages[0]
            .ShouldContain($"Your yard flowers from {HalfMonthWords.FirstDay(covered[0])} to {HalfMonthWords.LastDay(covered[^1])}");
        ReadBack.Of(SampleYards.Lawn()).Pages[0].ShouldContain("Nothing native flowers here yet: 340 m² of lawn could change that");
        ReadBack.Of(SampleYards.Lawn() with { LawnSquareMetres = null }).Pages[0].ShouldContain("Nothing native flowers here yet");
    }

    [Fact]
    public void A_gap_inside_the_season_is_named_in_the_headline()
    {
        var report = SampleYards.Settled();
        var halves = report.Measures.Bloom.HalfMonths.Select((h, t) => t is 11 ? h with { N = 1 } : t is 6 or 19 ? h with { N = 4 } : h)
            .ToArray();
        var bloom = report.Measures.Bloom with { HalfMonths = halves, Gaps = [new BloomGap(11, 11)] };
        new Answer(report with { Measures = report.Measures with { Bloom = bloom } }).Headline().Replace('\u00A0', ' ')
            .ShouldBe("Your yard flowers from April 1 to October 31, but for June 16–30");
    }

    [Fact]
    public void Tentative_plants_are_marked_and_the_figure_without_them_is_printed()
    {
        var report = SampleYards.Crowded(20);
        var text = ReadBack.Of(report).Text;
        var with = Enumerable.Range(6, 14).Count(t => report.Measures.Bloom.HalfMonths[t].N >= 3);
        var without = Enumerable.Range(6, 14).Count(t => report.Measures.BloomWithoutTentative.HalfMonths[t].N >= 3);
        without.ShouldBeLessThan(with);
        text.ShouldContain($"in {with} of the season’s 14 half-months, or {without} if the plants marked tentative are something else.");
        text.ShouldContain("tentative");
    }

    [Fact]
    public void Undefined_values_print_as_a_dash_with_the_reason()
    {
        var text = ReadBack.Of(SampleYards.Lawn()).Text;
        text.ShouldContain("In flower now – no native, Aug 16–31");
        text.ShouldNotContain("NaN");
        text.ShouldContain("soil group not noted");
    }

    [Fact]
    public void Us_customary_units_use_the_international_foot()
    {
        // One foot is 0.3048 m exactly (international yard and pound agreement of 1959; NIST SP 811, appendix B): 190 m² = 2,045.14 ft².
        var text = ReadBack.Of(SampleYards.Settled(Units.UsCustomary)).Text;
        text.ShouldContain("lawn 2,045 ft²");
        text.ShouldContain("Cover, ft²");
        // Pressure is a measure in m²-equivalents whatever the units, on paper as on the page.
        text.Replace("m²-equivalents", "", StringComparison.Ordinal).ShouldNotContain("m²");
    }

    [Fact]
    public void Unwanted_plants_carry_their_area_date_and_usual_control()
    {
        var text = ReadBack.Of(SampleYards.Settled()).Text;
        text.ShouldContain("garlic mustard Alliaria petiolata");
        text.ShouldContain("May 3, 2026");
        text.ShouldContain(HalfMonthWords.RunShort(SampleYards.Taxon("Alliaria petiolata").ControlStart!.Value,
            SampleYards.Taxon("Alliaria petiolata").ControlEnd!.Value));
    }

    [Fact]
    public void Every_caution_of_a_plant_named_in_the_report_is_printed_whole()
    {
        var report = SampleYards.Settled();
        var text = ReadBack.Of(report).Text;
        var named = report.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon).Concat(report.Suggestions.Select(s => s.Taxon))
            .Concat(report.Infestations.Select(i => i.Taxon));
        var cautions = named.Select(t => t.Caution).Where(c => c.Length > 0).ToList();
        cautions.Count.ShouldBeGreaterThan(5);
        cautions.ShouldAllBe(c => text.Contains(c, StringComparison.Ordinal));
    }

    [Fact]
    public void Law_and_danger_are_on_every_report()
    {
        foreach (var report in new[] { SampleYards.Lawn(), SampleYards.Settled() })
        {
            var text = ReadBack.Of(report).Text;
            foreach (var words in new[] { "Nothing here says a plant is safe to eat", "call 811", "The label is the law",
                "licensed applicator", "Burning needs a permit", "limit plant height", "State and county law" })
            {
                text.ShouldContain(words);
            }
        }
    }

    [Fact]
    public void Every_page_says_what_it_is_and_that_demo_data_are_invented()
    {
        var pages = ReadBack.Of(SampleYards.Settled()).Pages;
        for (var i = 0; i < pages.Count; i++)
        {
            pages[i].ShouldContain("Yard report · yard LA-07 · August 19, 2026");
            pages[i].ShouldContain("Invented demo data");
            pages[i].ShouldContain($"page {i + 1} of {pages.Count}");
        }

        ReadBack.Of(SampleYards.Settled() with { Demo = false }).Text.ShouldNotContain("Invented demo data");
    }

    [Fact]
    public void A_street_of_fewer_than_three_yards_gives_no_figures_away()
    {
        var report = SampleYards.Settled();
        var small = report with { Street = report.Street with { Measures = report.Street.Measures with { Yards = 2 } } };
        var text = ReadBack.Of(small).Text;
        text.ShouldContain("fewer than three yards");
        text.ShouldNotContain($"{report.Street.Measures.NativeRichness} native species");
        text.ShouldContain("What this yard lacks");
    }

    [Fact]
    public void Seasons_are_printed_oldest_first_with_their_figures()
    {
        var report = SampleYards.Settled();
        var text = ReadBack.Of(report).Text;
        foreach (var season in report.History)
        {
            text.ShouldContain($"{season.AsOf.ToString("MMMM d, yyyy", CultureInfo.InvariantCulture)}{season.Measures.NativeRichness}");
        }

        text.IndexOf("October 31, 2023", StringComparison.Ordinal)
            .ShouldBeLessThan(text.IndexOf("October 31, 2024", StringComparison.Ordinal));
    }

    [Fact]
    public void Who_finds_food_is_told_with_where_it_was_written_down_and_what_would_feed_more()
    {
        var report = SampleYards.ThreeSpecies();
        var taxa = report.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon).ToList();
        var records = new VisitorRecords(
            [new("Bombus unus", "", "bees", "Apidae"), new("Andrena altera", "", "bees", "Andrenidae"),
                new("Papilio tertius", "", "butterflies", "")],
            [new(taxa[0].ScientificName, taxa[0].ScientificName, "", [0]), new(taxa[1].ScientificName, taxa[1].ScientificName, "", [0, 2]),
                new("Zizia aurea", "Zizia aurea", "", [1])]);
        var fed = new ForageIndex(records, SampleYards.Catalogue).Fed(taxa.Select(t => t.ScientificName), ["Zizia aurea"], 5);
        var text = ReadBack.Of(report with { Visitors = fed }).Text;
        text.ShouldContain("Who finds food here: one kind of bee");
        text.ShouldContain(
            "By the record the 3 native flowers here feed 1 kind of bees, 1 of them from two plants or more, and 2 kinds of visitors "
                + "in all.");
        text.ShouldContain("1 kind of bees more, 1 of all visitors");
        text.ShouldContain("Carlinville, Illinois, 1884–1916");
        text.ShouldContain("Of 1 of the plants no visitors are written down");
        ReadBack.Of(report).Text.ShouldNotContain("Who finds food here");
    }
}
