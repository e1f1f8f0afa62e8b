namespace CommonGround.Ecology.Seeding;

/// <summary>How many plugs an area takes.</summary>
public static class PlugSpacing
{
    /// <summary>Ground of one plant in a triangular grid as a share of spacing squared: √3/2, to three decimals as the trade uses
    /// it.</summary>
    public const double TriangularShare = 0.866;

    /// <summary>Plants in staggered rows, each as far from its six neighbours: n = A ÷ (0.866·s²).</summary>
    /// <param name="areaSquareMetres">0 or more.</param>
    /// <param name="spacingMetres">Centre to centre, above 0.</param>
    /// <returns>Plants, 0 or more, not rounded; 15.5 % more than in a square grid.</returns>
    /// <remarks>Source: geometry of equilateral triangles. Worked by hand: 100 ft² at 12 in → 115.47.</remarks>
    public static double Triangular(double areaSquareMetres, double spacingMetres) => Square(areaSquareMetres, spacingMetres)
        / TriangularShare;

    /// <summary>Plants in straight rows as far apart as the plants: n = A ÷ s².</summary>
    /// <param name="areaSquareMetres">0 or more.</param>
    /// <param name="spacingMetres">Centre to centre, above 0.</param>
    /// <returns>Plants, 0 or more, not rounded.</returns>
    /// <remarks>Source: Mississippi State University Extension, Ground covers: planting guide. Worked by hand: 100 ft² at 2 ft →
    /// 25.</remarks>
    public static double Square(double areaSquareMetres, double spacingMetres)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(areaSquareMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(spacingMetres);
        return areaSquareMetres / (spacingMetres * spacingMetres);
    }

    /// <summary>Whole plants to buy for a triangular grid: <see cref="Triangular"/> rounded up.</summary>
    /// <returns>0 for no ground, else at least 1. A surplus below a millionth of a plant is taken for rounding and costs no
    /// plant.</returns>
    public static int WholePlants(double areaSquareMetres, double spacingMetres) =>
        (int)Math.Ceiling(Triangular(areaSquareMetres, spacingMetres) - 1e-6);

    /// <summary>Shares whole plants out over areas in proportion, by largest remainder; of equal remainders the earlier area is served
    /// first.</summary>
    /// <param name="plants">0 or more.</param>
    /// <param name="areasSquareMetres">One entry per area, each above 0.</param>
    /// <returns>One entry per area; their sum is <paramref name="plants"/>, and none is a whole plant off its exact part.</returns>
    /// <remarks>Worked by hand: 7 plants over 10, 10 and 1 m² → exact 3.33, 3.33, 0.33 → 3, 3, 0 and one left, to the first: 4, 3,
    /// 0.</remarks>
    public static IReadOnlyList<int> Apportion(int plants, IReadOnlyList<double> areasSquareMetres)
    {
        ArgumentNullException.ThrowIfNull(areasSquareMetres);
        ArgumentOutOfRangeException.ThrowIfNegative(plants);
        if (areasSquareMetres.Count == 0 || areasSquareMetres.Any(a => !(a > 0)))
        {
            throw new ArgumentException("There is at least one area, each above 0 m².", nameof(areasSquareMetres));
        }

        var total = areasSquareMetres.Sum();
        var exact = areasSquareMetres.Select(a => plants * a / total).ToList();
        // 1e-9: what is whole but for rounding counts as whole.
        int[] whole = [.. exact.Select(e => (int)Math.Floor(e + 1e-9))];
        var left = plants - whole.Sum();
        foreach (var i in Enumerable.Range(0, whole.Length).OrderByDescending(i => Math.Round(exact[i] - whole[i], 9)).Take(left))
        {
            whole[i]++;
        }

        return whole;
    }
}
