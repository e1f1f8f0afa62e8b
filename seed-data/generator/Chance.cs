namespace CommonGround.DemoData;

/// <summary>Repeatable chance: PCG-XSH-RR 64/32 (O'Neill 2014), so that the files are the same on every machine and every
/// runtime.</summary>
internal sealed class Chance
{
    private const ulong Multiplier = 6364136223846793005;
    private const ulong Seed = 20_210_501;
    private readonly ulong increment;
    private ulong state;

    /// <param name="topic">Every yard and task draws from its own stream, so a change to one leaves the others as they are.</param>
    public Chance(string topic)
    {
        increment = (Fnv1A(topic) << 1) | 1;
        Next();
        state += Seed;
        Next();
    }

    /// <summary>0 up to, not including, 1.</summary>
    public double Share() => Next() / 4294967296.0;

    public bool Happens(double probability) => Share() < probability;

    public double Between(double low, double high) => low + ((high - low) * Share());

    /// <summary>Both ends included.</summary>
    public int Whole(int low, int high) => low + (int)(Share() * (high - low + 1));

    public T Pick<T>(IReadOnlyList<T> from) => from[Whole(0, from.Count - 1)];

    /// <summary>One of the items, each with its weight.</summary>
    public T Pick<T>(IReadOnlyList<(T Item, double Weight)> from)
    {
        var left = Share() * from.Sum(f => f.Weight);
        foreach (var (item, weight) in from)
        {
            left -= weight;
            if (left < 0) return item;
        }
        return from[^1].Item;
    }

    /// <summary>The items in a new order (Fisher and Yates).</summary>
    public List<T> Shuffled<T>(IEnumerable<T> items)
    {
        var list = items.ToList();
        for (var i = list.Count - 1; i > 0; i--)
        {
            var j = Whole(0, i);
            (list[i], list[j]) = (list[j], list[i]);
        }
        return list;
    }

    private uint Next()
    {
        var old = state;
        state = unchecked((old * Multiplier) + increment);
        var shifted = (uint)(((old >> 18) ^ old) >> 27);
        var turn = (int)(old >> 59);
        return (shifted >> turn) | (shifted << (-turn & 31));
    }

    private static ulong Fnv1A(string text)
    {
        var hash = 14695981039346656037UL;
        foreach (var c in text) hash = unchecked((hash ^ c) * 1099511628211UL);
        return hash;
    }
}
