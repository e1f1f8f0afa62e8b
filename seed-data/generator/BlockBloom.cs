using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.DemoData;

/// <summary>Keeps a block to the story it is to tell: which half-months have three native taxa in flower and which do not.</summary>
internal sealed class BlockBloom(Block block)
{
    private const int Norm = 3, EarlyApril = 6, LateApril = 7, LateAugust = 15, LateOctober = 19;
    private readonly HashSet<string> here = new(StringComparer.Ordinal);
    private readonly int[] inFlower = new int[HalfMonth.Count];
    private readonly bool earlySpring = new Chance($"spring {block.Street} {block.Name}").Happens(0.28);

    /// <summary>First half-month after the last that is meant to be covered in autumn.</summary>
    private int Quiet => LateAugust + block.LateHalfMonths;

    /// <summary>Whether the taxon may grow here without filling a gap of the story.</summary>
    public bool Allows(CatalogueTaxon taxon)
    {
        if (taxon.Nativity != Nativity.Native || taxon.Bloom is not { } bloom || here.Contains(taxon.ScientificName)) return true;
        for (var t = 0; t < inFlower.Length; t++)
        {
            if (bloom.Contains(t) && inFlower[t] >= Most(t)) return false;
        }
        return true;
    }

    public void Add(CatalogueTaxon taxon)
    {
        if (taxon.Nativity != Nativity.Native || taxon.Bloom is not { } bloom || !here.Add(taxon.ScientificName)) return;
        for (var t = 0; t < inFlower.Length; t++)
        {
            if (bloom.Contains(t)) inFlower[t]++;
        }
    }

    /// <summary>The first half-month that is meant to be covered and is not; null when all are.</summary>
    public int? Missing()
    {
        for (var t = LateAugust; t < Quiet; t++)
        {
            if (inFlower[t] < Norm) return t;
        }
        return null;
    }

    private int Most(int t) => t switch
    {
        EarlyApril => Norm - 1,
        LateApril => earlySpring ? int.MaxValue : Norm - 1,
        > LateAugust when block.Street == StreetPlan.Kiln && t >= Quiet => 1,
        >= LateAugust and <= LateOctober when t >= Quiet => Norm - 1,
        _ => int.MaxValue,
    };
}
