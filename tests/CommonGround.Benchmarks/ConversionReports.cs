using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.Water;
using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Benchmarks;

/// <summary>A conversion report of twenty taxa: one, a hundred in a row and four at a time; and a page of the same tables printed by a
/// browser, for scale.</summary>
/// <remarks>The browser is the one named by the environment variable CHROMIUM, or chromium on the path; without it that row fails and the
/// others stand.</remarks>
public class ConversionReports
{
    private ConversionReport report = default!;
    private string folder = "";

    [GlobalSetup]
    public void Plan()
    {
        const string Name = "plants.csv";
        var catalogue = CatalogueFile.Read(Name, File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, Name))).Taxa;
        report = InventedPlan(catalogue, 20);
        folder = Directory.CreateTempSubdirectory("commonground-report-").FullName;
        File.WriteAllText(Path.Combine(folder, "report.html"), Html(report));
        Console.WriteLine($"// the report has {WriteOne():n0} bytes");
        var before = Process.GetCurrentProcess().WorkingSet64;
        var clock = Stopwatch.StartNew();
        WriteHundred();
        using var now = Process.GetCurrentProcess();
        Console.WriteLine($"// a first hundred: {clock.Elapsed.TotalSeconds:0.0} s, memory {before / 1e6:0} MB before, "
            + $"{now.WorkingSet64 / 1e6:0} MB after, {now.PeakWorkingSet64 / 1e6:0} MB at most");
    }

    [GlobalCleanup]
    public void Close() => Directory.Delete(folder, recursive: true);

    [Benchmark(Description = "Conversion report, PDF")]
    public long WriteOne()
    {
        using var pdf = new MemoryStream();
        ConversionReportDocument.Write(report, PaperSize.Letter, pdf);
        return pdf.Length;
    }

    [Benchmark(Description = "A hundred conversion reports, one after the other")]
    public long WriteHundred() => Enumerable.Range(0, 100).Sum(_ => WriteOne());

    [Benchmark(Description = "A hundred conversion reports, on all processors")]
    public long WriteHundredAtOnce() => Enumerable.Range(0, 100).AsParallel().Sum(_ => WriteOne());

    [Benchmark(Description = "The same tables without charts, printed by a browser")]
    public long PrintByBrowser()
    {
        var to = Path.Combine(folder, "report.pdf");
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("CHROMIUM") ?? "chromium")
        {
            UseShellExecute = false,
            RedirectStandardError = true,
            RedirectStandardOutput = true
        };
        foreach (var word in new[] { "--headless", "--no-sandbox", "--disable-gpu",
            "--no-pdf-header-footer", $"--user-data-dir={Path.Combine(folder, "profile")}", $"--print-to-pdf={to}",
                new Uri(Path.Combine(folder, "report.html")).AbsoluteUri })
        {
            start.ArgumentList.Add(word);
        }

        using var browser = Process.Start(start) ?? throw new InvalidOperationException("The browser did not start.");
        var errors = browser.StandardError.ReadToEndAsync();
        browser.StandardOutput.ReadToEnd();
        browser.WaitForExit();
        return File.Exists(to) ? new FileInfo(to).Length : throw new InvalidOperationException(errors.Result);
    }

    private static ConversionReport InventedPlan(IReadOnlyList<CatalogueTaxon> catalogue, int taxa)
    {
        var request = new ConversionRequest
        {
            Areas = [new ConversionArea("west of the path", 82, [new(1, 1), new(11, 1), new(11, 7), new(5, 9.2), new(1, 8)]),
                new ConversionArea("by the drive", 38, [])],
            Light = Light.FullSun,
            Moisture = Moisture.Medium,
            SoilGroup = SoilGroup.C,
            TallestMetres = 1.5,
        };
        var planned = catalogue.Where(t => t.Nativity == Nativity.Native
            && t is { LifeForm: LifeForm.Forb, Bloom: not null, SeedsPerGram: not null, HeightMaxMetres: <= 1.5 }).Take(taxa)
            .Select((t, i) => i % 2 == 0
                ? new PlannedTaxon(t, PlantedAs.Seed, 1.0 / taxa, 120.0 / taxa, 538.0 / taxa, 538.0 * 120 / taxa / t.SeedsPerGram!.Value,
                708.0 * 120 / taxa / t.SeedsPerGram.Value, 0, 6.5, i % 4 == 0, ["flowers when the street has nothing"])
                : new PlannedTaxon(t, PlantedAs.Plug, 1.0 / taxa, 120.0 / taxa, 0, 0, 0, 43, 120.4, false, ["long in flower"])).ToList();
        int[] inFlower = [.. Enumerable.Range(0, 24).Select(t => planned.Count(p => p.Taxon.Bloom?.Contains(t) == true))];
        var mix = new ConversionMix(planned, [.. request.Areas.Select(a => new AreaPlanting(a, planned))], inFlower,
            planned.Sum(p => p.Cost), new MixQuality(11, 14, 8, 0.8, 0.8, 0, true), ["the number of taxa"]);
        IReadOnlyList<DailyWeather> weather = [.. Enumerable.Range(0, 365)
            .Select(i => new DailyWeather(new DateOnly(2025, 1, 1).AddDays(i), 4 - (13 * Math.Cos(i / 58.1)),
            15 - (14 * Math.Cos(i / 58.1)), i % 9 == 0 ? 24 : 0))];
        Spread[] planting = [.. Enumerable.Range(0, 11).Select(y => new Spread(1300 + (10 * y), 1400 + (24 * y), 1700 + (60 * y)))];
        Spread[] lawn = [.. Enumerable.Range(0, 11).Select(y => new Spread(40 * y, 170 * y, 380 * y))];
        double[] hours = [0, 0, 2, 3, 3, 2, 2, 1, 1, 1, 0, 0];
        return new ConversionReport
        {
            Neighbourhood = "Quarry Bend",
            Demo = true,
            YardCode = "KI-12",
            Street = "Kiln Street",
            AsOf = new DateOnly(2026, 8, 19),
            YardSquareMetres = 630,
            PlanAddress = "https://quarrybend.example/yards/KI-12/plan",
            Plan = new ConversionPlan
            {
                Request = request,
                Mix = mix,
                TradeOffs = [.. Enumerable.Range(1, 6).Select(i => new TradeOff(i * 300, 2 + (2 * i), i, 6 + i, mix))],
                Water = WaterComparisons.Of(request, 41.5, weather).Comparison,
                Runoff = RunoffComparisons.Of(request, weather),
                Money = new MoneyComparison(planting[0], planting, lawn, 10, 4, null, true, ["3 % a year"]),
                Work = new WorkComparison([hours, hours, hours, hours], hours, new Spread(6, 11, 18), new Spread(5, 9, 14)),
                Yard = new BloomChange("yard KI-12", new int[24], inFlower, 0, 11, 0, 4),
                Calendar = [.. Enumerable.Range(0, 8).Select(i => new CalendarStep(1 + (i / 3), 3 + i, 4 + i,
                    "Weed, and mow to 0.15 m whenever growth reaches 0.3 m.", "The first summer looks like weeds.", i % 3 == 0
                        ? "Call before you dig." : ""))],
            },
        };
    }

    private static string Html(ConversionReport report)
    {
        var html = new StringBuilder(
            "<!doctype html><html lang=en><meta charset=utf-8><title>Plan</title><style>body{font:9pt sans-serif}td,th{border-bottom:1px "
                + "solid #999;text-align:left}</style><h1>120 m² of lawn</h1>");
        void Table(IEnumerable<string> rows) => html.Append("<table>").AppendJoin("", rows.Select(r => $"<tr>{r}</tr>")).Append("</table>");
        string Cells(params object[] cells) =>
            string.Concat(cells.Select(c => $"<td>{WebUtility.HtmlEncode(Convert.ToString(c, CultureInfo.InvariantCulture))}</td>"));
        Table(report.Plan.Mix.Taxa.Select(t => Cells(t.Taxon.DisplayName, t.Taxon.ScientificName, t.Taxon.HeightMaxMetres ?? 0,
            string.Join(", ", t.Taxon.PollinatorGroups), t.Reasons[0], t.Taxon.Toxicity)));
        Table(report.Plan.Mix.Taxa.Select(t => Cells(t.Taxon.DisplayName, t.As, t.Share, t.SeedsPerSquareMetre, t.PlsGrams, t.BulkGrams,
            t.Plugs, t.Cost)));
        Table(report.Plan.Money.PlantingByYear.Zip(report.Plan.Money.LawnByYear).Select(y => Cells(y.First.Mid, y.Second.Mid)));
        Table(report.Plan.Calendar.Select(s => Cells(s.Year, s.FromMonth, s.Do, s.Expect, s.Caution)));
        Table(report.Plan.Mix.Taxa.Select(t => Cells(t.Taxon.DisplayName, t.Taxon.Caution)));
        return html.ToString();
    }
}
