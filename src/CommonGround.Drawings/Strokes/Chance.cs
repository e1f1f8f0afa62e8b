namespace CommonGround.Drawings.Strokes;

/// <summary>Chance that is the same on every machine: seeded by words, never by the clock.</summary>
/// <remarks>
/// The words are hashed by FNV-1a; the numbers come from SplitMix64 (Steele, Lea and Flood 2014, from memory). A hash from a library was
/// tried: it draws every plant anew, and a report printed again would show another bed.
/// </remarks>
internal sealed class Chance
{
    private ulong state = 14695981039346656037UL;

    public Chance(string seed)
    {
        foreach (var c in seed)
        {
            state ^= c;
            state *= 1099511628211UL;
        }

        for (var i = 0; i < 4; i++)
        {
            U();
        }
    }

    /// <summary>From 0, below 1.</summary>
    public double U()
    {
        state += 0x9E3779B97F4A7C15UL;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        z ^= z >> 31;
        return (z >> 11) / (double)(1UL << 53);
    }

    /// <summary>Between two numbers.</summary>
    public double R(double a, double b) => a + ((b - a) * U());

    /// <summary>About 0, seldom beyond ±1.5.</summary>
    public double N() => (U() + U() + U() + U() - 2) * 1.2;

    /// <summary>A whole number, both ends included.</summary>
    public int I(int a, int b) => a + (int)(U() * (b - a + 1));

    public bool Is(double probability) => U() < probability;
}
