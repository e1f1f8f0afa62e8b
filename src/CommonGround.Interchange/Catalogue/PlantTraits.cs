using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>A value of a plant that a group may override.</summary>
/// <param name="Column">Its name in files, that of the catalogue's column.</param>
/// <param name="Label">As people read it.</param>
/// <param name="Source">Group of values whose source it shares.</param>
/// <param name="How">How to write it.</param>
public sealed record PlantTrait(string Column, string Label, string Source, string How);

/// <summary>
/// The values a group may override, and how one is put in the catalogue's place. Toxicity, cautions and look-alikes are not among them: a
/// slip there hurts somebody.
/// </summary>
public static class PlantTraits
{
    private const double TallestPlant = 120;

    /// <summary>In the order in which they are applied.</summary>
    public static IReadOnlyList<PlantTrait> All { get; } =
    [
        new("nativity", "native or introduced", "nativity", Words.Nativity.Listed), new("c_value", "C value", "c", "a number from 0 to 10"),
        new("height_max_m", "height", "height", "metres, for example 1.2"),
            new("spacing_m", "spacing", "spacing", "metres between plugs, for example 0.4"),
        new("light", "light", "site", $"{Words.Light.Listed}, with | between them"),
            new("moisture", "moisture", "site", $"{Words.Moisture.Listed}, with | between them"),
        new("community", "community", "community", $"{Words.PlantCommunity.Listed}, with | between them"),
            new("wetland_indicator", "wetland indicator", "wetland", Words.WetlandIndicator.Listed),
        new("bloom", "bloom", "bloom", "first and last half-month from 0 (January 1–15) to 23, for example 12-15"),
        new("pollinator_value", "pollinator value", "pollinator", "a number from 0 to 1"),
            new("seeds_per_gram", "seeds in a gram", "seed", "a number above 0"),
        new("impact_rank", "harm as a weed", "impact", Words.ImpactRank.Listed),
            new("dispersal_m", "how far seed travels", "spread", "metres, above 0"),
        new("seedbank_half_life_y", "half-life of seed in the soil", "spread", "years, above 0"),
    ];

    /// <summary>The trait of a column, or null.</summary>
    public static PlantTrait? Of(string column) => All.FirstOrDefault(t => t.Column == column);

    /// <summary>What a taxon has there, as a catalogue file would hold it; empty when not known.</summary>
    public static string Value(CatalogueTaxon taxon, string column)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        return column switch
        {
            "nativity" => Words.Nativity.Write(taxon.Nativity),
            "c_value" => CsvText.Number(taxon.C),
            "height_max_m" => CsvText.Number(taxon.HeightMaxMetres),
            "spacing_m" => CsvText.Number(taxon.SpacingMetres),
            "light" => string.Join('|', taxon.Light.Select(l => Words.Light.Write(l))),
            "moisture" => string.Join('|', taxon.Moisture.Select(m => Words.Moisture.Write(m))),
            "community" => string.Join('|', taxon.Communities.Select(c => Words.PlantCommunity.Write(c))),
            "wetland_indicator" => Words.WetlandIndicator.Write(taxon.WetlandIndicator),
            "bloom" => taxon.Bloom is { } bloom ? $"{bloom.Start}-{bloom.End}" : "",
            "pollinator_value" => CsvText.Number(taxon.PollinatorValue),
            "seeds_per_gram" => CsvText.Number(taxon.SeedsPerGram),
            "impact_rank" => taxon.ImpactRank == ImpactRank.Unranked ? "" : Words.ImpactRank.Write(taxon.ImpactRank),
            "dispersal_m" => CsvText.Number(taxon.DispersalMetres),
            "seedbank_half_life_y" => CsvText.Number(taxon.SeedbankHalfLifeYears),
            _ => "",
        };
    }

    /// <summary>The taxon with one value put in the catalogue's place.</summary>
    /// <param name="taxon">A catalogue row.</param>
    /// <param name="column">One of <see cref="All"/>.</param>
    /// <param name="value">As a catalogue file would hold it.</param>
    /// <param name="source">What is shown as its source.</param>
    /// <returns>The changed taxon, or what is wrong with the value.</returns>
    public static (CatalogueTaxon? Taxon, string Problem) Apply(CatalogueTaxon taxon, string column, string value, string source)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(value);
        if (Of(column) is not { } trait) return (null, $"\"{column}\" is not a value that can be overridden.");
        if (Changed(taxon, column, value.Trim()) is not { } changed) return (null, $"Write {trait.How}.");
        if (changed is { C: not null, Nativity: not Nativity.Native })
            return (null, "Only a native plant has a C value: override whether it is native first.");
        if (changed.Bloom is not null && changed.LifeForm is LifeForm.Grass or LifeForm.Sedge && column == "bloom")
            return (null, "Grasses and sedges flower by wind and have no bloom window here.");
        return (changed with
        {
            Sources = new Dictionary<string, string>(taxon.Sources,
            StringComparer.Ordinal)
            { [trait.Source] = source }
        }, "");
    }

    private static CatalogueTaxon? Changed(CatalogueTaxon taxon, string column, string value) => column switch
    {
        "nativity" => Words.Nativity.TryRead(value, out var nativity)
            ? taxon with
            {
                Nativity = nativity,
                C = nativity == Nativity.Native ? taxon.C : null,
                CRegion = nativity == Nativity.Native
            ? taxon.CRegion : ""
            }
            : null,
        "c_value" => Number(value, 0, 10) is { } c ? taxon with { C = c, CRegion = "this group" } : null,
        // The group has settled it: the second source no longer makes it doubtful.
        "height_max_m" => Above(value, TallestPlant) is { } h
            ? taxon with
            {
                HeightMaxMetres = h,
                HeightMinMetres = taxon.HeightMinMetres is { } low ? Math.Min(low, h) : null,
                HeightSecondMetres = null
            } : null,
        "spacing_m" => Above(value, 20) is { } s ? taxon with { SpacingMetres = s } : null,
        "light" => List(value, Words.Light) is { } light ? taxon with { Light = light } : null,
        "moisture" => List(value, Words.Moisture) is { } moisture ? taxon with { Moisture = moisture } : null,
        "community" => List(value, Words.PlantCommunity) is { } communities ? taxon with { Communities = communities } : null,
        "wetland_indicator" => Words.WetlandIndicator.TryRead(value, out var indicator) ? taxon with { WetlandIndicator = indicator }
            : null,
        "bloom" => Window(value) is { } bloom ? taxon with { Bloom = bloom, BloomSecond = null, BloomPlace = "this group" } : null,
        "pollinator_value" => Number(value, 0, 1) is { } v ? taxon with
        {
            PollinatorValue = v,
            PollinatorLow = null,
            PollinatorHigh = null
        } : null,
        "seeds_per_gram" => Above(value, 1_000_000) is { } g ? taxon with { SeedsPerGram = g } : null,
        "impact_rank" => Words.ImpactRank.TryRead(value, out var rank) ? taxon with { ImpactRank = rank } : null,
        "dispersal_m" => Above(value, 100_000) is { } d ? taxon with { DispersalMetres = d } : null,
        "seedbank_half_life_y" => Above(value, 1_000) is { } y ? taxon with { SeedbankHalfLifeYears = y } : null,
        _ => null,
    };

    private static double? Number(string value, double low, double high) =>
        double.TryParse(value, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture,
            out var number) && number >= low && number <= high ? number : null;

    private static double? Above(string value, double high) => Number(value, 0, high) is { } number and > 0 ? number : null;

    private static T[]? List<T>(string value, CsvWords<T> words)
        where T : struct, Enum
    {
        var found = new List<T>();
        foreach (var word in value.Split('|', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (!words.TryRead(word, out var one) || found.Contains(one)) return null;
            found.Add(one);
        }
        return found.Count > 0 ? [.. found] : null;
    }

    private static BloomWindow? Window(string value) => value.Split('-', StringSplitOptions.TrimEntries) is [var first, var last]
        && Half(first) is { } start && Half(last) is { } end ? new BloomWindow(start, end) : null;

    private static int? Half(string value) => int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var t)
        && t < HalfMonth.Count ? t : null;
}
