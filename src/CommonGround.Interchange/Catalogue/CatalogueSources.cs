using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>Each group of values says where it comes from, and no source stands without a value.</summary>
internal static class CatalogueSources
{
    private static readonly Dictionary<string, string[]> Groups = new(StringComparer.Ordinal)
    {
        ["name"] = ["scientific_name"],
        ["nativity"] = ["nativity"],
        ["c"] = ["c_value"],
        ["form"] = ["life_form", "duration"],
        ["height"] = ["height_min_m", "height_max_m"],
        ["height_second"] = ["height_second_m"],
        ["wetland"] = ["wetland_indicator"],
        ["community"] = ["community"],
        ["bloom_second"] = ["bloom_second_start", "bloom_second_end"],
        ["site"] = ["light", "moisture"],
        ["bloom"] = ["bloom_start", "bloom_end"],
        ["flower"] = ["flower_colour"],
        ["pollinator"] = ["pollinator_value", "pollinator_groups"],
        ["seed"] = ["seeds_per_gram"],
        ["spacing"] = ["spacing_m"],
        ["toxicity"] = ["toxicity", "caution"],
        ["impact"] = ["impact_rank"],
        ["spread"] = ["dispersal_m", "seedbank_half_life_y"],
        ["control"] = ["control_start", "control_end"],
        ["wildlife"] = ["caterpillar_hosts", "seed_for_birds"],
    };

    public static void Check(CatalogueTaxon taxon, RowCells cells, List<string> sources)
    {
        foreach (var source in sources)
        {
            if (!Groups.TryGetValue(source["source_".Length..], out var columns)) continue;
            var valued = Array.Find(columns, cells.Has);
            if (valued is not null && !cells.Has(source)) cells.Refuse(source, $"{valued} of {taxon.ScientificName} has no source.",
                "Write where the value comes from, or leave the value blank.");
            if (valued is null && cells.Has(source))
                cells.Refuse(source, $"A source is given for {string.Join(", ", columns)} without a value.",
                    "Write the value, or take the source out.");
        }
    }
}
