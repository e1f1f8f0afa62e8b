namespace CommonGround.Interchange.Names;

/// <summary>How many single-letter slips lie between two texts.</summary>
public static class EditDistance
{
    /// <summary>Insertions, deletions, replacements and swaps of neighbours (optimal string alignment).</summary>
    public static int Between(ReadOnlySpan<char> a, ReadOnlySpan<char> b) => Last(a, b, wholeOfB: true, int.MaxValue - 1);

    /// <summary>The least distance from <paramref name="typed"/> to any beginning of <paramref name="word"/>; anything above
    /// <paramref name="limit"/> may stand for "too far".</summary>
    public static int ToPrefix(ReadOnlySpan<char> typed, ReadOnlySpan<char> word, int limit) =>
        Last(typed, word[..Math.Min(word.Length, typed.Length + limit)], wholeOfB: false, limit);

    private static int Last(ReadOnlySpan<char> a, ReadOnlySpan<char> b, bool wholeOfB, int limit)
    {
        const int OnStack = 128;
        var width = b.Length + 1;
        Span<int> cells = width <= OnStack ? stackalloc int[3 * width] : new int[3 * width];
        var before = cells[..width];
        var above = cells[width..(2 * width)];
        var row = cells[(2 * width)..];
        for (var j = 0; j < width; j++) above[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            var closest = i;
            for (var j = 1; j < width; j++)
            {
                var cost = a[i - 1] == b[j - 1] ? 0 : 1;
                var least = Math.Min(Math.Min(above[j] + 1, row[j - 1] + 1), above[j - 1] + cost);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) least = Math.Min(least, before[j - 2] + 1);
                row[j] = least;
                closest = Math.Min(closest, least);
            }
            // Distances only grow from row to row; a swap can save one, which the row before may still offer.
            if (closest > limit + 1) return limit + 1;
            var spare = before;
            before = above;
            above = row;
            row = spare;
        }
        if (wholeOfB) return above[width - 1];
        var shortest = above[0];
        foreach (var distance in above) shortest = Math.Min(shortest, distance);
        return shortest;
    }
}
