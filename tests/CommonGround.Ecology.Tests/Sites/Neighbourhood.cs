using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Sites;

/// <summary>Invented neighbourhoods for tests: the same seed gives the same one.</summary>
internal static class Neighbourhood
{
    public static CommunityMatrix Of(int seed, int taxa = 90, int blocks = 12, int yards = 60, bool tentative = true)
    {
        var random = new Random(seed);
        CatalogueTaxon[] catalogue = [.. Enumerable.Range(0, taxa).Select(i => Taxon(i, random))];
        BlockSite[] middles = [.. Enumerable.Range(0, blocks).Select(i => new BlockSite(
            100 + i, $"Block {i}", i % 4, 41 + (random.NextDouble() / 100), -91 + (random.NextDouble() / 100)))];
        YardCommunity[] rows = [.. Enumerable.Range(0, yards).Select(i => Yard(i, random, middles, taxa, tentative))];
        Infestation[] infestations = [.. rows.Where(_ => random.Next(3) == 0).Select(y => new Infestation(
            random.Next(taxa), y.Latitude, y.Longitude, 40 * random.NextDouble(), random.NextDouble(), random.Next(2) == 0 ? null
                : random.Next(10), y.YardId, y.Block))];
        StreetSite[] streets = [.. Enumerable.Range(0, 5).Select(i => new StreetSite(i, $"Street {i}"))];
        return new(new(2026, 7, 1), catalogue, streets, middles, rows, infestations);
    }

    public static CatalogueTaxon Native(double? c = null, BloomWindow? bloom = null, double? value = null) =>
        new() { ScientificName = "Planta nativa", Nativity = Nativity.Native, C = c, Bloom = bloom, PollinatorValue = value };

    public static YardCommunity Yard(long id, int block, params Presence[] presences) => new(id, block, 41, -91, true, presences);

    private static CatalogueTaxon Taxon(int i, Random random) => new()
    {
        ScientificName = $"Planta {i}",
        Nativity = (Nativity)(i % 7 == 0 ? 0 : i % 3 == 0 ? 2 : 1),
        C = random.Next(4) == 0 ? null : random.Next(11),
        Bloom = random.Next(5) == 0 ? null : new BloomWindow(random.Next(24), random.Next(24)),
        PollinatorValue = random.Next(5) == 0 ? null : random.NextDouble(),
        ImpactRank = (ImpactRank)random.Next(4),
        DispersalMetres = random.Next(3) == 0 ? null : 5 + (200 * random.NextDouble()),
    };

    private static YardCommunity Yard(int i, Random random, BlockSite[] blocks, int taxa, bool tentative)
    {
        var block = random.Next(blocks.Length - 1);
        Presence[] presences = [.. Enumerable.Range(0, taxa).Where(_ => random.Next(10) == 0).Select(t =>
        {
            var cover = 0.01 + (8 * random.NextDouble());
            return new Presence(t, cover, !tentative || random.Next(4) > 0 ? cover : random.Next(2) * cover * random.NextDouble());
        })];
        random.Shuffle(presences);
        return new(
            1000 - i,
            block,
            blocks[block].Latitude + (random.NextDouble() / 1000),
            blocks[block].Longitude + (random.NextDouble() / 1000),
            true,
            random.Next(12) == 0 ? [] : presences);
    }
}
