using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Seeding;
using Google.OrTools.Sat;

namespace CommonGround.Planning.Conversion;

/// <summary>A taxon the model may choose, and the limits that would have to go first.</summary>
internal sealed record PoolTaxon(ConversionCandidate Candidate, IReadOnlyList<Limit> Barred);

/// <summary>
/// The mix as an integer program: whole thousandths of ground per taxon, a yes or no per taxon, whole plugs. All numbers are integers, so the
/// proof is exact and the answer the same on every machine.
/// </summary>
internal sealed class MixModel
{
    /// <summary>Money is counted in steps of this many to one.</summary>
    public const double MoneyScale = 1e5;

    /// <summary>Support per thousandth of ground is counted in steps of this many to one.</summary>
    public const double SupportScale = 1e4;

    private const long PlugScale = 1_000_000;
    private const int Whole = ConversionConvention.ShareSteps;

    private readonly ConversionRequest request;
    private readonly List<(Limit Limit, LinearExpr Amount)> penalties = [];

    /// <summary>Builds the program of the limits in <paramref name="hard"/> and, against a penalty, of those in <paramref name="soft"/>; other limits are off.</summary>
    public MixModel(
        ConversionRequest request, ConversionSurroundings surroundings, IEnumerable<PoolTaxon> pool, PriceTable prices, IReadOnlySet<Limit> hard, IReadOnlySet<Limit> soft)
    {
        this.request = request;
        Hard = hard;
        Soft = soft;
        Pool = [.. pool.Where(p => !p.Barred.Any(hard.Contains))];
        Chosen = [.. Pool.Select((_, i) => Model.NewBoolVar($"chosen{i}"))];
        Share = [.. Pool.Select((_, i) => Model.NewIntVar(0, Whole, $"share{i}"))];
        Model.Add(LinearExpr.Sum(Share) == Whole);
        SupportPerStep = [.. Pool.Select(p => SupportSteps(p.Candidate, request.Season, surroundings))];
        Support = LinearExpr.WeightedSum(Share, SupportPerStep);
        Cost = CostOf(prices);
        Covered = CoverHalfMonths();
        MixLimits.Add(this, request);
    }

    public CpModel Model { get; } = new();
    public IReadOnlyList<PoolTaxon> Pool { get; }
    public BoolVar[] Chosen { get; }
    public IntVar[] Share { get; }
    public IReadOnlySet<Limit> Hard { get; }
    public IReadOnlySet<Limit> Soft { get; }
    public IReadOnlyList<long> SupportPerStep { get; }
    public LinearExpr Support { get; }
    public LinearExpr Cost { get; }

    /// <summary>More than any mix can cost, in money steps.</summary>
    public long DearestMoney => (long)(((Pool.Max(p => (double?)p.Candidate.CostPerSquareMetre) ?? 0) * request.SquareMetres * 1.1 * MoneyScale) + (1e4 * MoneyScale));

    /// <summary>One per half-month of the season that enough suitable taxa could cover.</summary>
    public IReadOnlyList<BoolVar> Covered { get; }

    /// <summary>Σ of what the soft limits give way, each as a millionth of the limit.</summary>
    public LinearExpr Penalty => LinearExpr.Sum(penalties.Select(p => p.Amount));

    public void Punish(Limit limit, LinearExpr amount) => penalties.Add((limit, amount));

    /// <summary>Support of a thousandth of ground with the bonuses for what the street lacks, in steps.</summary>
    public static long SupportSteps(ConversionCandidate candidate, Season season, ConversionSurroundings surroundings) =>
        (long)Math.Round(Weight(candidate, season, surroundings) * SupportScale, MidpointRounding.AwayFromZero);

    /// <summary>v·(half-months in flower + bonus for each with too little on the street)·(bonus when new to the street).</summary>
    public static double Weight(ConversionCandidate candidate, Season season, ConversionSurroundings surroundings)
    {
        var taxon = candidate.Taxon;
        if (taxon.Bloom is not { } bloom || taxon.PollinatorValue is not { } value)
        {
            return 0;
        }

        var halves = Enumerable.Range(season.First, season.Last - season.First + 1).Where(bloom.Contains).ToList();
        var inGaps = halves.Count(t => surroundings.StreetInFlower[t] < season.Norm);
        var isNew = !surroundings.GrownOnStreet.Contains(taxon.ScientificName);
        return value * (halves.Count + (ConversionConvention.StreetGapBonus * inGaps)) * (isNew ? 1 + ConversionConvention.NewToStreetBonus : 1);
    }

    /// <summary>Seed by weight, plugs whole; both rounded up by less than a step, so that the money spent never passes the model's.</summary>
    private LinearExpr CostOf(PriceTable prices)
    {
        var terms = new List<LinearExpr>();
        for (var i = 0; i < Pool.Count; i++)
        {
            var candidate = Pool[i].Candidate;
            var groundPerStep = request.SquareMetres / Whole;
            if (candidate.As == PlantedAs.Seed)
            {
                terms.Add(LinearExpr.Term(Share[i], (long)Math.Ceiling(candidate.CostPerSquareMetre * groundPerStep * MoneyScale)));
                continue;
            }

            var perStep = (long)Math.Ceiling(PlugSpacing.Triangular(groundPerStep, candidate.Taxon.SpacingMetres!.Value) * PlugScale);
            var plugs = Model.NewIntVar(0, (perStep * Whole / PlugScale) + 1, $"plugs{i}");
            Model.Add(LinearExpr.Term(plugs, PlugScale) >= LinearExpr.Term(Share[i], perStep));
            terms.Add(LinearExpr.Term(plugs, (long)Math.Ceiling(Pricing.Unit(candidate.Taxon, PlantedAs.Plug, prices) * MoneyScale)));
        }

        return LinearExpr.Sum(terms);
    }

    private List<BoolVar> CoverHalfMonths()
    {
        var season = request.Season;
        var covered = new List<BoolVar>();
        for (var t = season.First; t <= season.Last; t++)
        {
            var flowering = Chosen.Where((_, i) => Pool[i].Candidate.Taxon.Bloom?.Contains(t) ?? false).ToList();
            if (flowering.Count < season.Norm)
            {
                continue;
            }

            var enough = Model.NewBoolVar($"covered{t}");
            Model.Add(LinearExpr.Sum(flowering) >= LinearExpr.Term(enough, season.Norm));
            covered.Add(enough);
        }

        return covered;
    }
}
