using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>The catalogue as it stands in the database: there, readable, C within its range, every synonym leading to one taxon.</summary>
internal static class CatalogueCheck
{
    private const double LeastC = 0, MostC = 10; // Swink & Wilhelm, docs/measures.md
    private const string Unreadable = ": its traits cannot be read.",
        FromBackup = " What to do: restore the newest backup into a new folder; the program cannot read past such a row.";
    private static readonly string Correct = $" What to do: bring the catalogue again with import "
        + $"{Path.Combine(SiteOptions.SeedFolder, "plants.csv")}.";

    public static async Task<IReadOnlyList<string>> FindAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var found = new List<string>();
        foreach (var place in await SqlText.RowsAsync(db, """SELECT "Id", "Name" FROM "Neighbourhoods" ORDER BY "Id" """, cancel))
        {
            var rows = await SqlText.RowsAsync(
                db, $"""SELECT "ScientificName", "Traits" FROM "Taxa" WHERE "NeighbourhoodId" = {place[0]} AND NOT "Unlisted" ORDER BY "ScientificName" """, cancel);
            if (rows.Count == 0)
            {
                found.Add($"The catalogue of {place[1]} is empty." + Correct);
            }

            found.AddRange(Look([.. rows.Select(r => (r[0] ?? "", r[1] ?? ""))])
                .Select(f => $"Catalogue of {place[1]}, {f}{(f.EndsWith(Unreadable, StringComparison.Ordinal) ? FromBackup : Correct)}"));
        }

        var values = await SqlText.RowsAsync(db, """
            SELECT t."ScientificName", o."Trait", o."Value", t."Traits" FROM "PlantOverrides" o
            JOIN "Taxa" t ON t."NeighbourhoodId" = o."NeighbourhoodId" AND t."Id" = o."TaxonId" ORDER BY o."NeighbourhoodId", t."ScientificName", o."Trait"
            """, cancel);
        found.AddRange(values.Where(v => Read(v[3] ?? "") is { } taxon && PlantTraits.Apply(taxon with { Nativity = Nativity.Native }, v[1]
            ?? "", v[2] ?? "", "") is { Taxon: null })
            .Select(v => $"{v[0]}: the group's value for {v[1]}, {v[2]}, cannot be read and is left out. What to do: open the plant's "
            + $"page and override it anew, or take it back."));
        return found;
    }

    private static List<string> Look(IReadOnlyList<(string Name, string Traits)> rows)
    {
        var found = new List<string>();
        var names = rows.Select(r => r.Name).ToHashSet(StringComparer.Ordinal);
        var leads = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, text) in rows)
        {
            if (Read(text) is not { } taxon)
            {
                found.Add(name + Unreadable);
                continue;
            }

            if (taxon.ScientificName != name)
            {
                found.Add($"{name}: its traits, and so its synonyms, are those of "
                    + $"{taxon.ScientificName}{(names.Contains(taxon.ScientificName) ? "" : ", which is not in the catalogue")}.");
            }

            if (taxon.C is { } c && !(c is >= LeastC and <= MostC))
            {
                found.Add($"{name}: its C is {c}; C runs from {LeastC} to {MostC}.");
            }

            foreach (var synonym in taxon.Synonyms)
            {
                if (synonym is null || string.IsNullOrWhiteSpace(synonym))
                {
                    found.Add($"{name}: one of its synonyms is blank.");
                }
                else if (names.Contains(synonym))
                {
                    found.Add($"{name}: its synonym {synonym} is a taxon of its own.");
                }
                else if (!leads.TryAdd(synonym, name) && leads[synonym] != name)
                {
                    found.Add($"{name}: its synonym {synonym} leads to {leads[synonym]} as well.");
                }
            }
        }

        return found;
    }

    private static CatalogueTaxon? Read(string text)
    {
        try
        {
            return JsonSerializer.Deserialize<CatalogueTaxon>(text);
        }
        catch (Exception e) when (e is JsonException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }
}
