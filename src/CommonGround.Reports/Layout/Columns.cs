namespace CommonGround.Reports.Layout;

/// <summary>Two columns that stand beside each other and are never split.</summary>
internal static class Columns
{
    public const double Gap = 26;

    /// <summary>Lays what is given beside each other, tops level; read out left, then right.</summary>
    /// <param name="left">Made for the first width.</param>
    /// <param name="leftWidth">Points; the right column begins a gap after it.</param>
    /// <param name="right">Made for what is left.</param>
    public static Flow Lay(IReadOnlyList<Flow> left, double leftWidth, IReadOnlyList<Flow> right)
    {
        return new Flow([new Slice(Math.Max(Height(left), Height(right)), (pen, y) =>
        {
            Draw(pen, left, y);
            Draw(pen.At(leftWidth + Gap), right, y);
        })])
        { SpaceBefore = left[0].SpaceBefore };
    }

    private static double Height(IReadOnlyList<Flow> flows) => flows.Sum(f => f.Height) + flows.Skip(1).Sum(f => f.SpaceBefore);

    private static void Draw(Pen pen, IReadOnlyList<Flow> flows, double top)
    {
        var y = top;
        for (var i = 0; i < flows.Count; i++)
        {
            y += i == 0 ? 0 : flows[i].SpaceBefore;
            flows[i].Open?.Invoke(pen);
            foreach (var slice in flows[i].Slices)
            {
                slice.Draw(pen, y);
                y += slice.Height;
            }

            if (flows[i].Open is not null)
            {
                pen.Close();
            }
        }
    }
}
