namespace CommonGround.Ecology.Sites;

/// <summary>Members listed by group in one array: group g holds Members[Starts[g]..Starts[g+1]].</summary>
internal sealed class Grouping
{
    private Grouping(int[] starts, int[] members)
    {
        Starts = starts;
        Members = members;
    }

    public int[] Starts { get; }

    public int[] Members { get; }

    public int Count => Starts.Length - 1;

    public ArraySegment<int> Of(int group)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(group);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(group, Count);
        return new(Members, Starts[group], Starts[group + 1] - Starts[group]);
    }

    /// <summary>Groups 0..n−1 by a key; within a group the given order is kept.</summary>
    public static Grouping By(int groups, IReadOnlyList<int> members, Func<int, int> groupOf)
    {
        var starts = new int[groups + 1];
        foreach (var member in members)
        {
            var group = groupOf(member);
            if ((uint)group >= (uint)groups)
            {
                throw new ArgumentException($"A place points to group {group}, but there are {groups}.", nameof(members));
            }

            starts[group + 1]++;
        }

        for (var g = 0; g < groups; g++)
        {
            starts[g + 1] += starts[g];
        }

        var next = (int[])starts.Clone();
        var listed = new int[members.Count];
        foreach (var member in members)
        {
            listed[next[groupOf(member)]++] = member;
        }

        return new(starts, listed);
    }

    /// <summary>Every member on its own.</summary>
    public static Grouping Each(int count) => new([.. Enumerable.Range(0, count + 1)], [.. Enumerable.Range(0, count)]);

    /// <summary>All members in one group, in the given order.</summary>
    public static Grouping All(int[] members) => new([0, members.Length], members);
}

/// <summary>Which yards belong to which block and street. Yards are listed by id, so sums do not depend on the order of rows.</summary>
internal sealed class SiteIndex
{
    private readonly long[] _ids;
    private readonly int[] _positions;

    private SiteIndex(long[] ids, int[] positions, Grouping yardsByBlock, Grouping blocksByStreet, Grouping yardsByStreet)
    {
        _ids = ids;
        _positions = positions;
        YardsByBlock = yardsByBlock;
        BlocksByStreet = blocksByStreet;
        YardsByStreet = yardsByStreet;
    }

    public Grouping YardsByBlock { get; }

    public Grouping BlocksByStreet { get; }

    public Grouping YardsByStreet { get; }

    public int? PositionOf(long yardId) => Array.BinarySearch(_ids, yardId) is >= 0 and var rank ? _positions[rank] : null;

    public static SiteIndex Of(CommunityMatrix matrix)
    {
        var rows = matrix.Rows;
        var order = new int[rows.Length];
        var ids = new long[rows.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            (ids[i], order[i]) = (rows[i].YardId, i);
        }

        Array.Sort(ids, order);
        for (var i = 1; i < ids.Length; i++)
        {
            if (ids[i] == ids[i - 1])
            {
                throw new ArgumentException($"Yard {ids[i]} has more than one row.", nameof(matrix));
            }
        }

        var yardsByBlock = Grouping.By(matrix.Blocks.Count, order, y => rows[y].Block);
        var blocksByStreet = Grouping.By(matrix.Streets.Count, [.. Enumerable.Range(0, matrix.Blocks.Count)], b => matrix.Blocks[b].Street);
        var yardsByStreet = Grouping.By(matrix.Streets.Count, yardsByBlock.Members, y => matrix.Blocks[rows[y].Block].Street);
        return new(ids, order, yardsByBlock, blocksByStreet, yardsByStreet);
    }
}
