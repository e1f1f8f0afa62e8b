using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Catalogue;

/// <summary>Every scientific name, accepted or synonym, must lead to one taxon only.</summary>
internal sealed class CatalogueNames
{
    private readonly Dictionary<string, (string ScientificName, int Line)> seen = new(StringComparer.Ordinal);

    public void Check(CatalogueTaxon taxon, RowCells cells)
    {
        var own = new HashSet<string>(StringComparer.Ordinal);
        Check("scientific_name", taxon.ScientificName, taxon, cells, own);
        foreach (var synonym in taxon.Synonyms) Check("synonyms", synonym, taxon, cells, own);
    }

    private void Check(string column, string name, CatalogueTaxon taxon, RowCells cells, HashSet<string> own)
    {
        var key = NameKey.Of(name);
        if (key.Length == 0)
        {
            if (name.Length > 0) cells.Refuse(column, $"\"{name}\" is not a scientific name.", "Write genus and epithet.");
            return;
        }
        // Two spellings of one name in the same row lead to the same taxon and do no harm.
        if (!own.Add(key)) return;
        if (seen.TryGetValue(key, out var other))
            cells.Refuse(column, $"\"{name}\" already leads to {other.ScientificName} on line {other.Line}.",
                "A name may lead to one taxon only; take it out of one of the rows.");
        else seen.Add(key, (taxon.ScientificName, cells.Line));
    }
}
