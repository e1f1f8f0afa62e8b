using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Plants;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>The neighbourhood's taxa by name, with what an import adds to them.</summary>
internal sealed class TaxonLookup
{
    private const int LongestName = 200, MostProposals = 6;
    private readonly CommonGroundDb db;
    private readonly int neighbourhoodId;
    private readonly ImportChoices choices;
    private readonly Dictionary<string, Taxon> byName;

    /// <summary>Plain names as this import met them; case does not make another plant.</summary>
    private readonly Dictionary<string, Taxon> plainNames = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Taxa by the name as written: a file names the same few plants over and over.</summary>
    private readonly Dictionary<string, Taxon?> resolved = new(StringComparer.Ordinal);
    private NameIndex index;
    private int lastId;
    private readonly ILookup<int, PlantOverride> overrides;

    private TaxonLookup(CommonGroundDb db, int neighbourhoodId, ImportChoices choices, List<Taxon> taxa, List<PlantOverride> overrides)
    {
        this.overrides = overrides.ToLookup(o => o.TaxonId);
        this.db = db;
        this.neighbourhoodId = neighbourhoodId;
        this.choices = choices;
        byName = taxa.ToDictionary(t => t.ScientificName, StringComparer.Ordinal);
        lastId = taxa.Count == 0 ? 0 : taxa.Max(t => t.Id);
        index = Index();
    }

    public static async Task<TaxonLookup> OpenAsync(CommonGroundDb db, int neighbourhoodId, ImportChoices choices,
        CancellationToken cancel) =>
        new(db, neighbourhoodId, choices, await db.Taxa.ToListAsync(cancel),
            await db.PlantOverrides.AsNoTracking().ToListAsync(cancel));

    /// <summary>What holds here: the catalogue's values, and those the group has put in their place.</summary>
    public CatalogueTaxon TraitsOf(Taxon taxon) => GroupTraits.Of(taxon.Traits, overrides[taxon.Id]);

    /// <summary>Brings the catalogue up to date from plants files among the imported.</summary>
    public void TakeCatalogue(IReadOnlyList<ImportFile> files, ImportFindings ledger)
    {
        foreach (var entry in files.SelectMany(f => f.Taxa))
        {
            var (added, changed) = Take(entry);
            ledger.Count("plants", added, changed);
        }

        index = Index();
        resolved.Clear();
    }

    public (bool Added, bool Changed) Take(CatalogueTaxon entry)
    {
        if (!byName.TryGetValue(entry.ScientificName, out var taxon))
        {
            Add(entry, unlisted: false);
            return (true, false);
        }

        var changed = taxon.Unlisted || !SameTraits(taxon.Traits, entry);
        if (changed)
        {
            (taxon.Traits, taxon.Unlisted) = (entry, false);
        }

        return (false, changed);
    }

    /// <summary>The taxon a written name means; an error with the nearest names when it means none.</summary>
    public Taxon? Resolve(TaxonName name, string file, int line, ImportFindings ledger)
    {
        if (!resolved.TryGetValue(name.Name, out var taxon))
        {
            taxon = index.Meant(name.Name) is { } found ? byName[found.ScientificName] : Genus(name.Name);
            resolved[name.Name] = taxon;
        }

        if (taxon is not null)
        {
            return taxon;
        }

        if (choices.AllowUnlisted || choices.Unlisted.Contains(name.Name))
        {
            return ledger.TooLong(file, line, "scientific_name", name.Name, LongestName) ? null : Plain(name.Name);
        }

        var near = ledger.Unknown(name.Name, $"{file}, line {line}", () => index.Propose(name.Name, MostProposals),
            () => index.GeneraOf(name.Name, 2));
        ledger.Refuse(file, line, "scientific_name", name.Name, "The catalogue does not list this name.",
            (near.Count > 0 ? $"Did you mean {string.Join(", ", near.Take(3).Select(n => n.Taxon.ScientificName))}? Or allow"
                : "Check it, or allow")
                + " names that the catalogue does not list, when you import the file.");
        return null;
    }

    /// <summary>"Solidago sp." says itself that it stops at the genus, and is recorded so.</summary>
    private Taxon? Genus(string name) => RecordedName.StopsAboveSpecies(name) && index.Genus(name.Split(' ')[0]) is not null
        && name.Length <= LongestName ? Plain(name) : null;

    private Taxon Plain(string name)
    {
        if (!plainNames.TryGetValue(name, out var taxon))
        {
            var entry = RecordedName.Of(name, index);
            // "Asclepias sp." and "Asclepias" are one record of a genus.
            taxon = byName.GetValueOrDefault(entry.ScientificName) ?? Add(entry, unlisted: true);
            plainNames[name] = taxon;
        }

        return taxon;
    }

    private Taxon Add(CatalogueTaxon entry, bool unlisted)
    {
        var taxon = new Taxon
        {
            NeighbourhoodId = neighbourhoodId,
            Id = ++lastId,
            ScientificName = entry.ScientificName,
            Unlisted = unlisted,
            Traits = entry
        };
        byName[entry.ScientificName] = taxon;
        db.Taxa.Add(taxon);
        return taxon;
    }

    private NameIndex Index() => new([.. byName.Values.Select(t => t.Traits)]);

    private static bool SameTraits(CatalogueTaxon a, CatalogueTaxon b) =>
        System.Text.Json.JsonSerializer.Serialize(a) == System.Text.Json.JsonSerializer.Serialize(b);
}
