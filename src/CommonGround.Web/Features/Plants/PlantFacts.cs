using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Plants;

/// <summary>One value of a plant: figure, source and how sure it is, in plain words.</summary>
/// <param name="Trait">The column by which a group may override it; empty where it may not.</param>
/// <param name="Doubtful">Two sources contradict each other.</param>
public sealed record PlantFact(string Label, string Figure, string Source, string HowSure, string Trait, bool Doubtful);

/// <summary>Everything the page says of a plant, value by value.</summary>
public static class PlantFacts
{
    public static IReadOnlyList<PlantFact> Of(CatalogueTaxon taxon, IEnumerable<CatalogueTaxon> catalogue, Units units)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var facts = new List<PlantFact>
        {
            Fact(taxon, "Native here", taxon.Nativity == Nativity.Unknown ? "" : taxon.Nativity.ToString().ToLowerInvariant(), "nativity",
                "nativity", SecondNativity(taxon), taxon.NativitySecond != Nativity.Unknown && taxon.NativitySecond != taxon.Nativity),
            Fact(taxon, "C value", taxon.C is { } c ? $"{c:0} of 10 ({PlantWords.Region(taxon.CRegion)})" : "", "c", "c_value",
                taxon.CSecond is { } two ? $"{PlantWords.Region(taxon.RegionSecond)} has {two:0}; tables are never mixed" : ""),
            Fact(taxon, "Height", taxon.HeightMaxMetres is null ? "" : PlantWords.Height(taxon, units), "height", "height_max_m",
                SecondHeight(taxon, units), SecondSource.HeightIsDoubtful(taxon)),
            Fact(taxon, "Spacing", taxon.SpacingMetres is { } s ? units.LengthWords(s) : "", "spacing", "spacing_m"),
            Fact(taxon, "Light", string.Join(", ", taxon.Light.Select(PlantWords.Of)), "site", "light"),
            Fact(taxon, "Moisture", string.Join(", ", taxon.Moisture.Select(PlantWords.Of)), "site", "moisture"),
            Fact(taxon, "Wetland indicator", PlantWords.Of(taxon.WetlandIndicator), "wetland", "wetland_indicator",
                taxon.WetlandIndicator == WetlandIndicator.Unknown ? "" : "regional, not the official list"),
            Fact(taxon, "Grows in", string.Join(", ", taxon.Communities.Select(PlantWords.Of)), "community", "community"),
            Fact(taxon, "Bloom", taxon.Bloom is { } b ? HalfMonthWords.RunShort(b.Start, b.End) : "", "bloom", "bloom", SecondBloom(taxon),
                SecondSource.BloomIsDoubtful(taxon)),
            Fact(taxon, "Flower colour", taxon.FlowerColour, "flower", ""),
            Fact(taxon, "Pollinator value", taxon.PollinatorValue is { } v ? $"{v:0.00} of 1" : "", "pollinator", "pollinator_value",
                Estimate(taxon)),
            Fact(taxon, "Seeds in a gram", taxon.SeedsPerGram is { } g ? g.ToString(g < 10 ? "0.###" : "#,0") : "", "seed",
                "seeds_per_gram", SeedRelatives.IsOutlier(taxon, catalogue) ? "far from its relatives’ seed" : ""),
            Fact(taxon, "Harm to people and animals", taxon.Toxicity, "toxicity", ""),
            Fact(taxon, "Harm as a weed", taxon.ImpactRank == ImpactRank.Unranked ? "" : taxon.ImpactRank.ToString().ToLowerInvariant(),
                "impact", "impact_rank"),
            Fact(taxon, "Seed travels about", taxon.DispersalMetres is { } d ? units.DistanceWords(d) : "", "spread", "dispersal_m"),
            Fact(taxon, "Half the seed in the soil is dead after", taxon.SeedbankHalfLifeYears is { } y ? $"{y:0.##} years" : "", "spread",
                "seedbank_half_life_y"),
            Fact(taxon, "Usually treated", taxon is { ControlStart: { } from, ControlEnd: { } to } ? HalfMonthWords.RunShort(from, to)
                : "", "control", ""),
            Fact(taxon, "Caterpillars and birds", string.Join("; ",
                new[] { taxon.CaterpillarHosts, taxon.SeedForBirds }.Where(w => w.Length > 0)), "wildlife", ""),
            Fact(taxon, "Names", taxon.ScientificName, "name", ""),
        };
        return [.. facts.Where(f => f.Figure != "–" || f.Trait is not ("impact_rank" or "dispersal_m" or "seedbank_half_life_y" or ""))
            .Where(f => f.Figure != "–" || f.Source != "–" || f.Trait.Length > 0)];
    }

    /// <summary>What mixes need to know of it, two people's word side by side where they disagree; nothing where nobody has described
    /// it.</summary>
    public static IReadOnlyList<PlantFact> OfMix(MixTraits? mix)
    {
        if (mix is null)
        {
            return [];
        }

        PlantFact Trait(string label, string trait, string figure)
        {
            var disputed = mix.Disputed.FirstOrDefault(d => d.Trait == trait);
            return new(label, disputed?.Used ?? figure, mix.Basis, disputed is null ? "from memory, not looked up"
                : $"disputed: a second person says {disputed.Other}; plans take {disputed.Used}, the cautious one", "",
                disputed is not null);
        }

        return
        [
            Trait("Spreads", "spread", WordsOf(mix.Spread.ToString())),
                Trait("How long it lives", "longevity", WordsOf(mix.Longevity.ToString())),
                    Trait("From seed", "from seed", WordsOf(mix.FromSeed.ToString())),
            .. mix.Disputed.Where(d => d.Trait == "height").Select(d => new PlantFact("Height, for mixes", $"{d.Used} m",
                mix.Basis, $"disputed: a second person says {d.Other} m; plans take {d.Used} m", "", true)),
        ];
    }

    /// <summary>"StaysPut" as "stays put".</summary>
    private static string WordsOf(string name) => string.Concat(name.Select((c, i) => char.IsUpper(c) && i > 0
        ? " " + char.ToLowerInvariant(c) : char.ToLowerInvariant(c).ToString()));

    /// <summary>How sure a source makes a value, in plain words.</summary>
    public static string HowSure(string source)
    {
        ArgumentNullException.ThrowIfNull(source);
        bool Has(string words) => source.Contains(words, StringComparison.Ordinal);
        return source.Length == 0 ? "not known"
            : source.StartsWith("this group:", StringComparison.Ordinal) ? "set by this group"
            : source.StartsWith("estimated", StringComparison.Ordinal) ? "an estimate"
            : Has("disputed") ? "disputed: the graver reading is taken"
            : Has("confidence high") ? "sure: two or more sources agree"
            : Has("confidence medium") ? "fairly sure: one other source agrees"
            : Has("confidence low") ? "unsure: no other source was found"
            : source.StartsWith("from memory", StringComparison.Ordinal) ? "from memory, not looked up"
            : Has("from memory") ? "partly from memory" : "published";
    }

    private static PlantFact Fact(CatalogueTaxon taxon, string label, string figure, string group, string trait, string more = "",
        bool doubtful = false)
    {
        var source = taxon.Sources.GetValueOrDefault(group, "");
        if (figure.Length == 0)
        {
            return new PlantFact(label, "–", source.Length > 0 && group == "nativity" ? source : "–", "not known", trait, false);
        }

        var sure = string.Join("; ", new[] { doubtful ? "doubtful" : HowSure(source), more }.Where(w => w.Length > 0));
        return new PlantFact(label, figure, source.Length > 0 ? source : "no source", sure, trait, doubtful);
    }

    private static string SecondNativity(CatalogueTaxon taxon) => taxon.NativitySecond == Nativity.Unknown ? ""
        : $"{PlantWords.Region(taxon.RegionSecond)} says {(taxon.NativitySecond == taxon.Nativity ? "so too" : taxon.NativitySecond.ToString().ToLowerInvariant())}";

    private static string SecondHeight(CatalogueTaxon taxon, Units units)
    {
        if (taxon.HeightSecondMetres is not { } second)
        {
            return "";
        }

        var words = $"second figure {units.LengthWords(second)} ({taxon.Sources.GetValueOrDefault("height_second", "source not named")})";
        return SecondSource.HeightIsDoubtful(taxon)
            ? $"{words}; a height limit reckons with {units.LengthWords(taxon.HeightForLimits!.Value)}" : words;
    }

    private static string SecondBloom(CatalogueTaxon taxon) => taxon.BloomSecond is null ? ""
        : taxon.Sources.GetValueOrDefault("bloom_second", "");

    private static string Estimate(CatalogueTaxon taxon) => taxon is { PollinatorLow: { } low, PollinatorHigh: { } high }
        ? $"four of five such plants lie between {low:0.00} and {high:0.00}" : "";
}
