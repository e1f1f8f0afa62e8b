using Google.OrTools.Sat;

namespace CommonGround.Planning.Conversion;

/// <summary>Writes the household's limits into the program: firm, or against a penalty of how far they give way.</summary>
internal static class MixLimits
{
    private const int Whole = ConversionConvention.ShareSteps;

    /// <summary>Penalty of giving a limit up altogether; a half is giving half of it way.</summary>
    private const long Full = 1_000_000;

    /// <summary>A height limit is mostly law: it gives way only when nothing else does.</summary>
    private const long HeightWeight = 20;

    /// <summary>Every limit a request sets.</summary>
    public static IReadOnlyList<Limit> Of(ConversionRequest request)
    {
        var limits = new List<Limit>();
        void When(bool holds, LimitKind kind)
        {
            if (holds) limits.Add(new(kind));
        }

        // The order is that in which a conflict's limits are given up while looking for the smallest set: what is dear to people comes last.
        When(request.FewestTaxa > 1, LimitKind.FewestTaxa);
        When(true, LimitKind.MostTaxa);
        When(request.MostShareOfOne < 1, LimitKind.MostShareOfOne);
        When(request.LeastGrassShare > 0, LimitKind.LeastGrass);
        When(request.MostGrassShare < 1, LimitKind.MostGrass);
        When(request.Look != Look.Naturalistic, LimitKind.Look);
        When(request.Method != Method.Mixed, LimitKind.Method);
        When(request.Never.Count > 0, LimitKind.Never);
        limits.AddRange(request.LockedShares.Keys.Order(StringComparer.Ordinal).Select(n => new Limit(LimitKind.Lock, n)));
        limits.AddRange(request.MustHave.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).Select(n => new Limit(LimitKind.MustHave, n)));
        When(request.KeepToxicOut, LimitKind.KeepToxicOut);
        When(request.TallestMetres is not null, LimitKind.Height);
        When(request.Budget is not null, LimitKind.Budget);
        return limits;
    }

    public static void Add(MixModel mix, ConversionRequest request)
    {
        var model = mix.Model;
        var count = LinearExpr.Sum(mix.Chosen);
        var grass = LinearExpr.Sum(mix.Share.Where((_, i) => mix.Pool[i].Candidate.IsGrass));
        AtMost(mix, LimitKind.Budget, mix.Cost, (long)Math.Floor((request.Budget ?? 0) * MixModel.MoneyScale), mix.DearestMoney);
        AtMost(mix, LimitKind.MostGrass, grass, Steps.Most(request.MostGrassShare), Whole);
        AtMost(mix, LimitKind.MostTaxa, count, request.MostTaxa, mix.Pool.Count);
        AtLeast(mix, LimitKind.LeastGrass, grass, Steps.Least(request.LeastGrassShare));
        AtLeast(mix, LimitKind.FewestTaxa, count, request.FewestTaxa);
        var plain = Yielding(mix, LimitKind.Look);
        AddLook(mix, request, plain, count);
        AddShares(mix, request, plain);
        foreach (var name in request.MustHave.Distinct(StringComparer.Ordinal))
        {
            Enforce(mix, new(LimitKind.MustHave, name), model.Add(Sum(mix.Chosen, mix, name) == 1));
        }

        foreach (var (name, share) in request.LockedShares)
        {
            Enforce(mix, new(LimitKind.Lock, name), model.Add(Sum(mix.Share, mix, name) == Steps.Exact(share)));
        }

        AddBarred(mix, request, plain);
    }

    private static void AddLook(MixModel mix, ConversionRequest request, BoolVar? plain, LinearExpr count)
    {
        if (request.Look == Look.Naturalistic || !On(mix, new(LimitKind.Look)))
        {
            return;
        }

        var low = mix.Share.Where((_, i) => mix.Pool[i].Candidate.Taxon.HeightMaxMetres <= ConversionConvention.EdgeLowMetres);
        var rule = request.Look == Look.Ordered
            ? mix.Model.Add(count <= ConversionConvention.OrderedMostTaxa)
            : mix.Model.Add(LinearExpr.Sum(low) >= ConversionConvention.EdgeLowShareSteps);
        UnlessYielding(rule, plain);
    }

    private static void AddShares(MixModel mix, ConversionRequest request, BoolVar? plain)
    {
        var capLimit = new Limit(LimitKind.MostShareOfOne);
        var firm = mix.Hard.Contains(capLimit) ? Steps.Most(request.MostShareOfOne) : Whole;
        IntVar? cap = null;
        if (mix.Soft.Contains(capLimit))
        {
            var least = Steps.Most(request.MostShareOfOne);
            cap = mix.Model.NewIntVar(least, Whole, "cap");
            mix.Punish(capLimit, (cap - least) * (Full / Math.Max(1, least)));
        }

        for (var i = 0; i < mix.Pool.Count; i++)
        {
            var (share, chosen) = (mix.Share[i], mix.Chosen[i]);
            // A firm lock says the share itself, also where it is smaller than the least share.
            var locked = On(mix, new(LimitKind.Lock, mix.Pool[i].Candidate.Taxon.ScientificName));
            mix.Model.Add(share <= LinearExpr.Term(chosen, firm));
            mix.Model.Add(share >= LinearExpr.Term(chosen, locked ? 1 : ConversionConvention.LeastShareSteps));
            if (cap is not null)
            {
                mix.Model.Add(share <= cap);
            }

            if (request.Look == Look.Ordered && !locked && On(mix, new(LimitKind.Look)))
            {
                UnlessYielding(mix.Model.Add(share >= LinearExpr.Term(chosen, ConversionConvention.OrderedLeastShareSteps)), plain);
            }
        }
    }

    /// <summary>A taxon barred by a soft limit may be chosen at that limit's price.</summary>
    private static void AddBarred(MixModel mix, ConversionRequest request, BoolVar? look)
    {
        var method = Yielding(mix, LimitKind.Method);
        IntVar? height = null;
        var limit = Millimetres(request.TallestMetres ?? 0);
        if (mix.Soft.Contains(new(LimitKind.Height)))
        {
            height = mix.Model.NewIntVar(limit, 100_000, "tallest");
            mix.Punish(new(LimitKind.Height), (height - limit) * (HeightWeight * Full / Math.Max(1, limit)));
        }

        for (var i = 0; i < mix.Pool.Count; i++)
        {
            foreach (var barred in mix.Pool[i].Barred.Where(mix.Soft.Contains))
            {
                switch (barred.Kind)
                {
                    case LimitKind.Method when method is not null: mix.Model.AddImplication(mix.Chosen[i], method); break;
                    case LimitKind.Look when look is not null: mix.Model.AddImplication(mix.Chosen[i], look); break;
                    case LimitKind.Height when height is not null && mix.Pool[i].Candidate.Taxon.HeightMaxMetres is { } tall:
                        mix.Model.Add(height >= Millimetres(tall)).OnlyEnforceIf(mix.Chosen[i]);
                        break;
                    case LimitKind.Never: mix.Punish(barred, LinearExpr.Term(mix.Chosen[i], Full)); break;
                    default: mix.Model.Add(mix.Chosen[i] == 0); break;
                }
            }
        }
    }

    public static long Millimetres(double metres) => (long)Math.Ceiling((metres * 1000) - 1e-6);

    private static bool On(MixModel mix, Limit limit) => mix.Hard.Contains(limit) || mix.Soft.Contains(limit);

    /// <summary>True when a soft yes-or-no limit is given up; null when it is not soft.</summary>
    private static BoolVar? Yielding(MixModel mix, LimitKind kind, string name = "")
    {
        var limit = new Limit(kind, name);
        if (!mix.Soft.Contains(limit))
        {
            return null;
        }

        var yields = mix.Model.NewBoolVar($"without{kind}{name}");
        mix.Punish(limit, LinearExpr.Term(yields, kind == LimitKind.MustHave ? Full : Full / 2));
        return yields;
    }

    private static void Enforce(MixModel mix, Limit limit, Constraint constraint)
    {
        // An unnamed literal that is false switches the constraint off where the limit is off.
        if (!On(mix, limit)) constraint.OnlyEnforceIf(mix.Model.FalseLiteral());
        else UnlessYielding(constraint, Yielding(mix, limit.Kind, limit.Name));
    }

    private static void UnlessYielding(Constraint constraint, BoolVar? yields)
    {
        if (yields is not null) constraint.OnlyEnforceIf(yields.Not());
    }

    private static void AtMost(MixModel mix, LimitKind kind, LinearExpr amount, long most, long widest)
    {
        var limit = new Limit(kind);
        if (mix.Hard.Contains(limit)) mix.Model.Add(amount <= most);
        if (!mix.Soft.Contains(limit)) return;
        var over = mix.Model.NewIntVar(0, widest, "over" + kind);
        mix.Model.Add(amount <= most + over);
        mix.Punish(limit, Relative(mix, over, most, widest));
    }

    private static void AtLeast(MixModel mix, LimitKind kind, LinearExpr amount, long least)
    {
        var limit = new Limit(kind);
        if (mix.Hard.Contains(limit)) mix.Model.Add(amount >= least);
        if (!mix.Soft.Contains(limit)) return;
        var under = mix.Model.NewIntVar(0, least, "under" + kind);
        mix.Model.Add(amount >= least - under);
        mix.Punish(limit, Relative(mix, under, least, least));
    }

    /// <summary>Millionths of the limit, rounded up.</summary>
    private static LinearExpr Relative(MixModel mix, IntVar amount, long of, long widest)
    {
        if (of is > 0 and <= Full)
        {
            return LinearExpr.Term(amount, (Full / of) + 1);
        }

        var divisor = Math.Max(1, of / Full);
        var millionths = mix.Model.NewIntVar(0, (widest / divisor) + 1, "millionths");
        mix.Model.Add(LinearExpr.Term(millionths, divisor) >= amount);
        return millionths;
    }

    private static LinearExpr Sum(IEnumerable<IntVar> variables, MixModel mix, string name) =>
        LinearExpr.Sum(variables.Where((_, i) => string.Equals(mix.Pool[i].Candidate.Taxon.ScientificName, name, StringComparison.Ordinal)));
}

/// <summary>Shares in whole thousandths; a thousand-millionth either way is rounding.</summary>
internal static class Steps
{
    public static int Most(double share) => (int)Math.Floor((share * ConversionConvention.ShareSteps) + 1e-6);

    public static int Least(double share) => (int)Math.Ceiling((share * ConversionConvention.ShareSteps) - 1e-6);

    public static int Exact(double share) => (int)Math.Round(share * ConversionConvention.ShareSteps);
}
