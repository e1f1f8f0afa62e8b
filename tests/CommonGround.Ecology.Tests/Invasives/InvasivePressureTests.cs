using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;
using CommonGround.Ecology.Tests.Sites;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Invasives;

// The form, weights and defaults are the project's own convention: no published value exists to compare with, only arithmetic done
// elsewhere.
public class InvasivePressureTests
{
    private static readonly PressureConvention s_convention = PressureConvention.Default;

    [Fact]
    public void The_worked_example_of_four_infestations_comes_out()
    {
        var (matrix, expected) = Worked();
        matrix.Infestations.Select(i => InvasivePressure.SourceSquareMetres(i, matrix, s_convention)).ShouldBe(expected.Numbers("sources"),
            1e-12);
        var blocks = expected.Numbers("blocks");
        InvasivePressure.OfBlock(matrix, 0, s_convention).ShouldBeNear(blocks[0], 1e-9, "first block");
        InvasivePressure.OfAllBlocks(matrix, s_convention)[1].ShouldBeNear(blocks[1], 1e-9, "second block");
        InvasivePressure.OfStreet(matrix, 0, s_convention).ShouldBeNear(expected.Number("street"), 1e-9, "street");
        InvasivePressure.OfNeighbourhood(matrix, s_convention).ShouldBeNear(expected.Number("street"), 1e-9, "neighbourhood");
        InvasivePressure.OfYard(matrix, 0, s_convention).ShouldBeNear(blocks[0], 1e-9, "a yard at the first block's point");
        CommunityMeasures.OfStreets(matrix, Season.Default,
            s_convention)[0].InvasivePressureSquareMetres.ShouldBeNear(expected.Number("street"), 1e-9, "measures");
    }

    [Fact]
    public void Distances_of_the_worked_example_agree_with_an_independent_formula()
    {
        var (matrix, expected) = Worked();
        foreach (var (infestation, metres) in matrix.Infestations.Zip(expected.Numbers("distancesMetres")))
        {
            GreatCircle.Metres(matrix.Blocks[0].Latitude, matrix.Blocks[0].Longitude, infestation.Latitude, infestation.Longitude)
                .ShouldBe(metres, 1e-6);
        }
    }

    [Fact]
    public void Without_infestations_pressure_is_zero_everywhere()
    {
        var (matrix, _) = Worked();
        var clean = matrix with { Infestations = [], Streets = [.. matrix.Streets, new(9, "Without blocks")] };
        InvasivePressure.OfAllBlocks(clean, s_convention).ShouldAllBe(p => p == 0);
        InvasivePressure.OfAllStreets(clean, s_convention).ShouldBe([0, 0]);
        InvasivePressure.OfNeighbourhood(clean, s_convention).ShouldBe(0);
        InvasivePressure.OfYard(clean, 0, s_convention).ShouldBe(0);
    }

    [Fact]
    public void A_street_without_blocks_has_no_pressure_to_speak_of()
    {
        var (matrix, _) = Worked();
        InvasivePressure.OfAllStreets(matrix with { Streets = [.. matrix.Streets, new(9, "Without blocks")] }, s_convention)[1]
            .ShouldBeNull();
    }

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(5, 0.5)]
    [InlineData(6, 1)]
    [InlineData(9, 1)]
    [InlineData(null, 1)]
    public void An_infestation_counts_half_until_it_flowers_and_in_full_when_its_stage_is_unknown(int? stage, double factor) =>
        s_convention.StageFactor(stage).ShouldBe(factor);

    [Theory]
    [InlineData(ImpactRank.High, 1)]
    [InlineData(ImpactRank.Medium, 0.6)]
    [InlineData(ImpactRank.Low, 0.3)]
    [InlineData(ImpactRank.Unranked, 0.3)]
    public void The_default_weights_are_those_of_the_convention(ImpactRank rank, double weight) =>
    s_convention.Weight(rank).ShouldBe(weight);

    [Fact]
    public void A_group_may_set_its_own_weights()
    {
        var (matrix, _) = Worked();
        var doubled = s_convention with { HighWeight = 2, MediumWeight = 1.2, LowWeight = 0.6, UnrankedWeight = 0.6 };
        InvasivePressure.OfBlock(matrix, 0, doubled).ShouldBeNear(2 * InvasivePressure.OfBlock(matrix, 0, s_convention), 1e-12, "doubled");
    }

    [Fact]
    public void A_cover_above_one_is_refused()
    {
        var (matrix, _) = Worked();
        Should.Throw<ArgumentException>(() => InvasivePressure.At(
            matrix with { Infestations = [matrix.Infestations[0] with { Cover = 1.5 }] }, 40, -90, s_convention));
    }

    [Property(MaxTest = 25)]
    public void Pressure_is_the_plain_sum_over_infestations(int seed)
    {
        var matrix = Neighbourhood.Of(seed, yards: 200);
        var fast = InvasivePressure.OfAllYards(matrix, s_convention);
        for (var y = 0; y < matrix.Yards.Count; y += 7)
        {
            var yard = matrix.Yards[y];
            var plain = matrix.Infestations.Sum(i => InvasivePressure.SourceSquareMetres(i, matrix, s_convention)
                * Math.Exp(-GreatCircle.Metres(yard.Latitude, yard.Longitude, i.Latitude, i.Longitude)
                / (matrix.Taxa[i.Taxon].DispersalMetres ?? 25)));
            Math.Abs(fast[y] - plain).ShouldBeLessThanOrEqualTo((1e-9 * plain) + 1e-12);
        }
    }

    private static (CommunityMatrix Matrix, System.Text.Json.JsonElement Expected) Worked()
    {
        var (input, expected) = CheckFile.WorkedExample("invasive-pressure");
        var infestations = input.GetProperty("infestations").EnumerateArray().ToList();
        CatalogueTaxon[] taxa = [.. infestations.Select((i, k) => new CatalogueTaxon
        {
            ScientificName = $"Planta {k}",
            ImpactRank = Enum.Parse<ImpactRank>(i.GetProperty("impactRank").GetString()!, ignoreCase: true),
            DispersalMetres = i.Optional("dispersalMetres"),
        })];
        BlockSite[] blocks = [.. input.GetProperty("blocks").EnumerateArray()
            .Select((b, k) => new BlockSite(k, $"B{k}", 0, b[0].GetDouble(), b[1].GetDouble()))];
        var yard = new YardCommunity(1, 0, blocks[0].Latitude, blocks[0].Longitude, true, []);
        var matrix = new CommunityMatrix(new(2026, 7, 1), taxa, [new(1, "S")], blocks, [yard],
            [.. infestations.Select((i, k) => new Infestation(
            k, i.Number("latitude"), i.Number("longitude"), i.Number("areaSquareMetres"), i.Number("cover"),
                (int?)i.Optional("growthStage"), null, 0))]);
        return (matrix, expected);
    }
}
