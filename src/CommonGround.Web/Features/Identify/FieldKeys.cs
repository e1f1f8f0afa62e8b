using System.Runtime.CompilerServices;
using CommonGround.Ecology.Identification;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Identify;

/// <summary>What can be asked of the plants of one catalogue: those of which enough is known to be asked for.</summary>
/// <param name="Identifier">Over <paramref name="Taxa"/>.</param>
/// <param name="Taxa">In the order of the matrix's rows.</param>
/// <param name="Places">Their positions in the catalogue.</param>
public sealed record FieldKey(Identifier Identifier, IReadOnlyList<CatalogueTaxon> Taxa, IReadOnlyList<int> Places);

/// <summary>The keys to the catalogues in use, made once for each.</summary>
public sealed class FieldKeys(Likenesses likenesses)
{
    /// <summary>With fewer known characters a plant would come up or stay away by chance.</summary>
    private const int FewestKnown = 8;

    private readonly Lazy<FieldMarksFile> marks = new(() => new(Shipped("field-characters.csv"), Shipped("field-states.csv"),
        Shipped("field-marks.csv")));
    private readonly ConditionalWeakTable<IReadOnlyList<CatalogueTaxon>, FieldKey> made = [];

    public IReadOnlyList<FieldCharacter> Characters => marks.Value.Characters;

    /// <summary>The key to a catalogue; it lives as long as the list does.</summary>
    public FieldKey Of(IReadOnlyList<CatalogueTaxon> catalogue) => made.GetValue(catalogue, Make);

    private FieldKey Make(IReadOnlyList<CatalogueTaxon> catalogue)
    {
        var known = catalogue.Index().Where(t => t.Item.Family.Length > 0
            && t.Item.Rank is not (RecordedRank.Genus or RecordedRank.Aggregate)
            && marks.Value.Of(t.Item, likenesses.Of(t.Item).Characters).Count >= FewestKnown).ToList();
        IReadOnlyList<CatalogueTaxon> taxa = [.. known.Select(k => k.Item)];
        var drawn = taxa.Select(t => (t.ScientificName, likenesses.Of(t).Characters)).Where(t => t.Characters is not null)
            .ToDictionary(t => t.ScientificName, t => t.Characters!, StringComparer.Ordinal);
        return new(new(marks.Value.Matrix(taxa, drawn)), taxa, [.. known.Select(k => k.Index)]);
    }

    private static byte[] Shipped(string name) => File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, name));
}
