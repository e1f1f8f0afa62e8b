namespace CommonGround.Drawings.Strokes;

/// <summary>Half-width along a blade: t^a (1−t)^b, set to 1 at its widest.</summary>
/// <param name="A">How slowly it widens from the base; above 0.</param>
/// <param name="B">How early it narrows to the tip; above 0.</param>
/// <param name="Heart">How far a heart-shaped base reaches back, as a share of the length.</param>
/// <param name="Veins">n for a net with a rib, p for veins side by side.</param>
internal sealed record Profile(double A, double B, double Heart = 0, char Veins = 'n')
{
    private static readonly Dictionary<string, Profile> s_named = new(StringComparer.Ordinal)
    {
        ["linear"] = new(.22, .5, 0, 'p'),
        ["strap"] = new(.12, .35, 0, 'p'),
        ["lanceolate"] = new(.6, 1.1),
        ["elliptic"] = new(.8, .85),
        ["broad"] = new(.55, .8, 0, 'p'),
        ["ovate"] = new(.5, 1.15),
        ["cordate"] = new(.3, 1.1, .07),
        ["obovate"] = new(1.3, .6),
        ["spatulate"] = new(1.9, .5),
        ["oblong"] = new(.4, .45),
        ["petal"] = new(.8, .4),
        ["round"] = new(.5, .5),
        ["kidney"] = new(.4, .5, .12, 'p'),
        ["arrow"] = new(.25, 1.5, .16),
    };

    private static readonly Profile s_other = new(.7, .9);

    private readonly double top = Math.Pow(A / (A + B), A) * Math.Pow(B / (A + B), B);

    /// <summary>How far before the middle it is widest.</summary>
    public double Early => Math.Clamp(.5 - (A / (A + B)), -.3, .3) * 1.6;

    public static Profile Of(string name) => s_named.GetValueOrDefault(name, s_other);

    /// <param name="t">0 at the base, 1 at the tip.</param>
    public double At(double t) => Math.Pow(t, A) * Math.Pow(1 - t, B) / top;
}
