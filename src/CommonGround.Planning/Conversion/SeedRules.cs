using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How much is sown: rates, ceilings, and shares of all seeds by role and habit. See docs/measures.md#mix.</summary>
internal static class SeedRules
{
    private const double FineSeedsPerGram = 10_000;

    /// <summary>Least and most share of all seeds by kind of ground: grasses together, bunchgrass, cool-season, low matrix, wet matrix,
    /// legumes.</summary>
    private static readonly Dictionary<SiteKind, (double Least, double Most)[]> Guilds = new()
    {
        [SiteKind.SunDry] = [(0.40, 0.52), (0.25, 0.42), (0.02, 0.12), (0.03, 0.12), (0, 0), (0.06, 0.18)],
        [SiteKind.SunMedium] = [(0.40, 0.52), (0.22, 0.38), (0.02, 0.08), (0.03, 0.12), (0, 0), (0.05, 0.15)],
        [SiteKind.SunMoist] = [(0.40, 0.60), (0, 0.25), (0.03, 0.12), (0, 0.20), (0.05, 0.35), (0.01, 0.10)],
        [SiteKind.SunWet] = [(0.40, 0.60), (0, 0), (0.03, 0.15), (0, 0.10), (0.25, 0.50), (0, 0.05)],
        [SiteKind.PartShade] = [(0.35, 0.60), (0, 0.20), (0.12, 0.35), (0.03, 0.20), (0, 0), (0, 0.10)],
        [SiteKind.Shade] = [(0.40, 0.75), (0, 0), (0.15, 0.75), (0, 0.30), (0, 0), (0, 0.05)],
    };

    private static readonly (string Words, Func<MixTaxon, bool> Is)[] Parts =
    [
        ("grasses and sedges", t => t.IsGrass), ("bunchgrass", t => t.Traits.Role == MixRole.WarmBunch),
            ("cool-season grass", t => t.Traits.Role == MixRole.CoolSeason),
        ("low sedges and grasses", t => t.Traits.Role == MixRole.MatrixLow),
            ("wet sedges and rushes", t => t.Traits.Role == MixRole.WetMatrix), ("legumes", t => t.Traits.Role == MixRole.Legume),
    ];

    /// <summary>Bounds of one taxon: its ceiling, its share, and no traces.</summary>
    public static void Bound(MixModel mix, MixTaxon t, double cap)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        var share = t.Traits.Role == MixRole.WarmBunch ? site.Steep || site.Kind == SiteKind.SunDry ? 0.25 : 0.20 : t.IsGrass ? 0.12 : 0.05;
        var most = Math.Min(cap, site.Rate * share);
        if (t.Traits.Role == MixRole.Filler || (t.Traits.IsAggressive && !t.IsGrass))
            most = Math.Min(most, (site.Sun ? site.LeastRate : site.Rate) * 0.02);
        var least = Math.Min(most, Math.Max(3, (Nurse.IsQuick(t.Name) ? 0.4 : 0.15) * most));
        if (!mix.Locks(t))
        {
            linear.AtMost([new(t.Seeds, 1), new(t.Sown, -(long)most)], 0);
            linear.AtLeast([new(t.Seeds, 1), new(t.Sown, -(long)least)], 0);
        }
        else
        {
            linear.AtMost([new(t.Seeds, 1), new(t.Sown, -site.Rate)], 0);
            linear.AtLeast([new(t.Seeds, 1), new(t.Sown, -1)], 0);
        }

        (t.MostSeeds, t.UsualSeeds) = (most, Math.Max(1, 0.6 * most));
    }

    public static void Add(MixModel mix)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        linear.Now =
            new(LimitKind.Guild, $"{site.LeastRate / MixSite.RateSteps:0} to {site.Rate / MixSite.RateSteps:0} live seeds on a square "
            + $"foot");
        linear.Between(mix.Sum(t => t.Seeds), site.LeastRate, site.Rate);
        linear.Now = null;
        foreach (var ((words, test), (least, most)) in Parts.Zip(Guilds[site.Kind]))
        {
            // No more is asked for than four fifths of what the ceilings of suitable taxa allow.
            var possible = Math.Min(least, 0.8 * mix.Pool.Where(t => t.CanBeSown && test(t)).Sum(t => t.MostSeeds) / site.Rate);
            Guild(mix, words, test, possible, most);
        }

        var wettish = site.Wettish;
        Guild(mix, "tall grasses", t => t.Traits.Role == MixRole.WarmTall, 0, 0.05);
        Guild(mix, "tall flowers", t => t.Traits.Role == MixRole.Structural, 0, wettish ? 0.30 : 0.15);
        Guild(mix, "fillers", t => t.Traits.Role == MixRole.Filler, 0, 0.04);
        Guild(mix, "annuals and biennials", t => t.Traits.Longevity == Longevity.AnnualBiennial, 0, 0.05);
        Guild(mix, "flowers that spread hard", t => t.Traits.IsAggressive && !t.IsGrass, 0, site.Kind == SiteKind.Shade ? 0.25 : 0.12);
        Guild(mix, "seed as fine as dust", t => t.Taxon.SeedsPerGram > FineSeedsPerGram, 0, site.Request.Moisture == Moisture.Wet ? 0.50
            : wettish ? 0.40 : 0.12);
        Guild(mix, "rushes and bulrushes", t => Genus(t, "Juncus") || Genus(t, "Scirpus"), 0, 0.12);
        Guild(mix, "wild ryes", t => t.Traits.Role == MixRole.CoolSeason && Genus(t, "Elymus"), 0, site.Sun ? 0.06 : 0.60);
        Guild(mix, "plants that rabbits and deer take first", t => t.Traits.Browsed, 0, site.Request.Browsers ? 0.15 : 0.35);
        if (site.Request.Salt) Guild(mix, "plants that stand salt", t => t.Traits.Salt, 0.75, 1);
        Moistures(mix);
        linear.Now = new(LimitKind.Guild, $"slow seed at most {(site.Sun ? 35 : 50)} % of the flowers' seed");
        linear.AtMost(mix.Pool.Where(t => !t.IsGrass).Select(t => new Term(t.Seeds,
            (t.Traits.FromSeed == FromSeed.Slow ? 100 : 0) - (site.Sun ? 35 : 50))), 0);
        linear.Now = null;
        HouseholdShares(mix, t => t.Seeds);
    }

    /// <summary>The household's own bounds on shares, of seeds or of plugs.</summary>
    public static void HouseholdShares(MixModel mix, Func<MixTaxon, int> variable)
    {
        var request = mix.Site.Request;
        var linear = mix.Linear;
        if (request.LeastGrassShare is { } least)
        {
            linear.Now = new(LimitKind.LeastGrass);
            mix.Share(variable, t => t.IsGrass, least, 1);
        }

        if (request.MostGrassShare is { } most)
        {
            linear.Now = new(LimitKind.MostGrass);
            mix.Share(variable, t => t.IsGrass, 0, most);
        }

        if (request.MostShareOfOne is { } one)
        {
            linear.Now = new(LimitKind.MostShareOfOne);
            foreach (var taxon in mix.Pool)
            {
                mix.Share(variable, t => t == taxon, 0, one);
            }
        }

        if (request.Look == Look.EdgeFriendly)
        {
            linear.Now = new(LimitKind.Look);
            mix.Share(variable, t => t.Candidate.Tallest <= ConversionConvention.EdgeLowMetres, ConversionConvention.EdgeLowShare, 1);
        }

        linear.Now = null;
    }

    internal static bool Genus(MixTaxon t, string genus) => t.Name.StartsWith(genus + " ", StringComparison.Ordinal);

    private static void Moistures(MixModel mix)
    {
        var (site, moisture) = (mix.Site, mix.Site.Request.Moisture);
        if (moisture == Moisture.Medium) Guild(mix, "wetland plants", t => t.Traits.Wetland == WetlandIndicator.FacultativeWetland, 0,
            0.08);
        if (site.Kind == SiteKind.Shade) return;
        if (moisture == Moisture.Moist) Guild(mix, "upland plants", t => t.Traits.Wetland == WetlandIndicator.FacultativeUpland, 0, 0.20);
        if (site.Wettish) Guild(mix, "wetland plants", t => t.Traits.IsWetland, moisture == Moisture.Wet ? 0.6 : 0.35, 1);
    }

    private static void Guild(MixModel mix, string words, Func<MixTaxon, bool> test, double least, double most)
    {
        var bounds = (least > 0, most < 1) switch
        {
            (true, true) => $"{least:P0} to {most:P0} of the seeds",
            (true, false) => $"at least {least:P0} of the seeds",
            _ => $"at most {most:P0} of the seeds",
        };
        mix.Linear.Now = new(LimitKind.Guild, $"{words} {bounds}");
        mix.Share(t => t.Seeds, test, least, most);
        mix.Linear.Now = null;
    }
}
