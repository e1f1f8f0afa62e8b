using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How many plugs: groups, shares of all plugs, the planted band beside a sowing. See docs/measures.md#mix.</summary>
internal static class PlugRules
{
    /// <summary>Our own convention: it is gone by June, and leaves as many gaps. shared/checks/11_mix.json, "ephemeral".</summary>
    private const int MostOfASpringFlower = 24;
    public const int FewestInBand = 24;
    private const int FewestTaxaInBand = 4;

    /// <summary>Bounds of one taxon: the smallest group that shows, the largest share that is not too much.</summary>
    public static void Bound(MixModel mix, MixTaxon t)
    {
        var (least, most) = mix.Site.Method == Method.Plugs ? AllPlugs(mix.Site, t) : Band(mix.Site, t);
        if (mix.Locks(t)) (least, most) = (1, mix.Site.Plugs);
        mix.Linear.AtMost([new(t.Plugs, 1), new(t.Planted, -most)], 0);
        mix.Linear.AtLeast([new(t.Plugs, 1), new(t.Planted, -least)], 0);
        var site = mix.Site;
        var usual = t.Traits.Role == MixRole.Structural ? 0.04 : t.IsGrass ? site.SquareMetres >= 10 ? 0.16 : 0.26 : 1.0 / site.MostTaxa;
        t.UsualPlugs = (int)Math.Round(usual * site.Plugs);
    }

    public static void Add(MixModel mix)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        var all = mix.Sum(t => t.Plugs);
        Part(mix, "short-lived grass at most 12 % of the plugs", t => t.IsGrass && t.Traits.Longevity == Longevity.ShortLived, 0, 0.12);
        var browsed = site.Request.Browsers ? 0.15 : 0.35;
        Part(mix, $"plants that rabbits and deer take first at most {browsed:P0} of the plugs", t => t.Traits.Browsed, 0, browsed);
        if (site.Request.Salt) Part(mix, "plants that stand salt at least 75 % of the plugs", t => t.Traits.Salt, 0.75, 1);
        if (site.Request.Moisture == Moisture.Moist && site.Kind != SiteKind.Shade)
        {
            Part(mix, "upland plants at most 20 % of the plugs", t => t.Traits.Wetland == WetlandIndicator.FacultativeUpland, 0, 0.20);
        }

        if (site.Method == Method.Plugs) WholeGround(mix, all);
        else BandAndPatches(mix, all);
        SeedRules.HouseholdShares(mix, t => t.Plugs);
    }

    private static void WholeGround(MixModel mix, List<Term> all)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        long Of(double share) => (long)Math.Round(share * site.Plugs);
        void Rule(string words, Func<MixTaxon, bool> test, long least, long most)
        {
            linear.Now = new(LimitKind.Guild, words);
            linear.Between(mix.Sum(t => t.Plugs, test), least, most);
            linear.Now = null;
        }

        linear.Now = new(LimitKind.Guild, $"{site.Plugs} plugs, {100 * site.Spacing:0} cm apart, fill the ground");
        linear.Between(all, site.Plugs, site.Plugs);
        linear.Now = null;
        Rule("grasses and sedges 33 to 55 % of the plugs", t => t.IsGrass, Of(0.33), Of(0.55));
        Rule("grasses, sedges, ferns and low flowers 45 to 65 % of the plugs", t => t.IsGrass || t.Traits.Role is MixRole.GroundForb
            or MixRole.Fern, Of(0.45), Of(0.65));
        Rule("tall flowers at most 10 % of the plugs", t => t.Traits.Role == MixRole.Structural, 0,
            Wanted(mix, MixRole.Structural, site.SquareMetres >= 10 ? Of(0.10) : 3));
        Rule("spring flowers at most 15 % of the plugs", t => t.Traits.Role == MixRole.Ephemeral, 0, Of(0.15));
        Rule("plants that spread hard at most 10 % of the plugs", t => t.Traits.IsAggressive, 0, Of(0.10));
    }

    /// <summary>A must-have of a role is not shut out by that role's smallest number.</summary>
    private static long Wanted(MixModel mix, MixRole role, long most) =>
        Math.Max(most, 3 * mix.Pool.Count(t => t.Candidate.MustHave && t.Traits.Role == role));

    private static void BandAndPatches(MixModel mix, List<Term> all)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        linear.Between(all, site.Rate == 0 ? site.Plugs * 7 / 10 : 0, site.Plugs);
        mix.Short = linear.Variable(site.Plugs);
        linear.AtLeast([.. all, new(mix.Short, 1)], site.Plugs);
        linear.Now = new(LimitKind.Guild, "spring flowers at most 25 % of the plugs");
        linear.AtMost(mix.Sum(t => t.Plugs, t => t.Traits.Role == MixRole.Ephemeral), (long)Math.Round(0.25 * site.Plugs));
        linear.Now = null;
        if (site.Kind == SiteKind.Shade)
        {
            linear.Now = new(LimitKind.Guild, "grasses, sedges, ferns and low flowers at least 40 % of the plugs");
            linear.AtLeast(mix.Sum(t => t.Plugs, t => t.IsGrass || t.Traits.Role is MixRole.GroundForb or MixRole.Fern),
                (long)Math.Round(0.40 * site.Plugs));
            linear.Now = null;
            return;
        }

        // A planted band in front, or nothing: never a few plugs strewn in the sowing.
        var band = mix.Band = linear.Variable(1);
        linear.AtMost([.. all, new(band, -site.Plugs)], 0);
        linear.Now = new(LimitKind.Guild, $"a planted band of {FewestInBand} plugs or more, of {FewestTaxaInBand} kinds, or none");
        linear.AtLeast([.. all, new(band, -FewestInBand)], 0);
        linear.AtLeast([.. mix.Sum(t => t.Planted), new(band, -FewestTaxaInBand)], 0);
        linear.Now = null;
        // Seed floats off where water runs: there the band is left out only for money.
        if (site.Wettish && site.Request.Budget is null) linear.AtLeast([new(band, 1)], 1);
        Part(mix, $"grasses and sedges {(site.Wettish ? 40 : 25)} to 55 % of the band", t => t.IsGrass, site.Wettish ? 0.40 : 0.25, 0.55);
    }

    private static (long Least, long Most) AllPlugs(MixSite site, MixTaxon t)
    {
        var (all, area, role) = (site.Plugs, site.SquareMetres, t.Traits.Role);
        var small = area < 10;
        var matrix = t.IsGrass || role is MixRole.GroundForb or MixRole.Fern;
        long least = small ? matrix ? Math.Max(3, (long)Math.Round(0.10 * all)) : 3 : 5;
        var share = t.IsGrass ? small ? 0.40 : 0.25 : matrix ? 0.20 : small ? 0.20 : 0.12;
        if (role == MixRole.Structural) (least, share) = (area < 5 ? 1 : area >= 10 ? 3 : 2, small ? 0.08 : 0.05);
        if (role == MixRole.Ephemeral) share = 0.10;
        if (role == MixRole.Fern) (least, share) = (3, 0.06);
        if (t.Traits.IsAggressive) share = Math.Min(share, 0.05);
        var most = Math.Max(least, (long)Math.Round(share * all));
        return (least, role == MixRole.Ephemeral && area <= 300 ? Math.Min(most, MostOfASpringFlower) : most);
    }

    private static (long Least, long Most) Band(MixSite site, MixTaxon t)
    {
        var role = t.Traits.Role;
        var (all, least) = (site.Plugs, 5L);
        var most = Math.Max(7, (long)Math.Round(all * (t.IsGrass ? 0.25 : role == MixRole.GroundForb ? 0.15 : 0.10)));
        if (role == MixRole.Ephemeral)
            most = Math.Max(7, Math.Min((long)Math.Round(0.08 * all), 12 + (long)Math.Round(site.SquareMetres / 40)));
        if (role is MixRole.Structural or MixRole.Fern) (least, most) = (3, Math.Max(5, (long)Math.Round(0.05 * all)));
        if (t.Traits.IsAggressive) most = least;
        return (least, most);
    }

    private static void Part(MixModel mix, string words, Func<MixTaxon, bool> test, double least, double most)
    {
        mix.Linear.Now = new(LimitKind.Guild, words);
        mix.Share(t => t.Plugs, test, least, most);
        mix.Linear.Now = null;
    }
}
