using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.GapFilling;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.Tests.YardReports;

/// <summary>Invented yards on the real catalogue.</summary>
public static class SampleYards
{
    public static readonly DateOnly AsOf = new(2026, 8, 19);

    private static readonly Lazy<IReadOnlyList<CatalogueTaxon>> s_catalogue = new(() =>
    {
        const string Name = "plants.csv";
        var file = CatalogueFile.Read(Name, File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "seed-data", Name)));
        file.Errors.ShouldBeEmpty();
        // Sample yards were laid out with the plants of northern Illinois.
        return [.. file.Taxa.Where(t => !t.IsAddedForOtherStates)];
    });

    public static IReadOnlyList<CatalogueTaxon> Catalogue => s_catalogue.Value;

    public static CatalogueTaxon Taxon(string name) => Catalogue.Single(t => t.ScientificName == name);

    /// <summary>A settled yard: three beds, some doubt, one weed, four seasons.</summary>
    public static YardReport Settled(Units units = Units.Metric)
    {
        ReportBed[] beds =
        [
            Bed("front bed", 14.2, "Claytonia virginica 0.6", "Geum triflorum 0.9", "Aquilegia canadensis 1.2", "Penstemon digitalis 2.1",
                "Echinacea pallida 2.4", "Asclepias tuberosa 1.8", "Coreopsis palmata 0.8", "Schizachyrium scoparium 3.2",
                    "Bouteloua curtipendula 1.1"),
            Bed("south strip", 9.6, "Zizia aurea 1.4", "Baptisia alba 0.9", "Monarda fistulosa 3.4", "Ratibida pinnata 1.6",
                "Pycnanthemum virginianum 1.2", "Liatris aspera 0.7", "Solidago nemoralis 1.1", "Symphyotrichum laeve 0.9",
                    "Carex bicknellii 0.4"),
            Bed("rain garden", null, "Asclepias incarnata 1.5", "Eutrochium maculatum 2.2", "Lobelia siphilitica 0.5",
                "Helenium autumnale 0.8", "Physostegia virginiana 0.6", "Carex vulpinoidea 1.3", "Symphyotrichum novae-angliae 1.9"),
        ];
        beds[1] = beds[1] with
        {
            Plantings = [.. beds[1].Plantings.Select((p, i) => i switch
            {
                6 => p with { Certainty = Certainty.Probable, Origin = Origin.SelfSown },
                7 => p with { Certainty = Certainty.Tentative, Qualifier = "cf.", Origin = Origin.SelfSown },
                8 => p with { CoverDerived = true },
                _ => p,
            })],
        };
        return Of("LA-07", beds, units) with
        {
            Infestations = [new(Taxon("Alliaria petiolata"), 2.5, 40, new DateOnly(2026, 5, 3)),
                new(Taxon("Rhamnus cathartica"), 1.2, 25, AsOf)],
            History = [.. Enumerable.Range(0, 4).Select(i => Season(i == 3 ? AsOf : new DateOnly(2023 + i, 10, 31),
                [.. beds.Select(b => b with { Plantings = [.. b.Plantings.Take(3 + (2 * i))] })]))],
        };
    }

    /// <summary>Nothing but lawn.</summary>
    public static YardReport Lawn() => Of("KI-12", [], Units.Metric) with
    {
        LawnSquareMetres = 340,
        Light = Light.FullSun,
        Moisture = Moisture.Medium,
        SoilGroup = null
    };

    /// <summary>A first handful of plants.</summary>
    public static YardReport ThreeSpecies() =>
        Of("CO-03", [Bed("corner", 2.5, "Rudbeckia hirta 0.8", "Monarda fistulosa 0.6", "Symphyotrichum novae-angliae 0.5")], Units.Metric);

    /// <summary>As many native taxa as asked for, spread over five beds.</summary>
    public static YardReport Crowded(int taxa, Units units = Units.Metric)
    {
        var chosen = Catalogue.Where(t => t.Nativity == Nativity.Native && t.LifeForm is not LifeForm.Tree
            && t.ImpactRank == ImpactRank.Unranked).Where((_, i) => i % 4 == 1).Take(taxa).ToList();
        chosen.Count.ShouldBe(taxa);
        var beds = chosen.Select((t, i) => (Taxon: t, At: i)).GroupBy(t => t.At % 5)
            .Select(g => new ReportBed($"bed {g.Key + 1}", 12 + g.Key,
            [.. g.Select(t => new ReportPlanting(t.Taxon, 0.3 + (t.At * 37 % 50 / 10.0), (Certainty)(t.At % 7 == 0 ? 2 : 0),
                (Origin)(t.At % 4)))]));
        return Of("TO-21", [.. beds], units);
    }

    private static YardReport Of(string code, IReadOnlyList<ReportBed> beds, Units units)
    {
        var measures = Measures(beds, 1);
        var present = beds.SelectMany(b => b.Plantings).Select(p => p.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);
        var street = Measures([.. beds, Bed("others", 20, "Rudbeckia hirta 4", "Monarda fistulosa 9", "Ratibida pinnata 5",
            "Eryngium yuccifolium 2", "Symphyotrichum novae-angliae 3", "Solidago rigida 2")], 12);
        return new YardReport
        {
            Neighbourhood = "Quarry Bend",
            Demo = true,
            YardCode = code,
            Block = "Mill to Weir",
            AsOf = AsOf,
            Units = units,
            YardSquareMetres = 640,
            LawnSquareMetres = 190,
            Light = Light.FullSun,
            Moisture = Moisture.Medium,
            SoilGroup = SoilGroup.C,
            Beds = beds,
            Measures = measures,
            Street = new ReportStreet("Lantern Row", 3, street),
            Suggestions = GapSuggestions.For(Catalogue, present, [.. measures.Bloom.HalfMonths.Select(h => h.N)],
                Ecology.Phenology.Season.Default, new GrowingSite(Light.FullSun, Moisture.Medium, 1.5),
                    new Dictionary<string, int>(StringComparer.Ordinal), 6),
        };
    }

    private static ReportBed Bed(string name, double? area, params string[] plants) => new(name, area,
        [.. plants.Select(p => p.Split(' ')).Select(w => new ReportPlanting(Taxon($"{w[0]} {w[1]}"),
            double.Parse(w[2], System.Globalization.CultureInfo.InvariantCulture), Certainty.Certain, Origin.Planted))]);

    private static ReportSeason Season(DateOnly day, IReadOnlyList<ReportBed> beds) =>
        new(day, Measures(beds, 1), beds.SelectMany(b => b.Plantings).Sum(p => p.CoverSquareMetres));

    private static SiteMeasures Measures(IReadOnlyList<ReportBed> beds, int yards)
    {
        var groups = beds.SelectMany(b => b.Plantings).GroupBy(p => p.Taxon.ScientificName).ToList();
        var taxa = groups.Select(g => g.First().Taxon).ToList();
        var community = new SiteCommunity(yards,
            [.. groups.Select((g, i) => new SiteTaxon(i, g.Sum(p => p.CoverSquareMetres),
                g.Where(p => p.Certainty != Certainty.Tentative).Sum(p => p.CoverSquareMetres), 1))]);
        return SiteMeasures.Of(community, taxa, Ecology.Phenology.Season.Default, 1.34);
    }
}
