using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Seeding;

/// <summary>Sources stand beside each check in shared/checks/05_seeding.json.</summary>
public class PublishedSeedingTests
{
    private const double SquareMetresPerAcre = 4046.8564224;
    private const double GramsPerPound = 453.59237;
    private const double GramsPerOunce = 28.349523125;

    [Fact]
    public void Pure_live_seed_and_bulk_agree_with_the_printed_examples()
    {
        var (bermuda, expected) = Check("SD-001");
        var pls = PureLiveSeed.Fraction(bermuda.Number("purity"), bermuda.Number("germination"));
        pls.ShouldBe(expected.Number("pls"), 0.012);
        PureLiveSeed.Bulk(1, pls).ShouldBe(expected.Number("bulkPerPls"), 0.012);

        var (bag, of) = Check("SD-002");
        pls = PureLiveSeed.Fraction(bag.Number("purity"), bag.Number("germination"));
        pls.ShouldBe(of.Number("pls"), 1e-9);
        PureLiveSeed.Bulk(bag.Number("plsWanted_lb"), pls).ShouldBe(of.Number("bulkNeeded_lb"), 0.0051);
        (bag.Number("bulkHeld_lb") * pls).ShouldBe(of.Number("plsHeld_lb"), 0.0051);

        var (guide, said) = Check("SD-004");
        pls = PureLiveSeed.Fraction(guide.Number("purity"), guide.Number("germination"));
        pls.ShouldBe(said.Number("pls"), 0.0005);
        PureLiveSeed.Bulk(1, pls).ShouldBe(said.Number("bulkPerPls"), 0.005);

        var (glossary, percent) = Check("SD-005");
        (100 * PureLiveSeed.Fraction(glossary.Number("purity"), glossary.Number("germination"))).ShouldBe(percent.Number("plsPct"), 1e-9);
    }

    [Fact]
    public void Hard_seed_counts_as_alive()
    {
        var (switchgrass, expected) = Check("SD-003");
        var pls = PureLiveSeed.Fraction(switchgrass.Number("purity"), switchgrass.Number("germination"), switchgrass.Number("hardSeed"));
        pls.ShouldBe(expected.Number("pls"), 1e-9);
        PureLiveSeed.Bulk(switchgrass.Number("plsRate"), pls).ShouldBe(expected.Number("bulkRate"), 0.005);
    }

    [Fact]
    public void Every_cell_of_the_job_sheet_on_bulk_seed_agrees_to_its_rounding()
    {
        var rows = CheckFile.Table("05_bulk_per_pls.csv");
        rows.Count.ShouldBe(80);
        foreach (var row in rows)
        {
            var pls = PureLiveSeed.Fraction(CheckFile.Number(row["purity_pct"]) / 100, CheckFile.Number(row["germination_pct"]) / 100);
            PureLiveSeed.Bulk(1, pls).ShouldBe(CheckFile.Number(row["bulk_lb_per_pls_lb"]), 0.06,
                row["purity_pct"] + " × " + row["germination_pct"]);
        }
    }

    [Fact]
    public void Seeds_per_square_foot_follow_from_pounds_per_acre()
    {
        var (alfalfa, expected) = Check("SD-007");
        double GramsFor(double poundsPerAcre) => poundsPerAcre / SeedRate.PoundsPerAcre(1) * SquareMetresPerAcre;
        var seedsPerGram = SeedRate.PerGram(alfalfa.Number("seedsPerLb"));
        SeedRate.PerSquareFoot(SeedRate.SeedsPerSquareMetre(GramsFor(1), SquareMetresPerAcre, seedsPerGram))
            .ShouldBe(expected.Number("seedsPerSqFtAt1lb"), 0.005);
        SeedRate.PerSquareFoot(SeedRate.SeedsPerSquareMetre(GramsFor(alfalfa.Number("lbPerAcre")), SquareMetresPerAcre, seedsPerGram))
            .ShouldBe(expected.Number("seedsPerSqFt"), 0.02);

        var (lawn, said) = Check("SD-008");
        var gramsPerSquareMetre = lawn.Number("lbPer1000") * GramsPerPound / (1000 * SeedRate.SquareMetresPerSquareFoot);
        SeedRate.PoundsPerAcre(gramsPerSquareMetre).ShouldBe(said.Number("lbPerAcre"), 1e-6);
        (Math.Ceiling(SeedRate.PoundsPerAcre(gramsPerSquareMetre)) * lawn.Number("acres")).ShouldBe(said.Number("total_lb"), 1e-6);

        var (count, perPound) = Check("SD-009");
        SeedRate.PerPound(count.Number("seeds") / (count.Number("weight_lb") * GramsPerPound)).ShouldBe(perPound.Number("seedsPerLb"), 0.5);
    }

    [Fact]
    public void Grams_follow_from_seeds_wanted()
    {
        var (susan, expected) = Check("SD-010");
        var seeds = susan.Number("seedsPerM2") * susan.Number("share");
        (seeds * susan.Number("area_m2")).ShouldBe(expected.Number("speciesSeeds"));
        SeedRate.Grams(seeds, susan.Number("area_m2"), susan.Number("seedsPerGram")).ShouldBe(expected.Number("grams"), 0.01);
        foreach (var id in new[] { "SD-011", "SD-012" })
        {
            var (yard, of) = Check(id);
            var grams = SeedRate.Grams(
                SeedRate.PerSquareMetre(yard.Number("targetSeedsPerSqFt")), yard.Number("area_sqft") * SeedRate.SquareMetresPerSquareFoot,
                    SeedRate.PerGram(yard.Number("seedsPerLb")));
            (grams / GramsPerPound).ShouldBe(of.Number("plsLb"), 1e-5);
            (grams / GramsPerOunce).ShouldBe(of.Number("plsOz"), 1e-5);
            (PureLiveSeed.Bulk(grams, yard.Number("pls")) / GramsPerOunce).ShouldBe(of.Number("bulkOz"), 1e-5);
            SeedRate.PoundsPerAcre(grams / (yard.Number("area_sqft") * SeedRate.SquareMetresPerSquareFoot))
                .ShouldBe(of.Number("plsLbPerAcre"), 1e-5);
        }
    }

    [Fact]
    public void Plants_in_a_square_grid_agree_with_the_extension_table()
    {
        foreach (var row in CheckFile.Table("05_plants_square_grid.csv"))
        {
            var plants = PlugSpacing.Square(
                CheckFile.Number(row["area_sqft"]) * SeedRate.SquareMetresPerSquareFoot, CheckFile.Number(row["spacing_in"]) * 0.0254);
            var printed = CheckFile.Number(row["plants"]);
            plants.ShouldBe(printed, Math.Max(0.5, 0.0131 * printed), row["area_sqft"] + " ft² at " + row["spacing_in"] + " in");
        }

        var (spacing, covered) = Check("SD-016");
        foreach (var (inches, squareFeet) in spacing.Numbers("spacing_in").Zip(covered.Numbers("sqft")))
        {
            (100 / PlugSpacing.Square(SeedRate.SquareMetresPerSquareFoot, inches * 0.0254)).ShouldBe(squareFeet, 0.6);
        }
    }

    [Fact]
    public void Plants_in_staggered_rows_agree_with_geometry()
    {
        var (input, expected) = Check("SD-017");
        foreach (var (inches, plants) in input.Numbers("spacing_in").Zip(expected.Numbers("plants")))
        {
            // 0.866 for √3/2, as the trade writes it
            PlugSpacing.Triangular(input.Number("area_sqft") * SeedRate.SquareMetresPerSquareFoot, inches * 0.0254).ShouldBe(plants,
                4e-5 * plants);
        }
    }

    private static (System.Text.Json.JsonElement Inputs, System.Text.Json.JsonElement Expected) Check(string id) =>
        CheckFile.Check("05_seeding.json", id);
}
