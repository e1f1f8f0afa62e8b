namespace CommonGround.Ecology.Tests.Published;

internal static class Near
{
    /// <summary>Equal to within a relative difference (and exactly null together).</summary>
    public static void ShouldBeNear(this double? actual, double? expected, double relative, string because)
    {
        (actual is null).ShouldBe(expected is null, because);
        if (actual is { } a && expected is { } e)
        {
            double.IsFinite(a).ShouldBeTrue(because);
            Math.Abs(a - e).ShouldBeLessThanOrEqualTo(relative * Math.Max(1e-300,
                Math.Max(Math.Abs(e), Math.Abs(a))), $"{because}: {a:R} against {e:R}");
        }
    }

    public static void ShouldBeNear(this double actual, double? expected, double relative, string because) =>
        ((double?)actual).ShouldBeNear(expected, relative, because);
}
