using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>Each group of values says where it comes from, and no source stands without a value.</summary>
internal static class CatalogueSources
{
    private static readonly Dictionary<string, string[]> Groups = new(StringComparer.Ordinal)
    {
        ["c"] = ["c_value"],
        ["bloom"] = ["bloom_start", "bloom_end"],
    };

    public static void Check(CatalogueTaxon taxon, RowCells cells, List<string> sources)
    {
        foreach (var source in sources)
        {
            if (!Groups.TryGetValue(source["source_".Length..], out var columns)) continue;
            var valued = Array.Find(columns, cells.Has);
            if (valued is not null && !cells.Has(source)) cells.Refuse(source, $"{valued} of {taxon.ScientificName} has no source.", "Write where the value comes from, or leave the value blank.");
            if (valued is null && cells.Has(source)) cells.Refuse(source, $"A source is given for {string.Join(", ", columns)} without a value.", "Write the value, or take the source out.");
        }
    }
}
