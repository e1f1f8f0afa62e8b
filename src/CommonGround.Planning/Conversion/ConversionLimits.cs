namespace CommonGround.Planning.Conversion;

/// <summary>A kind of limit; the ground itself (light, moisture, size) is none.</summary>
internal enum LimitKind
{
    Guild, MostTaxa, FewestTaxa, MostShareOfOne, LeastGrass, MostGrass, Look, Method, Lock, MustHave, Never, Budget,
    KeepToxicOut, Height
}

/// <summary>One limit; <paramref name="Name"/> is a taxon's for must-haves and locks, the rule in words for guilds, else empty.</summary>
internal readonly record struct Limit(LimitKind Kind, string Name = "");

/// <summary>Conventions of the planner that are our own, in one place.</summary>
public static class ConversionConvention
{
    /// <summary>No taxon of an ordered planting is taller than so many metres.</summary>
    public const double OrderedTallestMetres = 1.2;

    /// <summary>An edge-friendly planting keeps at least half of seeds and plugs at or below 0.9 m.</summary>
    public const double EdgeLowShare = 0.5;
    public const double EdgeLowMetres = 0.9;

    /// <summary>Nothing in a planted band along a walk is taller.</summary>
    public const double BandTallestMetres = 0.9;
}
