using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.Water;
using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tests.ConversionReports;

/// <summary>Invented plans on the real catalogue.</summary>
public static class SamplePlans
{
    private static readonly string[] s_ordinary =
    [
        "Claytonia virginica", "Zizia aurea", "Geum triflorum", "Aquilegia canadensis", "Penstemon digitalis", "Echinacea pallida",
            "Coreopsis palmata", "Asclepias tuberosa", "Rudbeckia hirta",
        "Allium cernuum", "Pycnanthemum virginianum", "Solidago nemoralis", "Liatris aspera", "Symphyotrichum laeve",
            "Symphyotrichum ericoides", "Monarda fistulosa", "Ratibida pinnata",
        "Schizachyrium scoparium", "Bouteloua curtipendula", "Sporobolus heterolepis",
    ];

    /// <summary>Twenty taxa, one area with an outline and one without, half seed and half plugs.</summary>
    public static ConversionReport Ordinary(Units units = Units.Metric) => Of(s_ordinary, units,
        [new ConversionArea("west of the path", 82, [new(1, 0.5), new(11, 0.5), new(11.5, 6), new(8, 8.4), new(4, 8.6), new(1, 7.2)]),
            new ConversionArea("by the drive", 38, [new(14, 0.5), new(19, 0.5), new(19.4, 8.2), new(14, 8)])])
        with
    {
        YardOutline = [new(0, 0), new(30, 0), new(30, 21), new(0, 21)],
        YardSquareMetres = 630,
        WalkHeightMetres = 0.6,
        Visitors = [new("bumblebees", 6, ["wild bergamot", "prairie clover"]), new("mining bees", 21, ["golden Alexanders"]),
            new("monarch", 1, ["butterfly weed"])],
    };

    /// <summary>Ordinary, with everything that a group may add: photo, ordinance, growers.</summary>
    public static ConversionReport Local() => Ordinary() with
    {
        // As large as the site draws them.
        Scenes = [.. new[] { "late May", "early July", "early September", "January" }.Select(s => new Drawings.Pens.Picture(620, 292, s,
            $"The bed in {s}.", [new Drawings.Pens.Label("head", 30, 24, s + ", third year")],
            new Dictionary<string, IReadOnlyList<Drawings.Strokes.Stroke>>(StringComparer.Ordinal)))],
        Photo = new ReportPhoto(SamplePhoto.Jpeg, new DateOnly(2026, 6, 14), "The front lawn."),
        Local = new LocalNotes
        {
            Ordinance = "Grass over eight inches is cut; planted beds are no grass.",
            OrdinanceSource = "Code of Quarry Bend, 9-4, read on May 3, 2026",
            WhereToGetPlants = "Spring sale at the mill, second Saturday of May\nSeed box in the library",
        },
    };

    /// <summary>Three taxa on a corner whose shape nobody drew; the lawn stays cheaper; no weather.</summary>
    public static ConversionReport Three(Units units = Units.Metric)
    {
        var report = Of(["Rudbeckia hirta", "Monarda fistulosa", "Symphyotrichum novae-angliae"], units,
            [new ConversionArea("corner", 12, [])]);
        return report with
        {
            YardSquareMetres = 400,
            PlanAddress = "",
            WaterProblems = ["The weather has temperatures for 41 days of its last year; a year’s water needs at least 330."],
            Plan = report.Plan with { Water = null, TradeOffs = [], Money = Money(report.Plan.Mix.Cost, 12, dear: true) },
        };
    }

    /// <summary>As many native taxa as asked for, from the front of the catalogue, in two areas with different lists.</summary>
    public static ConversionReport Crowded(int taxa, Units units = Units.Metric)
    {
        var names = SampleYards.Catalogue.Where(t => t.Nativity == Nativity.Native && t.Bloom is not null && t.LifeForm == LifeForm.Forb)
            .Take(taxa - 6)
            .Concat(SampleYards.Catalogue.Where(t => t.Nativity == Nativity.Native && t.LifeForm is LifeForm.Grass or LifeForm.Sedge)
            .Take(6)).Select(t => t.ScientificName).ToArray();
        var report = Of(names, units, [new ConversionArea("front", 240, []), new ConversionArea("back, along the fence", 160, [])]);
        var mix = report.Plan.Mix;
        return report with
        {
            YardSquareMetres = 900,
            Plan = report.Plan with
            {
                Mix = mix with
                {
                    Areas = [mix.Areas[0] with { Taxa = [.. mix.Taxa.Take(taxa / 2)] },
                mix.Areas[1] with { Taxa = [.. mix.Taxa.Skip(taxa / 2)] }]
                }
            },
        };
    }

    /// <summary>Ordinary, without prices.</summary>
    public static ConversionReport Priceless() => Ordinary() with { NoPrices = true };

    private static ConversionReport Of(string[] names, Units units, IReadOnlyList<ConversionArea> areas)
    {
        var request = new ConversionRequest
        {
            Areas = areas,
            Light = Light.FullSun,
            Moisture = Moisture.Medium,
            SoilGroup = SoilGroup.C,
            PresentCover = PresentCover.ThinTurf,
            TallestMetres = names.Length == 20 ? 1.5 : null,
            Look = names.Length == 20 ? Look.EdgeFriendly : Look.Naturalistic,
        };
        var ground = request.SquareMetres;
        var planned = names.Select((n, i) => Planned(SampleYards.Taxon(n), i, names.Length, ground)).ToList();
        int[] inFlower = [.. Enumerable.Range(0, 24).Select(t => planned.Count(p => p.Taxon.Bloom?.Contains(t) == true))];
        var covered = Enumerable.Range(6, 14).Count(t => inFlower[t] >= 3);
        var late = Enumerable.Range(15, 5).Count(t => inFlower[t] >= 3);
        var quality = new MixQuality(covered, 14, 9.4, 0.83, 0.83, 0, names.Length <= 20);
        var mix = new ConversionMix(planned,
            [.. areas.Select(a => new AreaPlanting(a, [.. planned.Select(p => Scaled(p, a.SquareMetres / ground))]))], inFlower,
                planned.Sum(p => p.Cost),
            names.Length <= 20 ? quality : quality with { Bound = 0.85, Gap = 0.024 },
                ["the share of one taxon, at most 20 %", "the number of taxa"]);
        var weather = Weather();
        return new ConversionReport
        {
            Neighbourhood = "Quarry Bend",
            Demo = true,
            YardCode = "KI-12",
            Street = "Kiln Street",
            AsOf = SampleYards.AsOf,
            Units = units,
            PlanAddress = "https://quarrybend.example/yards/KI-12/plan/3",
            Plan = new ConversionPlan
            {
                Request = request,
                Mix = mix,
                TradeOffs = [.. new[] { 0.45, 0.7, 1, 1.3, 1.7 }.Select((f, i) => new TradeOff(mix.Cost * f,
                    Math.Max(0, covered - 4 + (2 * i)), 5 + i, 6 + (4 * i), mix))],
                Water = WaterComparisons.Of(request, 41.5, weather).Comparison,
                Runoff = RunoffComparisons.Of(request, weather),
                Money = Money(mix.Cost, ground, dear: false),
                Work = new WorkComparison(
                    [Months(0.12, 3, 4, 9, ground), Months(0.08, 3, 4, 9, ground), Months(0.05, 2, 4, 9, ground),
                        Months(0.035, 2, 4, 7, ground)],
                    Months(0.09, 0, 3, 10, ground), new Spread(0.05 * ground, 0.09 * ground, 0.15 * ground),
                        new Spread(0.04 * ground, 0.07 * ground, 0.12 * ground)),
                Yard = new BloomChange("yard KI-12", new int[24], inFlower, 0, covered, 0, late),
                Street = names.Length == 20 ? new BloomChange("Kiln Street", [.. inFlower.Select(n => Math.Min(n, 4))],
                    [.. inFlower.Select(n => n + 2)], 9, 14, 3, 5) : null,
                Calendar = Calendar(),
            },
        };
    }

    private static PlannedTaxon Planned(CatalogueTaxon taxon, int i, int count, double ground)
    {
        var large = (count + 2) / 3;
        var share = (i % 3 == 0 ? 1.4 : 0.8) / ((large * 1.4) + ((count - large) * 0.8));
        var seed = taxon.SeedsPerGram is not null && i % 3 != 0;
        var seeds = seed ? 538 * share : 0;
        var pls = seed ? seeds * ground / taxon.SeedsPerGram!.Value : 0;
        var plugs = seed ? 0 : (int)Math.Ceiling(share * ground / (0.866 * 0.09));
        var reasons = new[] { "flowers when the street has nothing", "holds the soil between the others", "long in flower",
            "grows on no other yard of the street" };
        return new PlannedTaxon(taxon, seed ? PlantedAs.Seed : PlantedAs.Plug, share, share * ground, seeds, pls, pls / 0.76, plugs, seed
            ? Math.Round(pls * 0.9, 2) : plugs * 2.8, i % 4 == 1, [reasons[i % 4], reasons[(i + 2) % 4]]);
    }

    private static PlannedTaxon Scaled(PlannedTaxon taxon, double part) => taxon with
    {
        SquareMetres = taxon.SquareMetres * part,
        PlsGrams = taxon.PlsGrams * part,
        BulkGrams = taxon.BulkGrams * part,
        Plugs = (int)Math.Ceiling(taxon.Plugs * part),
        Cost = taxon.Cost * part,
    };

    private static MoneyComparison Money(double mix, double ground, bool dear)
    {
        var start = new Spread(mix + (0.4 * ground), mix + (1.2 * ground), (1.15 * mix) + (3.5 * ground));
        Spread Sum(Spread first, Spread yearly, int year) => new(first.Low + (yearly.Low * ground * Factor(year)),
            first.Mid + (yearly.Mid * ground * Factor(year)), first.High + (yearly.High * ground * Factor(year)));
        IReadOnlyList<Spread> planting = [.. Enumerable.Range(0, 11).Select(y => Sum(start, new Spread(0.08, 0.2, 0.5), y))];
        var yearlyLawn = dear ? new Spread(0.15, 0.5, 1.4) : new Spread(mix * 0.08 / ground, mix * 0.2 / ground, mix * 0.4 / ground);
        IReadOnlyList<Spread> lawn = [.. Enumerable.Range(0, 11).Select(y => Sum(default, yearlyLawn, y))];
        int? First(Func<int, bool> holds) => Enumerable.Range(1, 10).Where(holds).Select(y => (int?)y).FirstOrDefault();
        return new MoneyComparison(start, planting, lawn, First(y => planting[y].Mid < lawn[y].Mid),
            First(y => planting[y].Low < lawn[y].High), First(y => planting[y].High < lawn[y].Low), true,
            ["3 % a year real discount", "Your own hours are counted as free", "Water at 2.20 a cubic metre"]);
    }

    private static double Factor(int years) => Enumerable.Range(1, years).Sum(y => Math.Pow(1.03, -y));

    private static double[] Months(double perSquareMetre, double extra, int from, int to, double ground) =>
        [.. Enumerable.Range(1, 12).Select(m => m >= from && m <= to ? perSquareMetre * ground / (to - from + 1) : m == 3 ? extra : 0)];

    private static IReadOnlyList<CalendarStep> Calendar() =>
    [
        new(1, 7, 9, "Call the locating service, then smother the turf with card and mulch or have it cut.",
            "A brown patch for some weeks.", "Call before you dig: lines can lie close under the surface."),
        new(1, 9, 10, "Plant the plugs in drifts, numbers as in the table; water them in.", "Small plants far apart.", ""),
        new(1, 11, 2, "Sow the seed mixed with damp sand on bare, firm soil; tread it in.", "Nothing to be seen before May.", ""),
        new(2, 5, 9, "Mow to 0.15 m whenever growth reaches 0.3 m; pull what seeds.",
            "The first summer looks like weeds: the roots are at work.",
                "If a herbicide is used, the label is the law; some uses need a licensed applicator."),
        new(2, 6, 8, "Water plugs in dry weeks.", "", ""),
        new(3, 3, 3, "Cut last year’s stems to 0.3 m and leave them lying.", "Bees nest in the stubble.",
            "Do not burn: it needs a permit and a trained crew."),
        new(3, 4, 10, "Weed three times; collect seed and fill thin spots.", "About all of it in flower.", ""),
    ];

    private static IReadOnlyList<DailyWeather> Weather() => [.. Enumerable.Range(0, 365).Select(i => new DailyWeather(
        new DateOnly(2025, 8, 20).AddDays(i), 4 - (13 * Math.Cos(2 * Math.PI * (i + 212) / 365)),
            15 - (14 * Math.Cos(2 * Math.PI * (i + 212) / 365)),
        i % 31 == 3 ? 36 : i % 7 == 0 ? 11 : 0))];
}
