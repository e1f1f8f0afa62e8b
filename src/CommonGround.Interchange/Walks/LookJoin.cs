using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Walks;

/// <summary>One statement about a planting on a day: a walker's tap, or what the record itself was changed to in between.</summary>
/// <param name="Person">Who said it; null for the program and for people without a row.</param>
/// <param name="AtUtc">When, by the corrected clock.</param>
/// <param name="AtDesk">Said on a page of the site, by somebody who had the record before them: their remark takes the place of those
/// before it.</param>
public sealed record LookStatement(Guid Id, long? Person, DateTime AtUtc, LookSaid Said, IReadOnlyList<Guid> Over,
    IReadOnlyList<Guid> Settles, bool AtDesk = false);

/// <summary>Something that two people said differently of one planting on one day.</summary>
/// <param name="Sides">Each person's statements that disagree, in the order they were said.</param>
public sealed record LookDispute(IReadOnlyList<(long? Person, LookSaid Said, IReadOnlyList<Guid> Ids)> Sides);

/// <summary>
/// Joins what several phones and the desk said of one planting on one day. What is kept is the set of statements; joining two sets is their
/// union, so the order in which they come, and how often, changes nothing: a join-semilattice (Shapiro and others 2011, "Conflict-free
/// replicated data types", a grow-only set of which the value is a function). Of each field the statement said last holds; a statement that
/// was taken back says nothing.
/// </summary>
public static class LookJoin
{
    private static readonly (string Name, Func<LookSaid, object?> Of)[] Fields =
    [
        ("finding", s => s.Finding), ("cover", s => s.CoverSquareMetres is null && s.Count is null ? null
            : (s.CoverSquareMetres, s.Count)), ("stage", s => s.GrowthStage),
        ("certainty", s => s.Certainty), ("qualifier", s => s.Qualifier), ("origin", s => s.Origin), ("place", s => s.Place),
            ("seed", s => s.SeedCollectedGrams),
    ];

    /// <summary>Everything that holds of what was said; null fields were said by nobody.</summary>
    public static LookSaid Said(IEnumerable<LookStatement> statements)
    {
        var said = new LookSaid();
        foreach (var s in Standing(statements).Select(s => s.Said))
        {
            said = Over(said, s);
        }

        return said with { Remark = Remarks(Standing(statements)) };
    }

    /// <summary>What different people said differently and nobody chose between; null where there is nothing of the kind.</summary>
    public static LookDispute? Dispute(IEnumerable<LookStatement> statements)
    {
        var all = statements.ToList();
        var settled = all.SelectMany(s => s.Settles).ToHashSet();
        var open = Standing(all).Where(s => !settled.Contains(s.Id)).ToList();
        var people = open.GroupBy(s => s.Person).Select(g => (Person: g.Key, Said: g.Aggregate(new LookSaid(), (a, s) => Over(a, s.Said)),
            Ids: (IReadOnlyList<Guid>)[.. g.Select(s => s.Id)])).ToList();
        var disputed = Fields.Where(f => people.Select(p => f.Of(p.Said)).Where(v => v is not null).Distinct().Count() > 1).ToList();
        return disputed.Count == 0 ? null : new([.. people.Where(p => disputed.Exists(f => f.Of(p.Said) is not null))]);
    }

    /// <summary>Each once, without those that were taken back, in the order they were said.</summary>
    private static List<LookStatement> Standing(IEnumerable<LookStatement> statements)
    {
        var each = statements.DistinctBy(s => s.Id).ToList();
        var back = each.SelectMany(s => s.Over).ToHashSet();
        return [.. each.Where(s => !back.Contains(s.Id)).OrderBy(s => s.AtUtc).ThenBy(s => s.Id)];
    }

    private static LookSaid Over(LookSaid first, LookSaid then)
    {
        var amount = then.CoverSquareMetres is not null || then.Count is not null ? then : first;
        return first with
        {
            Finding = then.Finding ?? first.Finding,
            CoverSquareMetres = amount.CoverSquareMetres,
            Count = amount.Count,
            CoverDerived = amount.CoverDerived,
            GrowthStage = then.NoStage ? null : then.GrowthStage ?? first.GrowthStage,
            Certainty = then.Certainty ?? first.Certainty,
            Qualifier = then.Qualifier ?? (then.Certainty == Certainty.Certain ? "" : first.Qualifier),
            Origin = then.Origin ?? first.Origin,
            Place = then.Place ?? first.Place,
            SeedCollectedGrams = then.NoSeed ? null : then.SeedCollectedGrams ?? first.SeedCollectedGrams,
            VerifiedBy = then.VerifiedBy ?? first.VerifiedBy,
        };
    }

    /// <summary>A person's later remark takes the place of their earlier one; those of different people stand one after the
    /// other.</summary>
    private static string? Remarks(List<LookStatement> standing)
    {
        var desk = standing.FindLastIndex(s => s is { AtDesk: true, Said.Remark: not null });
        var each = standing.Skip(Math.Max(0, desk)).Where(s => s.Said.Remark is not null).GroupBy(s => s.Person).Select(g => g.Last())
            .OrderBy(s => s.AtUtc).ThenBy(s => s.Id).Select(s => s.Said.Remark!.Trim())
            .Where(r => r.Length > 0).Distinct(StringComparer.Ordinal).ToList();
        return each.Count > 0 ? string.Join("; ", each) : standing.Exists(s => s.Said.Remark is not null) ? "" : null;
    }
}
