using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>What the roll-up needs of each taxon, laid out for speed.</summary>
/// <param name="Kind">Native with C, introduced, or left out of floristic quality.</param>
/// <param name="Nativity">As in the catalogue.</param>
/// <param name="C">C of a native taxon with one, else 0.</param>
/// <param name="BloomBits">Bit t is set when a native taxon flowers in half-month t; 0 when it never counts.</param>
/// <param name="PollinatorValue">0–1; 0 when unknown.</param>
/// <param name="PollinatorValueUnknown">A native taxon with a window and no value.</param>
internal readonly record struct TaxonTrait(ScoreKind Kind, Nativity Nativity, double C, uint BloomBits, double PollinatorValue,
    bool PollinatorValueUnknown);

internal enum ScoreKind { WithoutC, NativeWithC, Introduced }

/// <summary>The traits of all taxa of a matrix, by taxon index.</summary>
internal sealed class TaxonTraits
{
    private TaxonTraits(TaxonTrait[] all, (int, int[])[] above) => (All, Above) = (all, above);

    public TaxonTrait[] All { get; }

    /// <summary>Records above the species, each with the taxa that say more; see <see cref="RecordedRank"/>.</summary>
    public (int Taxon, int[] Held)[] Above { get; }

    public static TaxonTraits Of(IReadOnlyList<CatalogueTaxon> taxa)
    {
        var above = taxa.Index().Where(t => t.Item.Rank is RecordedRank.Genus or RecordedRank.Aggregate)
            .Select(t => (t.Index, taxa.Index().Where(other => RecordedRank.Holds(t.Item, other.Item)).Select(other => other.Index)
            .ToArray()));
        return new([.. taxa.Select(Of)], [.. above]);
    }

    /// <summary>The half-months of a window as bits 0–23.</summary>
    public static uint Bits(BloomWindow window)
    {
        var bits = 0u;
        for (var t = 0; t < HalfMonth.Count; t++)
        {
            bits |= window.Contains(t) ? 1u << t : 0;
        }

        return bits;
    }

    private static TaxonTrait Of(CatalogueTaxon taxon)
    {
        var native = taxon.Nativity == Nativity.Native;
        var kind = taxon.Nativity == Nativity.Introduced ? ScoreKind.Introduced
            : native && taxon.C is not null ? ScoreKind.NativeWithC
            : ScoreKind.WithoutC;
        if (taxon.C is { } c && !(c is >= 0 and <= 10))
        {
            throw new ArgumentOutOfRangeException(nameof(taxon), c, $"C of {taxon.ScientificName} is not 0 to 10.");
        }

        var bits = native && taxon.Bloom is { } window ? Bits(window) : 0;
        return new(
            kind,
            taxon.Nativity,
            kind == ScoreKind.NativeWithC ? taxon.C!.Value : 0,
            bits,
            taxon.PollinatorValue ?? 0,
            bits != 0 && taxon.PollinatorValue is null);
    }
}
