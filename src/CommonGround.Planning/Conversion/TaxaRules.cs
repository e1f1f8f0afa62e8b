using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How many taxa of which kind. See docs/measures.md#mix.</summary>
internal static class TaxaRules
{
    private static readonly string[] PeriodWords = ["taxa in flower from April to June 15", "taxa in flower from June 15 to July",
        "taxa in flower from August to October"];

    private static readonly HashSet<string> Sedges = ["Carex", "Juncus", "Scirpus", "Eleocharis", "Schoenoplectus"];

    public static void Add(MixModel mix)
    {
        Numbers(mix);
        Matrix(mix);
        Flowers(mix);
        Nurses(mix);
        Families(mix);
        Quality(mix);
        Absent(mix);
        foreach (var t in mix.Pool.Where(t => mix.Site.Request.Wants(t.Name)))
        {
            mix.Linear.Now = new(mix.Locks(t) ? LimitKind.Lock : LimitKind.MustHave, t.Name);
            mix.Linear.AtLeast([new(t.Chosen, 1)], 1);
            mix.Linear.Now = null;
        }
    }

    /// <summary>What is wanted and not among the candidates makes the program impossible, as it must.</summary>
    private static void Absent(MixModel mix)
    {
        var request = mix.Site.Request;
        var there = mix.Pool.Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        foreach (var name in request.MustHave.Concat(request.LockedAmounts.Keys).Distinct(StringComparer.Ordinal)
            .Where(n => !there.Contains(n)).Order(StringComparer.Ordinal))
        {
            mix.Linear.Now = new(request.LockedAmounts.ContainsKey(name) ? LimitKind.Lock : LimitKind.MustHave, name);
            mix.Linear.AtLeast([new(mix.Linear.Variable(0), 1)], 1);
            mix.Linear.Now = null;
        }
    }

    private static void Numbers(MixModel mix)
    {
        var (site, linear, request) = (mix.Site, mix.Linear, mix.Site.Request);
        var all = mix.Sum(t => t.Chosen);
        var area = site.SquareMetres;
        var rare = area < 100 ? 1 : area < 1000 ? 2 : 4;
        var there = mix.Pool.Where(t => linear.Most(t.Chosen) > 0).ToList();
        var can = there.Count(t => t.Traits.Trade == Trade.Usual) + Math.Min(rare, there.Count(t => t.Traits.Trade != Trade.Usual));
        linear.Now = request.FewestTaxa is null ? new(LimitKind.Guild, $"at least {site.FewestTaxa} taxa on ground of this size")
            : new(LimitKind.FewestTaxa);
        var most = request.MostTaxa ?? Math.Max(site.MostTaxa, request.FewestTaxa ?? 0);
        // Where fewer suit than ground of this size wants, two thirds of them are asked for: rules on genera and families bar some.
        var scarce = can < 1.2 * site.FewestTaxa;
        var fewest = scarce ? Math.Min(site.FewestTaxa, can * 2 / 3) : site.FewestTaxa;
        if (scarce) mix.WaiveTaxa(can);
        linear.AtLeast(all, request.FewestTaxa ?? Math.Min(fewest, most));
        linear.Now = request.MostTaxa is null ? new(LimitKind.Guild, $"at most {most} taxa on ground of this size")
            : new(LimitKind.MostTaxa);
        linear.AtMost(all, most);
        linear.Now = null;
        mix.AtMostTaxa(t => t.Traits.Trade == Trade.Rare, rare, "taxa that are rare in trade");
    }

    private static void Matrix(MixModel mix)
    {
        var (site, area) = (mix.Site, mix.Site.SquareMetres);
        var legumes = site.DrySun ? area < 4 ? 0 : area < 30 ? 1 : area < 100 ? 2 : area < 1000 ? 3 : 4 : !site.Sun
            || site.Request.Moisture == Moisture.Wet ? 0 : 1;
        mix.AtLeastTaxa(t => t.Traits.Role == MixRole.Legume, legumes, "legumes");
        mix.AtLeastTaxa(t => t.Traits.Role == MixRole.WarmBunch, site.DrySun ? area < 30 ? 1 : 2 : 0, "bunchgrasses");
        mix.AtLeastTaxa(t => t.IsGrass && Sedges.Contains(t.Name.Split(' ')[0]), area < 10 ? 0 : area < 100 ? 1 : 2, "sedges or rushes");
        mix.AtLeastTaxa(t => t.IsGrass, area < 10 ? 1 : area < 30 ? 2 : area < 300 ? 4 : 6, "grasses and sedges");
        mix.AtMostTaxa(t => t.IsGrass, area < 10 ? 2 : area < 30 ? 4 : area < 300 ? 7 : 11, "grasses and sedges");
        var large = site.DrySun && area >= 1000;
        mix.AtLeastTaxa(t => t.Traits.Role == MixRole.WarmTall, large && site.Request.TallestMetres is null ? 1 : 0, "tall grasses");
        mix.AtLeastTaxa(t => SeedRules.Genus(t, "Silphium"), large ? 1 : 0, "rosinweeds");
    }

    private static void Flowers(MixModel mix)
    {
        var (site, area) = (mix.Site, mix.Site.SquareMetres);
        mix.AtLeastTaxa(t => t.Traits.Role == MixRole.GroundForb, site.Sun ? area < 100 ? 1 : 2 : area < 30 ? 1 : 3, "low flowers");
        mix.AtLeastTaxa(t => t.Traits.Role == MixRole.Structural, area < 10 || site.Tallest < 1 ? 0 : area < 100 ? 1 : 2, "tall flowers");
        mix.AtMostTaxa(t => t.Traits.Role == MixRole.Structural, area < 10 ? 1 : area < 30 ? 2 : area < 300
            ? site.Request.Moisture == Moisture.Wet ? 8 : 4 : 8, "tall flowers");
        mix.AtMostTaxa(t => t.Traits.Role == MixRole.Filler, area < 300 ? 1 : 2, "fillers");
        mix.AtMostTaxa(t => t.Traits.Role == MixRole.Ephemeral, site.Sun ? 1 : area < 30 ? 2 : 5, "spring flowers of woods");
        if (site.Sun) mix.AtLeastTaxa(t => SeedRules.Genus(t, "Asclepias"), area < 4 || site.Tallest < 0.9 ? 0 : area < 300 ? 1 : 2,
            "milkweeds");
        foreach (var ((first, last), p) in ForageIndex.Periods.Select((p, i) => (p, i)))
        {
            var fewest = area < 10 ? 2 : p == 1 && site.Request.Light == Light.Shade ? 2 : 3;
            mix.AtLeastTaxa(t => Enumerable.Range(first, last - first + 1).Any(t.Candidate.Flowers), fewest, PeriodWords[p]);
        }
    }

    private static void Nurses(MixModel mix)
    {
        var (site, area) = (mix.Site, mix.Site.SquareMetres);
        if (site.Rate == 0) return;
        Sown(mix, t => Nurse.Grasses.Contains(t.Name), 1, "quick grasses that hold the ground (sow oats as cover instead)");
        Sown(mix, t => Nurse.Forbs.Contains(t.Name) || (site.Wettish && Nurse.ForbsOfWetGround.Contains(t.Name))
            || (!site.Sun && Nurse.ForbsOfShade.Contains(t.Name)),
            !site.Sun || area < 100 ? 2 : area < 1000 ? 3 : 4, "quick flowers");
        if (site.Sun)
            Sown(mix, t => string.Equals(t.Name, site.Request.Moisture == Moisture.Wet ? Nurse.OfWetGround : Nurse.Sunny,
                StringComparison.Ordinal), 1, "nurse plants");
    }

    private static void Sown(MixModel mix, Func<MixTaxon, bool> test, int fewest, string guild)
    {
        var can = mix.Pool.Count(t => test(t) && t.CanBeSown);
        if (can < fewest) mix.Waive(can, fewest, guild);
        mix.Linear.Now = new(LimitKind.Guild, $"at least {Math.Min(fewest, can)} sown, of {guild}");
        if (can > 0) mix.Linear.AtLeast(mix.Sum(t => t.Sown, test), Math.Min(fewest, can));
        mix.Linear.Now = null;
    }

    private static void Families(MixModel mix)
    {
        var (linear, area) = (mix.Linear, mix.Site.SquareMetres);
        foreach (var genus in mix.Pool.GroupBy(t => t.Name.Split(' ')[0], StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            var low = genus.All(t => t.Traits.Role == MixRole.GroundForb);
            var most = area < 30 ? 1 + Extra(genus.Key, "Carex") : area < 300 && low ? 1
                : (area < 300 ? 2 : 3) + Extra(genus.Key, "Carex") + (area >= 300 ? Extra(genus.Key, "Symphyotrichum") : 0);
            mix.AtMostTaxa(t => string.Equals(t.Name.Split(' ')[0], genus.Key, StringComparison.Ordinal), most,
                "of the genus " + genus.Key);
        }

        var flags = new List<Term>();
        foreach (var family in mix.Pool.Where(t => linear.Most(t.Chosen) > 0).GroupBy(t => t.Taxon.Family, StringComparer.Ordinal)
            .OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var there = linear.Variable(1);
            linear.AtLeast([.. family.Select(t => new Term(t.Chosen, 1)), new(there, -1)], 0);
            flags.Add(new(there, 1));
        }

        var fewest = Math.Min(flags.Count, area < 10 ? 4 : area < 30 ? 6 : area < 300 ? 8 : 10);
        linear.Now = new(LimitKind.Guild, $"at least {fewest} plant families");
        linear.AtLeast(flags, fewest);
        linear.Now = null;
    }

    private static int Extra(string genus, string which) => string.Equals(genus, which, StringComparison.Ordinal) ? 1 : 0;

    private static void Quality(MixModel mix)
    {
        var linear = mix.Linear;
        linear.Now = new(LimitKind.Guild, "asters and their kin at most 45 % of the flowering taxa");
        linear.AtMost(mix.Pool.Select(t => new Term(t.Chosen, (string.Equals(t.Taxon.Family, "Asteraceae", StringComparison.Ordinal) ? 100
            : 0) - (!t.IsGrass && t.Taxon.Bloom is not null ? 45 : 0))), 0);
        linear.Now = new(LimitKind.Guild, "long-lived plants at least 60 % of the taxa");
        linear.AtLeast(mix.Pool.Select(t => new Term(t.Chosen, (t.Traits.Longevity == Longevity.LongLived ? 10 : 0) - 6)), 0);
        var target = mix.Site.SquareMetres >= 30 ? 45 : 40;
        linear.Now = new(LimitKind.Guild, $"a mean C of at least {target / 10.0:0.0}");
        linear.AtLeast(mix.Pool.Where(t => t.Taxon.C is not null)
            .Select(t => new Term(t.Chosen, (long)Math.Round((10 * t.Taxon.C!.Value) - target))), 0);
        linear.Now = null;
    }
}
