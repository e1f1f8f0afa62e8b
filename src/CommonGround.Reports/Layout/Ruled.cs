namespace CommonGround.Reports.Layout;

/// <summary>Empty lines to write on.</summary>
internal static class Ruled
{
    private const double Leading = 22;

    /// <param name="width">Of the lines, points.</param>
    /// <param name="height">Room; as many lines as fit.</param>
    public static Flow Lines(double width, double height)
    {
        var lines = Math.Max(1, (int)(height / Leading));
        return new Flow([new Slice(lines * Leading, (pen, y) => pen.Artifact(() =>
        {
            for (var i = 1; i <= lines; i++)
            {
                pen.Rule(Ink.RuleStrong, 0.5, 0, width, y + (i * Leading) - 1);
            }
        }))]);
    }
}
