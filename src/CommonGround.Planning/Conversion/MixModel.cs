using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>A candidate and its variables in the program.</summary>
internal sealed class MixTaxon(ConversionCandidate candidate)
{
    public ConversionCandidate Candidate { get; } = candidate;
    public CatalogueTaxon Taxon => Candidate.Taxon;
    public MixTraits Traits => Candidate.Traits;
    public string Name => Taxon.ScientificName;
    public bool IsGrass => Traits.IsGrass;

    /// <summary>Chosen; sown; planted as plugs: 0 or 1. Sown and planted may both hold.</summary>
    public int Chosen { get; set; }
    public int Sown { get; set; }
    public int Planted { get; set; }

    /// <summary>Hundredths of a live seed per square foot; plugs; cents for its seed.</summary>
    public int Seeds { get; set; }
    public int Plugs { get; set; }
    public int Pay { get; set; } = -1;
    public bool CanBeSown { get; set; }
    public bool CanBePlanted { get; set; }

    /// <summary>Most that may be sown, same unit as <see cref="Seeds"/>; what a hand would sow of it; usual number of plugs.</summary>
    public double MostSeeds { get; set; }
    public double UsualSeeds { get; set; }
    public int UsualPlugs { get; set; }
}

/// <summary>The mix as a program of whole numbers: what is chosen, how much is sown, how many plugs, what it costs.</summary>
internal sealed class MixModel
{
    public const int Cents = 100;

    private readonly List<string> waived = [];

    public MixModel(MixSite site, ConversionCandidates candidates, ConversionSurroundings surroundings, PriceTable prices)
    {
        Site = site;
        Surroundings = surroundings;
        Prices = prices;
        Pool = [.. candidates.Suitable.Select(c => new MixTaxon(c))];
        foreach (var taxon in Pool)
        {
            AddVariables(taxon);
        }

        if (site.Rate > 0) SeedRules.Add(this);
        if (site.Plugs > 0) PlugRules.Add(this);
        TaxaRules.Add(this);
        MixMoney.Add(this);
        MixAims.Add(this);
        LockAmounts();
    }

    public LinearModel Linear { get; } = new();
    public MixSite Site { get; }
    public ConversionSurroundings Surroundings { get; }
    public PriceTable Prices { get; }
    public IReadOnlyList<MixTaxon> Pool { get; }

    /// <summary>Plugs that are short of the usual number; −1 where all ground is planted or none.</summary>
    public int Short { get; set; } = -1;

    /// <summary>1 where there is a planted band; −1 where the ground has none, or nothing else.</summary>
    public int Band { get; set; } = -1;

    /// <summary>What the mix costs, in cents.</summary>
    public List<Term> Cost { get; } = [];

    /// <summary>Guilds that too little suits for, in words.</summary>
    public IReadOnlyList<string> Waived => waived;

    /// <summary>Says of which guild too little suits.</summary>
    public void Waive(int suited, int fewest, string guild) => waived.Add(suited == 0
        ? $"Done without {guild}: none suit this ground and these limits."
        : $"Only {suited} of {fewest} {guild}: no more suit this ground and these limits.");

    /// <summary>Says that hardly as many taxa suit as ground of this size wants.</summary>
    public void WaiveTaxa(int suited) =>
        waived.Add($"Few taxa suit this ground and these limits, {suited} in all: the mix may have fewer than ground of this size wants.");

    public bool Locks(MixTaxon taxon) => Site.Request.LockedAmounts.ContainsKey(taxon.Name);

    /// <summary>1·variable for every taxon that passes a test.</summary>
    public List<Term> Sum(Func<MixTaxon, int> variable, Func<MixTaxon, bool>? test = null) =>
        [.. Pool.Where(t => test?.Invoke(t) ?? true).Select(t => new Term(variable(t), 1))];

    /// <summary>Share of all seeds (or plugs) that pass a test lies within bounds: Σ passing − bound·Σ all.</summary>
    public void Share(Func<MixTaxon, int> variable, Func<MixTaxon, bool> test, double least, double most)
    {
        Term Of(MixTaxon t, double bound) => new(variable(t), (test(t) ? 1000 : 0) - (long)Math.Round(1000 * bound));
        if (least > 0) Linear.AtLeast(Pool.Select(t => Of(t, least)), 0);
        if (most < 1) Linear.AtMost(Pool.Select(t => Of(t, most)), 0);
    }

    /// <summary>At least so many taxa of a guild, but no more than suit and are to be had; what is left of the guild is said where it is
    /// none.</summary>
    public void AtLeastTaxa(Func<MixTaxon, bool> test, int fewest, string guild)
    {
        var suited = Pool.Count(t => test(t) && t.Traits.Trade == Trade.Usual && Linear.Most(t.Chosen) > 0);
        if (suited < fewest) Waive(suited, fewest, guild);
        Linear.Now = new(LimitKind.Guild, $"at least {Math.Min(fewest, suited)} {guild}");
        if (Math.Min(fewest, suited) > 0) Linear.AtLeast(Sum(t => t.Chosen, test), Math.Min(fewest, suited));
        Linear.Now = null;
    }

    public void AtMostTaxa(Func<MixTaxon, bool> test, int most, string guild)
    {
        Linear.Now = new(LimitKind.Guild, most == 0 ? $"no {guild}" : $"at most {most} {guild}");
        // Whoever asks for more by name gets more.
        Linear.AtMost(Sum(t => t.Chosen, test), Math.Max(most, Pool.Count(t => t.Candidate.MustHave && test(t))));
        Linear.Now = null;
    }

    private void AddVariables(MixTaxon t)
    {
        var (site, linear, traits) = (Site, Linear, t.Traits);
        var cap = traits.MostSeedsPerSquareFoot * MixSite.RateSteps;
        // Fewer taxa, more of each; on slopes, and where a limit bars little bluestem, more of the rest.
        if (!t.IsGrass && traits.FromSeed == FromSeed.Easy && !traits.IsAggressive)
            cap *= site.SquareMetres < 100 ? 1.5 : site.SquareMetres < 300 ? 1.2 : 1;
        if (site.Steep || (t.IsGrass && site.Tallest < 1.1)) cap *= 1.5;
        t.CanBeSown = site.Rate > 0 && t.Taxon.SeedsPerGram is not null && (traits.FromSeed is FromSeed.Easy or FromSeed.Slow) && cap > 0
            && traits.Role != MixRole.Woody;
        t.CanBePlanted = site.Plugs > 0 && ((t.Candidate.MustHave && !t.CanBeSown)
            || (MayBePlugged(t) && traits.Role != MixRole.Filler && traits.Longevity != Longevity.AnnualBiennial));
        t.Chosen = linear.Variable(t.CanBeSown || t.CanBePlanted ? 1 : 0);
        t.Seeds = linear.Variable(t.CanBeSown ? site.Rate : 0);
        t.Plugs = linear.Variable(t.CanBePlanted ? site.Plugs : 0);
        t.Sown = linear.Variable(t.CanBeSown ? 1 : 0);
        t.Planted = linear.Variable(t.CanBePlanted ? 1 : 0);
        linear.Between([new(t.Sown, 1), new(t.Planted, 1), new(t.Chosen, -1)], 0, 1);
        linear.AtLeast([new(t.Chosen, 1), new(t.Sown, -1)], 0);
        linear.AtLeast([new(t.Chosen, 1), new(t.Planted, -1)], 0);
        if (t.CanBeSown) SeedRules.Bound(this, t, cap);
        if (t.CanBePlanted) PlugRules.Bound(this, t);
    }

    private bool MayBePlugged(MixTaxon t)
    {
        if (Site.Method == Method.Plugs || Site.Rate == 0) return true;
        if (Site.Kind != SiteKind.Shade && !Site.Wettish) return (t.Candidate.Tallest ?? 9) <= ConversionConvention.BandTallestMetres;
        var traits = t.Traits;
        return traits.FromSeed == FromSeed.NeedsPlugs || (traits.FromSeed == FromSeed.Slow && !traits.IsAggressive)
            || t.Taxon.SeedsPerGram is null || traits.Role is MixRole.MatrixLow or MixRole.WetMatrix;
    }

    private void LockAmounts()
    {
        foreach (var t in Pool.Where(Locks))
        {
            var amount = Site.Request.LockedAmounts[t.Name];
            Linear.Now = new(LimitKind.Lock, t.Name);
            Linear.Between([new(t.Seeds, 1)], MixSite.Steps(amount.SeedsPerSquareMetre), MixSite.Steps(amount.SeedsPerSquareMetre));
            Linear.Between([new(t.Plugs, 1)], amount.Plugs, amount.Plugs);
            Linear.Now = null;
        }
    }
}
