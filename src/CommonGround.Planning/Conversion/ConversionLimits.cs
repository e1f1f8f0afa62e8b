namespace CommonGround.Planning.Conversion;

/// <summary>A group of limits a household may loosen; the ground itself (light, moisture, size) is none.</summary>
internal enum LimitKind { Budget, LeastGrass, MostGrass, MostShareOfOne, FewestTaxa, MostTaxa, Height, KeepToxicOut, Never, Look, Method, MustHave, Lock }

/// <summary>One limit; <paramref name="Name"/> is a taxon's for must-haves and locks, else empty.</summary>
internal readonly record struct Limit(LimitKind Kind, string Name = "");

/// <summary>Conventions of the planner that are our own, in one place.</summary>
public static class ConversionConvention
{
    /// <summary>Native taxa with a lower C come in by themselves; only a must-have brings them in.</summary>
    public const double LowestC = GapFilling.GapSuggestions.LowestC;

    /// <summary>From this C on seed rarely comes up in a new bed; <see cref="Method.Mixed"/> takes plugs where their spacing is known. Common practice; the border is ours.</summary>
    public const double PlugFromC = 8;

    /// <summary>Steps in which ground is shared out: a thousandth.</summary>
    public const int ShareSteps = 1000;

    /// <summary>Least share of a chosen taxon, thousandths; more in an ordered planting, so that groups are seen.</summary>
    public const int LeastShareSteps = 10;
    public const int OrderedLeastShareSteps = 40;

    /// <summary>An ordered planting has at most so many taxa, none of them taller than so many metres.</summary>
    public const int OrderedMostTaxa = 12;
    public const double OrderedTallestMetres = 1.2;

    /// <summary>An edge-friendly planting keeps at least half of the ground at or below 0.9 m.</summary>
    public const int EdgeLowShareSteps = 500;
    public const double EdgeLowMetres = 0.9;

    /// <summary>A half-month in which the street is below the norm counts one and a half times.</summary>
    public const double StreetGapBonus = 0.5;

    /// <summary>A taxon that grows nowhere on the street counts a quarter more.</summary>
    public const double NewToStreetBonus = 0.25;

    /// <summary>Steepness, percent, from which the most seed is sown instead of the fewest; in proportion below. Common practice; the border is ours.</summary>
    public const double SteepPercent = 33;

    /// <summary>Pure live seeds per m² that are sown: the fewest on flat ground, the most on steep ground.</summary>
    public static double SownSeedsPerSquareMetre(ConversionRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var steep = Math.Clamp(request.SlopePercent / SteepPercent, 0, 1);
        return request.FewestSeedsPerSquareMetre + ((request.MostSeedsPerSquareMetre - request.FewestSeedsPerSquareMetre) * steep);
    }
}
