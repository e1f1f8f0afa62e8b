namespace CommonGround.Web.Features.Streets;

/// <summary>What a drawing alters of the stored streets: small enough to be kept on a device, and without the place of any yard that was
/// not touched.</summary>
/// <param name="Gone">Crossings, streets and blocks that are no longer drawn.</param>
public sealed record DrawnChange(IReadOnlyList<DrawnCrossing> Crossings, IReadOnlyList<DrawnStreet> Streets,
    IReadOnlyList<DrawnBlock> Blocks, IReadOnlyList<DrawnYard> Yards, IReadOnlyList<long> Gone, IReadOnlyDictionary<long, long> Heirs)
{
    public static DrawnChange Of(DrawnGround began, DrawnGround now)
    {
        ArgumentNullException.ThrowIfNull(began);
        ArgumentNullException.ThrowIfNull(now);
        // What a step leaves alone stays the same object, so that it is equal to itself.
        var (crossings, streets, blocks) = (began.Crossings.ToHashSet(), began.Streets.ToHashSet(), began.Blocks.ToHashSet());
        var left = now.Crossings.Select(c => c.Id).Concat(now.Streets.Select(s => s.Id)).Concat(now.Blocks.Select(b => b.Id)).ToHashSet();
        return new([.. now.Crossings.Where(c => !crossings.Contains(c))], [.. now.Streets.Where(s => !streets.Contains(s))],
            [.. now.Blocks.Where(b => !blocks.Contains(b))], [.. now.Yards.Where(y => y.IsChanged)],
            [.. began.Crossings.Select(c => c.Id).Concat(began.Streets.Select(s => s.Id)).Concat(began.Blocks.Select(b => b.Id))
                .Where(id => !left.Contains(id))], now.Heirs);
    }

    /// <summary>The drawing as it was left, over what is stored by now.</summary>
    public DrawnGround Over(DrawnGround stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        var crossings = Laid(stored.Crossings, Crossings, c => c.Id);
        var there = crossings.Select(c => c.Id).ToHashSet();
        // A block whose crossing somebody else moved away since is left as it is stored.
        var blocks = Laid(stored.Blocks, Blocks.Where(b => !b.IsLine || (there.Contains(b.From!.Value) && there.Contains(b.To!.Value))),
            b => b.Id);
        var standing = blocks.Select(b => b.Id).ToHashSet();
        return new DrawnGround(crossings, Laid(stored.Streets, Streets, s => s.Id), blocks,
            [.. Laid(stored.Yards, Yards, y => y.Id).Where(y => standing.Contains(y.BlockId) || y.Began is not null)], stored.Known, Heirs);
    }

    private List<T> Laid<T>(IReadOnlyList<T> stored, IEnumerable<T> kept, Func<T, long> id)
    {
        var (own, gone) = (kept.ToDictionary(id), Gone.ToHashSet());
        var known = stored.Select(id).ToHashSet();
        return [.. stored.Where(s => !gone.Contains(id(s))).Select(s => own.GetValueOrDefault(id(s)) ?? s),
            .. own.Values.Where(o => !known.Contains(id(o)))];
    }
}
