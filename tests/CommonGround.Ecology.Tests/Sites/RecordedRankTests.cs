using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Sites;

public class RecordedRankTests
{
    private static readonly CatalogueTaxon[] s_taxa =
    [
        new() { ScientificName = "Asclepias", Rank = RecordedRank.Genus },
        Neighbourhood.Native(4, new BloomWindow(11, 15), 0.8) with { ScientificName = "Asclepias syriaca" },
        Neighbourhood.Native(8) with { ScientificName = "Solidago canadensis" },
        new() { ScientificName = "Solidago canadensis agg.", Rank = RecordedRank.Aggregate },
        new() { ScientificName = "Solidago", Rank = RecordedRank.Genus },
        Neighbourhood.Native() with { ScientificName = "Asclepiasformis nova" },
    ];

    [Theory]
    [InlineData(0, 1, true)]
    [InlineData(0, 5, false)] // a longer word is another genus
    [InlineData(1, 0, false)]
    [InlineData(0, 0, false)]
    [InlineData(3, 2, true)]
    [InlineData(4, 3, true)]
    [InlineData(3, 4, false)]
    public void A_genus_holds_its_names_and_an_aggregate_its_species(int above, int taxon, bool holds) =>
    RecordedRank.Holds(s_taxa[above], s_taxa[taxon]).ShouldBe(holds);

    [Fact]
    public void A_genus_counts_as_a_taxon_only_in_units_where_none_of_its_species_is_recorded()
    {
        // Yard 1 has only the genus, yard 2 the genus and a species: the block of both has one taxon.
        var matrix = Matrix(Neighbourhood.Yard(1, 0, Of(0, 2)), Neighbourhood.Yard(2, 0, Of(0, 3), Of(1, 1)));
        var yards = CommunityMeasures.OfYards(matrix, Season.Default, PressureConvention.Default);
        (yards[0].Richness, yards[0].NativeRichness, yards[0].WithoutC, yards[0].NativeMeanC,
            yards[0].Shannon).ShouldBe((1, 0, 1, null, 0));
        yards[0].Bloom.HalfMonths.ShouldAllBe(h => h.N == 0);
        (yards[1].Richness, yards[1].NativeRichness, yards[1].WithoutC, yards[1].NativeMeanC).ShouldBe((1, 1, 0, 4));
        var block = CommunityMeasures.OfBlocks(matrix, Season.Default, PressureConvention.Default)[0];
        (block.Richness, block.WithoutC, block.Shannon).ShouldBe((1, 0, 0));
        block.Bloom.HalfMonths[12].ShouldBe(new BloomHalfMonth(1, 1, 0.8));
        CommunityMeasures.IncidenceOfNeighbourhood(matrix).ShouldNotBeNull();
    }

    [Fact]
    public void Of_a_genus_an_aggregate_and_a_species_the_species_alone_counts()
    {
        var matrix = Matrix(Neighbourhood.Yard(1, 0, Of(2, 1), Of(3, 1), Of(4, 1)), Neighbourhood.Yard(2, 0, Of(3, 1), Of(4, 1)));
        CommunityMeasures.OfYards(matrix, Season.Default, PressureConvention.Default).Select(y => (y.Richness, y.NativeRichness))
            .ShouldBe([(1, 1), (1, 0)]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void One_site_and_many_at_once_give_the_same_with_genera_and_old_sightings(int seed)
    {
        var random = new Random(seed);
        var plain = Neighbourhood.Of(seed);
        CatalogueTaxon[] taxa = [.. plain.Taxa.Select((t, i) => i % 9 == 0
            ? t with { ScientificName = $"Genus{i / 18}", Rank = RecordedRank.Genus }
            : t with { ScientificName = $"Genus{i / 18} species{i}" })];
        var matrix = plain with
        {
            Taxa = taxa,
            Yards = [.. plain.Yards
                .Select(y => y with { Presences = [.. y.Presences.Select(p => p with { Old = random.Next(3) == 0 })] })]
        };
        var batch = CommunityMeasures.OfBlocks(matrix, Season.Default, PressureConvention.Default);
        for (var block = 0; block < batch.Count; block++)
        {
            var one = CommunityMeasures.OfBlock(matrix, block, Season.Default, PressureConvention.Default);
            (one.Richness, one.WithoutC, one.OnOldSightings, one.IntroducedRichness).ShouldBe((batch[block].Richness,
                batch[block].WithoutC, batch[block].OnOldSightings, batch[block].IntroducedRichness));
            one.OnOldSightings.ShouldBeLessThanOrEqualTo(one.Richness);
        }

        batch.Sum(b => b.OnOldSightings).ShouldBeGreaterThan(0);
    }

    [Fact]
    public void A_taxon_rests_on_old_sightings_only_where_nobody_has_seen_it_in_any_yard()
    {
        var matrix = Matrix(Neighbourhood.Yard(1, 0, Of(1, 1) with { Old = true }, Of(2, 1) with { Old = true }),
            Neighbourhood.Yard(2, 0, Of(1, 1)));
        CommunityMeasures.OfYards(matrix, Season.Default, PressureConvention.Default).Select(y => y.OnOldSightings).ShouldBe([2, 0]);
        CommunityMeasures.OfBlocks(matrix, Season.Default, PressureConvention.Default)[0].OnOldSightings.ShouldBe(1);
    }

    private static Presence Of(int taxon, double cover) => new(taxon, cover, cover);

    private static CommunityMatrix Matrix(params YardCommunity[] yards) => new(new(2026, 7, 1), s_taxa, [new(1, "S")],
        [new(1, "B", 0, 41, -91)], yards, []);
}
