using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>A line of a mix as the measures read it: anybody's mix, not only the planner's.</summary>
internal sealed record MixLine(CatalogueTaxon Taxon, MixTraits Traits, double SeedsPerSquareFoot, int Plugs, double GramsBought);

/// <summary>Measures of a mix, named as in shared/checks/11_mix.json; null where a measure says nothing of this mix.</summary>
internal static class MixMeasures
{
    public static IReadOnlyList<MixLine> Lines(ConversionMix mix) =>
        [.. mix.Taxa.Select(t => new MixLine(t.Taxon, t.Traits, SeedRate.PerSquareFoot(t.SeedsPerSquareMetre), t.Plugs, t.BoughtGrams))];

    public static Dictionary<string, double?> Of(IReadOnlyList<MixLine> rows, double squareMetres, double? tallest)
    {
        MixLine[] sown = [.. rows.Where(x => x.SeedsPerSquareFoot > 0)];
        MixLine[] plugged = [.. rows.Where(x => x.Plugs > 0)];
        var (seeds, plugs) = (sown.Sum(x => x.SeedsPerSquareFoot), (double)plugged.Sum(x => x.Plugs));
        double? Share(Func<MixLine, bool> f) => sown.Length == 0 ? null : sown.Where(f).Sum(x => x.SeedsPerSquareFoot) / seeds;
        double? OfPlugs(Func<MixLine, bool> f) => plugged.Length == 0 ? null : plugged.Where(f).Sum(x => x.Plugs) / plugs;
        double? Top(Func<MixLine, bool> f) => sown.Length == 0 ? null
            : sown.Where(f).Select(x => x.SeedsPerSquareFoot / seeds).DefaultIfEmpty(0).Max();
        double N(Func<MixLine, bool> f) => rows.Count(f);
        MixLine[] forbs = [.. rows.Where(x => !Grass(x))];
        MixLine[] sownForbs = [.. sown.Where(x => !Grass(x))];
        double[] periods = [.. ForageIndex.Periods.Select(p => N(x => !Grass(x) && x.Taxon.Bloom is { } b
            && Enumerable.Range(p.First, p.Last - p.First + 1).Any(b.Contains)))];
        double[] c = [.. rows.Where(x => x.Taxon.C is not null).Select(x => x.Taxon.C!.Value)];
        var found = new Dictionary<string, double?>(StringComparer.Ordinal)
        {
            ["seeds_per_ft2"] = sown.Length == 0 ? null : seeds,
            ["grass_share_of_seeds"] = Share(Grass),
            ["taxa_early"] = periods[0],
            ["taxa_mid"] = periods[1],
            ["taxa_late"] = periods[2],
            ["taxa_fewest_period"] = periods.Min(),
            ["forb_taxa"] = forbs.Length,
            ["native_share_of_taxa"] = N(x => x.Taxon.Nativity == Nativity.Native) / rows.Count,
            ["milkweed_taxa"] = N(x => Genus(x) == "Asclepias"),
            ["grass_taxa"] = N(Grass),
            ["warm_bunch_taxa"] = N(Role(MixRole.WarmBunch)),
            ["sedge_taxa"] = N(x => Genus(x) is "Carex" or "Juncus" or "Scirpus" or "Eleocharis" or "Schoenoplectus"),
            ["legume_taxa"] = N(Role(MixRole.Legume)),
            ["legume_share_of_seeds"] = Share(Role(MixRole.Legume)),
            ["quick_grass_taxa"] = sown.Count(x => Nurse.Grasses.Contains(x.Taxon.ScientificName)),
            ["quick_forb_taxa"] = sown.Count(x => Nurse.Forbs.Contains(x.Taxon.ScientificName)
                || Nurse.ForbsOfWetGround.Contains(x.Taxon.ScientificName)),
            ["black_eyed_susan"] = sown.Count(x => x.Taxon.ScientificName == "Rudbeckia hirta"),
            ["most_of_one_bunchgrass"] = Top(Role(MixRole.WarmBunch)),
            ["most_of_one_forb_seeds"] = Top(x => !Grass(x)),
            ["warm_tall_share_of_seeds"] = Share(Role(MixRole.WarmTall)),
            ["warm_tall_taxa"] = N(Role(MixRole.WarmTall)),
            ["most_elymus_per_ft2"] = sown.Where(x => Genus(x) == "Elymus").Select(x => x.SeedsPerSquareFoot).DefaultIfEmpty(0).Max(),
            ["annual_share_of_seeds"] = Share(x => x.Traits.Longevity == Longevity.AnnualBiennial),
            ["aggressive_share_of_seeds"] = Share(Wild),
            ["most_of_one_aggressive_forb_seeds"] = Top(Wild),
            ["aggressive_small_taxa"] = N(x => x.Traits.AdvisedAgainst == AdvisedAgainst.AggressiveSmall),
            ["never_taxa"] = N(x => Never.Contains(x.Traits.AdvisedAgainst)),
            ["restricted_by_law_taxa"] = N(x => x.Taxon.Nativity != Nativity.Native),
            ["facw_share_of_seeds"] = Share(x => x.Traits.Wetland == WetlandIndicator.FacultativeWetland),
            ["obl_taxa"] = N(x => x.Traits.Wetland == WetlandIndicator.Obligate),
            ["facw_obl_share_of_seeds"] = Share(x => x.Traits.IsWetland),
            ["facu_share"] = (sown.Length > 0 ? (Func<Func<MixLine, bool>, double?>)Share
                : OfPlugs)(x => x.Traits.Wetland == WetlandIndicator.FacultativeUpland),
            ["long_lived_share_of_taxa"] = N(x => x.Traits.Longevity == Longevity.LongLived) / rows.Count,
            ["mean_c"] = c.Average(),
            ["families"] = rows.Select(x => x.Taxon.Family).Distinct().Count(),
            ["aster_family_share_of_forb_taxa"] = forbs.Count(x => x.Taxon.Family == "Asteraceae") / (double)Math.Max(1, forbs.Length),
            ["least_of_a_sown_taxon_per_ft2"] = sown.Length == 0 ? null : sown.Min(x => x.SeedsPerSquareFoot),
            ["least_grams_bought"] = sown.Length == 0 ? null : sown.Min(x => x.GramsBought),
            ["taxa"] = rows.Count,
            ["slow_share_of_forb_seeds"] = sown.Length == 0 ? null : sownForbs.Where(x => x.Traits.FromSeed == FromSeed.Slow)
                .Sum(x => x.SeedsPerSquareFoot) / Math.Max(0.01, sownForbs.Sum(x => x.SeedsPerSquareFoot)),
            ["fine_share_of_seeds"] = Share(x => x.Taxon.SeedsPerGram > 10_000),
            ["tallest_m"] = rows.Max(Tall),
            ["tallest_over_limit_m"] = rows.Max(Tall) - tallest,
            ["kerb_no_taxa"] = N(x => !x.Traits.Kerb),
            ["standing_water_taxa"] = N(x => x.Traits.AdvisedAgainst == AdvisedAgainst.StandingWater),
            ["rare_taxa"] = N(x => x.Traits.Trade == Trade.Rare),
            ["grass_without_salt"] = N(x => Grass(x) && !x.Traits.Salt),
            ["browsed_share_of_seeds"] = Share(x => x.Traits.Browsed),
            ["silphium_taxa"] = N(x => Genus(x) == "Silphium"),
            ["plugs_per_m2"] = plugged.Length == 0 ? null : plugs / squareMetres,
            ["ground_share_of_plugs"] = OfPlugs(x => Grass(x) || x.Traits.Role is MixRole.GroundForb or MixRole.Fern),
            ["grass_share_of_plugs"] = OfPlugs(Grass),
            ["structural_share_of_plugs"] = OfPlugs(Role(MixRole.Structural)),
            ["least_group"] = plugged.Where(x => x.Traits.Role is not (MixRole.Structural or MixRole.Fern)).Select(x => (double?)x.Plugs)
                .Min(),
            ["most_of_one_forb_plugs"] = plugged.Where(x => !Grass(x)).Select(x => (double?)(x.Plugs / plugs)).Max(),
            ["most_of_one_ephemeral"] = plugged.Where(Role(MixRole.Ephemeral)).Select(x => (double)x.Plugs).DefaultIfEmpty(0).Max(),
            ["salt_share_of_plugs"] = OfPlugs(x => x.Traits.Salt),
            ["browsed_share_of_plugs"] = OfPlugs(x => x.Traits.Browsed),
            ["short_grass_share_of_plugs"] = OfPlugs(x => Grass(x) && x.Traits.Longevity == Longevity.ShortLived),
            ["tallest_plug_m"] = plugged.Length == 0 ? null : plugged.Max(Tall),
            ["plugs_if_any"] = plugged.Length == 0 ? null : plugs,
            ["plugged_taxa_if_any"] = plugged.Length == 0 ? null : plugged.Length,
        };
        foreach (var (name, need) in new[] { ("moist_only", SiteNeed.MoistOnly), ("not_sand", SiteNeed.NotSand),
            ("not_dry", SiteNeed.NotDry), ("never_dry", SiteNeed.NeverDry), ("drained", SiteNeed.Drained), ("awns", SiteNeed.Awns) })
        {
            found[name + "_taxa"] = N(x => x.Traits.Site == need);
        }

        return found;
    }

    private static readonly HashSet<AdvisedAgainst> Never =
    [
        AdvisedAgainst.Weed, AdvisedAgainst.Deadly, AdvisedAgainst.LookalikeDeadly, AdvisedAgainst.LookalikePoison,
            AdvisedAgainst.MilkPoison, AdvisedAgainst.Phototoxic,
        AdvisedAgainst.LookalikePhototoxic, AdvisedAgainst.LookalikeInvasive, AdvisedAgainst.Sting, AdvisedAgainst.Irritant,
            AdvisedAgainst.ComesByItself, AdvisedAgainst.Listed,
        AdvisedAgainst.Aggressive, AdvisedAgainst.Hemiparasite, AdvisedAgainst.ThistleLaw, AdvisedAgainst.Thorns, AdvisedAgainst.Tree,
            AdvisedAgainst.RangeEdge,
    ];

    private static bool Grass(MixLine x) => x.Traits.IsGrass;

    private static bool Wild(MixLine x) => x.Traits.IsAggressive && !Grass(x);

    private static string Genus(MixLine x) => x.Taxon.ScientificName.Split(' ')[0];

    private static double Tall(MixLine x) => x.Traits.HeightMaxMetres ?? x.Taxon.HeightMaxMetres ?? 0;

    private static Func<MixLine, bool> Role(MixRole role) => x => x.Traits.Role == role;
}
