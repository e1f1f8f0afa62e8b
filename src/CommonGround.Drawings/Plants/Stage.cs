using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>What the heads of a plant are doing.</summary>
public enum Head { None, Bud, Open, Green, Ripe, Winter }

/// <summary>What a plant looks like in a half-month of its first, second or third year.</summary>
/// <param name="Growth">Height to that of the year, 0–1.</param>
/// <param name="Size">Size of the plant to a grown one, 0–1.</param>
/// <param name="Head">What its heads are doing.</param>
/// <param name="Dead">Nothing on it is green.</param>
/// <param name="Gone">Nothing stands.</param>
/// <param name="Share">Share of its flowers that have opened, 0–1.</param>
public sealed record Stage(double Growth, double Size, Head Head, bool Dead, bool Gone, double Share)
{
    /// <summary>How far its blades have turned to their autumn colour.</summary>
    public bool Turned { get; init; }

    /// <param name="s">The plant.</param>
    /// <param name="half">Half-month, 0–23.</param>
    /// <param name="year">1, 2, or 3 and more for a grown plant.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such half-month or year.</exception>
    public static Stage At(Characters s, int half, int year)
    {
        ArgumentNullException.ThrowIfNull(s);
        ArgumentOutOfRangeException.ThrowIfNegative(half);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(half, 23);
        ArgumentOutOfRangeException.ThrowIfLessThan(year, 1);
        var size = year >= 3 ? 1 : year == 2 ? (1 + s.FirstYearSize) / 2 : s.FirstYearSize;
        var may = year > 1 || s.FirstYearFlowers;
        if (s.IsWoody)
        {
            return Woody(s, half, size, may);
        }

        if (s.FlowersAtTheGround)
        {
            return AtTheGround(s, half, size, may);
        }

        if (half < s.Emerges || half >= s.DiesBack)
        {
            // What flowers before its leaves (or at the turn of the year) is not dead then.
            if (may && half >= s.BloomFrom && half <= s.BloomTo)
            {
                return new Stage(1, size, Head.Open, false, false, 1);
            }

            // Creeping evergreens look in winter as they do in summer.
            if (s.Form == "mat" && s.Winter == "evergreen")
            {
                return new Stage(1, size, Head.None, false, false, 1);
            }

            var low = year == 1 && !may && !s.HasBlades;
            var gone = s.Winter == "gone" || (half >= 6 && half < s.Emerges) || (low && s.Winter != "evergreen");
            return new Stage(1, size, may ? Head.Winter : Head.None, true, gone, 1);
        }

        var span = Math.Max(2, s.BloomFrom - s.Emerges + .5);
        var growth = Math.Clamp((half - s.Emerges + .7) / span, .12, 1);
        growth = growth * growth * (3 - (2 * growth));
        var turned = s.HasBlades && half >= 18 && s.BloomTo > 12 && s.Winter != "evergreen";
        if (!may)
        {
            return new Stage(s.Rosette && !s.HasBlades ? Math.Min(growth, .1) : growth, size, Head.None, false, false,
                0)
            { Turned = turned };
        }

        var head = Heads(s, half);
        if (head == Head.Open)
        {
            growth = 1;
        }

        return new Stage(Math.Max(.1, growth), size, head, false, false, Open(s, head, half)) { Turned = turned };
    }

    /// <summary>The hood first, by itself; then the leaves, which are tall when it has withered.</summary>
    private static Stage AtTheGround(Characters s, int half, double size, bool may)
    {
        var open = may && half >= s.BloomFrom && half <= s.BloomTo;
        var leaf = half < s.Emerges ? 0 : Math.Clamp((half - s.Emerges + .7) / 4, 0, 1);
        return half >= s.DiesBack || (half < s.Emerges && !open) ? new Stage(1, size, Head.None, true, true, 1)
            : new Stage(Math.Max(leaf, open ? s.InflorescenceLengthCm / s.HeightCm : .1), size, open ? Head.Open : Head.None, false, false,
            1);
    }

    private static Stage Woody(Characters s, int half, double size, bool may)
    {
        var bare = s.Winter != "evergreen" && (half < s.Emerges || half >= s.DiesBack);
        var head = !may ? Head.None : half >= s.BloomFrom - 1 ? Heads(s, half) : half < 4 ? Head.Winter : Head.None;
        if (half > 21 && head == Head.Ripe)
        {
            head = Head.Winter;
        }

        return new Stage(1, size, head, bare, false, Open(s, head, half));
    }

    private static Head Heads(Characters s, int half)
    {
        if (s.Inflorescence == "none")
        {
            return Head.None;
        }

        var head = half < s.BloomFrom - 1 ? Head.None
            : half < s.BloomFrom ? Head.Bud
            : half <= s.BloomTo ? Head.Open
            : half <= s.BloomTo + 2 ? Head.Green
            : Head.Ripe;
        // Plumes are blown away by midsummer.
        return s.SeedHead == "plumes" && half > s.BloomTo + 4 ? Head.Winter : head;
    }

    private static double Open(Characters s, Head head, int half) =>
        head == Head.Open ? Math.Clamp(.55 + ((half - s.BloomFrom) * .3), .4, 1) : 1;
}
