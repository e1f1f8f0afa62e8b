using System.Globalization;
using System.Text;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>docs/plans-by-region.md shows one yard in eight places side by side, for people to judge; it is written from the
/// code.</summary>
public class PlansByRegionTests
{
    private const string Write = "COMMONGROUND_WRITE_MIXES";

    private static readonly (string Name, Locality Place)[] Places =
    [
        ("Quarry Bend, northern Illinois", new("IL", 41.87, -88.56, 240)),
        ("Springfield, Missouri", new("MO", 37.21, -93.29, 396)),
        ("Salina, Kansas", new("KS", 38.84, -97.61, 373)),
        ("Lincoln, Nebraska", new("NE", 40.81, -96.7, 358)),
        ("Des Moines, Iowa", new("IA", 41.59, -93.62, 290)),
        ("Minneapolis, Minnesota", new("MN", 44.98, -93.27, 256)),
        ("Columbus, Ohio", new("OH", 39.96, -83, 239)),
        ("Kalamazoo, Michigan", new("MI", 42.29, -85.59, 239)),
    ];

    private static readonly Lazy<(string Name, RegionalCatalogue Region, ConversionMix Mix)[]> Plans =
        new(() => [.. Places.Select(p => Plan(p.Name, p.Place))]);

    [Fact]
    public void The_page_of_eight_places_says_what_the_planner_says_today()
    {
        var path = Path.Combine(Repository.Root(), "docs", "plans-by-region.md");
        var page = Page();
        if (Environment.GetEnvironmentVariable(Write) == "1") File.WriteAllText(path, page);
        File.ReadAllText(path).ReplaceLineEndings("\n")
            .ShouldBe(page, $"docs/plans-by-region.md is stale. Write it anew: {Write}=1 dotnet test tests/CommonGround.Planning.Tests "
            + $"--filter PlansByRegionTests");
    }

    [Fact]
    public void No_plan_holds_a_plant_that_is_not_native_there_or_that_the_law_lists()
    {
        foreach (var (name, region, mix) in Plans.Value)
        {
            mix.Taxa.ShouldNotBeEmpty(name);
            foreach (var taxon in mix.Taxa.Select(t => t.Taxon))
            {
                taxon.Nativity.ShouldBe(Nativity.Native, $"{name}: {taxon.ScientificName}");
                taxon.Regional!.IsListedByLaw.ShouldBeFalse($"{name}: {taxon.ScientificName}");
                taxon.Regional.Table.ShouldBeOneOf([region.Tables!.First, .. region.Tables.Second]);
            }
        }
    }

    private static (string, RegionalCatalogue, ConversionMix) Plan(string name, Locality place)
    {
        var law = RegulatedPlantsFile.Read("regulated-plants.csv", Seed("regulated-plants.csv"));
        var region = new RegionalCatalogue(place, RegionalValuesFile.Read("values.csv", Seed("regions", "values.csv")),
            RegionalValuesFile.ReadBloomPlaces("bloom-places.csv", Seed("regions", "bloom-places.csv")),
            taxon => WeedLaw.Ask(law, place.State, taxon) == LawAnswer.Listed);
        IReadOnlyList<CatalogueTaxon> catalogue = [.. QuarryFlora.Catalogue.Select(region.Of)];
        var forage = new ForageIndex(VisitorFile.Read(Seed("visitors", "visitors.csv"), Seed("visitors", "plants.csv")).Records, catalogue);
        var around = QuarryFlora.Around with { Catalogue = catalogue, Forage = forage };
        return (name, region, ConversionPlanner.Solve(QuarryFlora.Request(60), around, QuarryFlora.Prices).Mix.ShouldNotBeNull(name));
    }

    private static string Page()
    {
        var text = new StringBuilder(
            "# One yard in eight places\n\nA sunny front yard of 60 m² on medium soil, planned at eight places with the same prices. "
                + "Written by a test from the planner, the\ncatalogue and the regional tables; nobody edits this page.\n\n");
        text.Append(CultureInfo.InvariantCulture, $"To write it anew: `{Write}=1 dotnet test tests/CommonGround.Planning.Tests --filter "
            + $"PlansByRegionTests`.\n\nPrices are invented. C is that of the table named; half-months are counted from 0 (early "
            + $"January).\n");
        foreach (var (name, region, mix) in Plans.Value)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## {name}\n\n{RegionalTables.NameOf(region.Tables!.First)}.\n"
                + $"{region.Tables.Why}\nSpring {region.Place.SpringDays:+0;−0;0} days against northern Illinois.\n");
            text.Append(CultureInfo.InvariantCulture, $"{mix.Taxa.Count} taxa, mean C "
                + $"{mix.Taxa.Where(t => t.Taxon.C is not null).Average(t => t.Taxon.C!.Value):0.0}, in flower "
                + $"{string.Join(' ', mix.InFlower.Skip(5).Take(15))} from the second half of March.\n\n");
            text.Append("| taxon | role | seeds/ft² | plugs | C | in flower |\n|---|---|---|---|---|---|\n");
            foreach (var t in mix.Taxa)
            {
                var bloom = t.Taxon.Bloom is { } b && !t.Traits.IsGrass ? $"{b.Start}–{b.End}" : "";
                var c = t.Taxon.C is { } value
                    ? $"{value}{(t.Taxon.Regional!.IsBorrowed ? $", borrowed from {RegionalTables.NameOf(t.Taxon.CRegion)}" : "")}" : "";
                text.Append(CultureInfo.InvariantCulture, $"| *{t.Taxon.ScientificName}*, {t.Taxon.DisplayName} | "
                    + $"{RoleWords.Short(t.Traits.Role)} | ");
                text.Append(CultureInfo.InvariantCulture, $"{(t.SeedsPerSquareMetre > 0 ? SeedRate.PerSquareFoot(t.SeedsPerSquareMetre).ToString("0.00", CultureInfo.InvariantCulture) : "")} | {(t.Plugs > 0 ? t.Plugs : "")} | {c} | {bloom} |\n");
            }
        }

        return text.ToString();
    }

    private static byte[] Seed(params string[] path) => File.ReadAllBytes(Path.Combine([Repository.Root(), "seed-data", .. path]));
}
