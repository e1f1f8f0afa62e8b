using System.Numerics;

namespace CommonGround.Ecology.Diversity;

/// <summary>Which taxa were met in which sampling units (yards or plots): presence and absence only.</summary>
/// <remarks>The ground that accumulation curves and richness estimates stand on; see docs/measures.md#accumulation.</remarks>
public sealed class Incidence
{
    private readonly ulong[][] _unitsOfTaxon;

    private Incidence(int units, ulong[][] unitsOfTaxon, int[] holding, int[] uniquesOfUnit)
    {
        Units = units;
        _unitsOfTaxon = unitsOfTaxon;
        Holding = holding;
        UniquesOfUnit = uniquesOfUnit;
    }

    /// <summary>Number of sampling units n, empty ones included.</summary>
    public int Units { get; }

    /// <summary>Units that hold each taxon met, 1 to n, by taxon index.</summary>
    public IReadOnlyList<int> Holding { get; }

    /// <summary>For each unit, its taxa that no other unit holds.</summary>
    public IReadOnlyList<int> UniquesOfUnit { get; }

    /// <summary>Taxa met, S.</summary>
    public int Richness => Holding.Count;

    /// <summary>Reads the taxa of each sampling unit.</summary>
    /// <param name="units">One entry per unit, empty ones included: the indices or keys of its taxa, duplicates ignored.</param>
    /// <returns>A table with no taxa when nothing was met.</returns>
    /// <remarks>The order of units shows only in <see cref="UniquesOfUnit"/>; the order of taxa nowhere. See
    /// docs/measures.md#accumulation.</remarks>
    public static Incidence Of(IReadOnlyList<IReadOnlyCollection<int>> units)
    {
        ArgumentNullException.ThrowIfNull(units);
        var bits = new SortedDictionary<int, ulong[]>();
        for (var u = 0; u < units.Count; u++)
        {
            foreach (var taxon in units[u])
            {
                if (!bits.TryGetValue(taxon, out var held))
                {
                    bits.Add(taxon, held = new ulong[(units.Count + 63) / 64]);
                }

                held[u >> 6] |= 1ul << u;
            }
        }

        ulong[][] unitsOfTaxon = [.. bits.Values];
        int[] holding = [.. unitsOfTaxon.Select(held => held.Sum(BitOperations.PopCount))];
        var uniques = new int[units.Count];
        for (var i = 0; i < holding.Length; i++)
        {
            if (holding[i] == 1)
            {
                var word = Array.FindIndex(unitsOfTaxon[i], w => w != 0);
                uniques[(word << 6) + BitOperations.TrailingZeroCount(unitsOfTaxon[i][word])]++;
            }
        }

        return new(units.Count, unitsOfTaxon, holding, uniques);
    }

    /// <summary>Units that hold both of two taxa.</summary>
    internal int HoldingBoth(int i, int j)
    {
        var count = 0;
        for (var w = 0; w < _unitsOfTaxon[i].Length; w++)
        {
            count += BitOperations.PopCount(_unitsOfTaxon[i][w] & _unitsOfTaxon[j][w]);
        }

        return count;
    }
}
