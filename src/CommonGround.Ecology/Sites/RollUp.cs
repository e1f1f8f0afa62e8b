using System.Numerics;
using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.FloristicQuality;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>All measures of many sites at once: the same numbers as <see cref="SiteMeasures.Of"/>, without its collections.</summary>
/// <remarks>
/// One dense row of sums per thread; a bit per taxon marks which are in use, and reading those bits upwards visits taxa in index order,
/// so the order of rows never shows in a result.
/// </remarks>
internal sealed class RollUp
{
    private readonly TaxonTrait[] _traits;
    private readonly (int Taxon, int[] Held)[] _above;
    private readonly Season _season;
    private readonly Sums[] _sums;
    private readonly ulong[] _used;
    private int _yardSerial;

    private RollUp(TaxonTraits known, Season season)
    {
        var traits = known.All;
        _traits = traits;
        _above = known.Above;
        _season = season;
        _sums = new Sums[traits.Length];
        _used = new ulong[(traits.Length + 63) / 64];
    }

    public static SiteMeasures[] OfAll(CommunityMatrix matrix, Grouping yardsBySite, Season season)
    {
        BloomCoverage.RequireSeason(season);
        var rows = matrix.Rows;
        var traits = matrix.Traits;
        var measures = new SiteMeasures[yardsBySite.Count];
        const int chunk = 16;
        Parallel.For(
            0,
            (measures.Length + chunk - 1) / chunk,
            () => new RollUp(traits, season),
            (c, _, rollUp) =>
            {
                for (var site = c * chunk; site < Math.Min(measures.Length, (c + 1) * chunk); site++)
                {
                    measures[site] = rollUp.OfSite(rows, yardsBySite.Of(site));
                }

                return rollUp;
            },
            _ => { });
        return measures;
    }

    private SiteMeasures OfSite(YardCommunity[] rows, ReadOnlySpan<int> yards)
    {
        foreach (var yard in yards)
        {
            Add(rows[yard]);
        }

        LeaveOutIdle();
        var measures = Measure(yards.Length);
        Array.Clear(_used);
        return measures;
    }

    /// <summary>As <see cref="SiteCommunity.Told"/> does.</summary>
    private void LeaveOutIdle()
    {
        // All are looked at before any is taken out: a genus may be idle because of an aggregate that is idle itself.
        Span<bool> idle = _above.Length <= 256 ? stackalloc bool[_above.Length] : new bool[_above.Length];
        for (var i = 0; i < _above.Length; i++)
        {
            idle[i] = IsUsed(_above[i].Taxon) && Array.Exists(_above[i].Held, IsUsed);
        }

        for (var i = 0; i < _above.Length; i++)
        {
            if (idle[i])
            {
                _used[_above[i].Taxon >> 6] &= ~(1ul << _above[i].Taxon);
            }
        }
    }

    private bool IsUsed(int taxon) => (_used[taxon >> 6] & (1ul << taxon)) != 0;

    private void Add(YardCommunity yard)
    {
        var serial = ++_yardSerial;
        foreach (ref readonly var presence in yard.Presences.AsSpan())
        {
            var taxon = presence.Taxon;
            var (cover, certain) = (presence.CoverSquareMetres, presence.CertainSquareMetres);
            if (!(cover > 0 && cover <= double.MaxValue && certain >= 0 && certain <= cover))
            {
                throw new ArgumentException($"Yard {yard.YardId} has a presence with cover {cover} m² and certain cover {certain} m².",
                    nameof(yard));
            }

            ref var sums = ref _sums[taxon];
            var bit = 1ul << taxon;
            ref var used = ref _used[taxon >> 6];
            if ((used & bit) == 0)
            {
                used |= bit;
                sums = new() { Cover = cover, Certain = certain, YardsHolding = 1, LastYard = serial, Seen = !presence.Old };
                continue;
            }

            if (sums.LastYard == serial)
            {
                throw new ArgumentException($"Yard {yard.YardId} lists a taxon twice.", nameof(yard));
            }

            sums.Cover += cover;
            sums.Certain += certain;
            sums.YardsHolding++;
            sums.Seen |= !presence.Old;
            sums.LastYard = serial;
        }
    }

    private SiteMeasures Measure(int yards)
    {
        var tally = Count();
        double shannon = 0, squares = 0;
        var all = new BloomHalfMonth[HalfMonth.Count];
        var certain = tally.Tentative ? new BloomHalfMonth[HalfMonth.Count] : all;
        int unknown = 0, certainUnknown = 0;
        for (var word = 0; word < _used.Length; word++)
        {
            for (var bits = _used[word]; bits != 0; bits &= bits - 1)
            {
                var taxon = (word << 6) + BitOperations.TrailingZeroCount(bits);
                ref readonly var sums = ref _sums[taxon];
                ref readonly var trait = ref _traits[taxon];
                var share = sums.Cover / tally.Cover;
                shannon -= share * Math.Log(share);
                squares += share * share;
                Flower(all, trait, sums.Cover, ref unknown);
                if (tally.Tentative && sums.Certain > 0)
                {
                    Flower(certain, trait, sums.Certain, ref certainUnknown);
                }
            }
        }

        var bloom = BloomCoverage.FromHalfMonths(all, _season, unknown);
        var certainBloom = tally.Tentative ? BloomCoverage.FromHalfMonths(certain, _season, certainUnknown) : bloom;
        return Compose(yards, tally, shannon, squares, bloom, certainBloom);
    }

    private Tally Count()
    {
        var tally = default(Tally);
        for (var word = 0; word < _used.Length; word++)
        {
            for (var bits = _used[word]; bits != 0; bits &= bits - 1)
            {
                var taxon = (word << 6) + BitOperations.TrailingZeroCount(bits);
                ref readonly var sums = ref _sums[taxon];
                ref readonly var trait = ref _traits[taxon];
                tally.Richness++;
                tally.Old += sums.Seen ? 0 : 1;
                tally.Cover += sums.Cover;
                tally.Tentative |= sums.Certain < sums.Cover;
                tally.Native += trait.Nativity == Nativity.Native ? 1 : 0;
                tally.InOneYard += sums.YardsHolding == 1 ? 1 : 0;
                tally.InTwoYards += sums.YardsHolding == 2 ? 1 : 0;
                switch (trait.Kind)
                {
                    case ScoreKind.NativeWithC:
                        tally.NativeWithC++;
                        tally.SumC += trait.C;
                        tally.ScoredCover += sums.Cover;
                        tally.CoverC += sums.Cover * trait.C;
                        break;
                    case ScoreKind.Introduced:
                        tally.Introduced++;
                        tally.ScoredCover += sums.Cover;
                        break;
                    default:
                        tally.WithoutC++;
                        break;
                }
            }
        }

        return tally;
    }

    private static void Flower(BloomHalfMonth[] halfMonths, in TaxonTrait trait, double cover, ref int unknown)
    {
        if (trait.BloomBits == 0)
        {
            return;
        }

        unknown += trait.PollinatorValueUnknown ? 1 : 0;
        var support = cover * trait.PollinatorValue;
        for (var bits = trait.BloomBits; bits != 0; bits &= bits - 1)
        {
            ref var h = ref halfMonths[BitOperations.TrailingZeroCount(bits)];
            h = new(h.N + 1, h.AreaSquareMetres + cover, h.Support + support);
        }
    }

    private static SiteMeasures Compose(int yards, in Tally tally, double shannon, double squares, BloomCoverage bloom,
        BloomCoverage certainBloom)
    {
        var grows = tally.Richness > 0;
        var chao2 = Chao2Estimate.FromCounts(tally.Richness, tally.InOneYard, tally.InTwoYards, yards);
        var quality = FloristicQualityIndex.FromSums(tally.NativeWithC, tally.Introduced, tally.WithoutC, tally.SumC, tally.ScoredCover,
            tally.CoverC);
        return new SiteMeasures
        {
            Yards = yards,
            Richness = tally.Richness,
            NativeRichness = tally.Native,
            IntroducedRichness = tally.Introduced,
            Shannon = grows ? shannon : null,
            Simpson = grows ? 1 - squares : null,
            InverseSimpson = grows ? 1 / squares : null,
            Evenness = tally.Richness > 1 ? Math.Min(1, shannon / Math.Log(tally.Richness)) : null,
            Hill0 = grows ? tally.Richness : null,
            Hill1 = grows ? Math.Exp(shannon) : null,
            Hill2 = grows ? 1 / squares : null,
            WithoutC = quality.WithoutC,
            OnOldSightings = tally.Old,
            Bloom = bloom,
            BloomWithoutTentative = certainBloom,
        }.With(chao2, quality);
    }

    private struct Sums
    {
        public double Cover;
        public double Certain;
        public int YardsHolding;
        public int LastYard;
        public bool Seen;
    }

    private struct Tally
    {
        public int Richness;
        public int Old;
        public int Native;
        public int Introduced;
        public int NativeWithC;
        public int WithoutC;
        public int InOneYard;
        public int InTwoYards;
        public double Cover;
        public double SumC;
        public double ScoredCover;
        public double CoverC;
        public bool Tentative;
    }
}
