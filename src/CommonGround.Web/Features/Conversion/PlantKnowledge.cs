using System.Runtime.CompilerServices;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A catalogue with its mix traits, and who comes to its plants.</summary>
public sealed record KnownPlants(IReadOnlyList<CatalogueTaxon> Catalogue, ForageIndex Forage);

/// <summary>Mix traits and the record of visitors that came with the program, read once.</summary>
public sealed class PlantKnowledge
{
    private readonly Lazy<(MixTraitsTable Traits, VisitorRecords Visitors)> files = new(Read);
    private readonly ConditionalWeakTable<IReadOnlyList<CatalogueTaxon>, KnownPlants> known = [];

    /// <summary>The same catalogue with traits and visitors; worked out once for each catalogue.</summary>
    public KnownPlants Of(IReadOnlyList<CatalogueTaxon> catalogue) => known.GetValue(catalogue, taxa =>
    {
        IReadOnlyList<CatalogueTaxon> with = [.. taxa.Select(files.Value.Traits.With)];
        return new(with, new(files.Value.Visitors, with));
    });

    private static (MixTraitsTable Traits, VisitorRecords Visitors) Read()
    {
        static byte[] Bytes(params string[] path) => File.ReadAllBytes(Path.Combine([SiteOptions.SeedFolder, .. path]));
        var traits = MixTraitsFile.Read("mix-attributes.csv", Bytes("mix-attributes.csv"));
        var (visitors, errors) = VisitorFile.Read(Bytes("visitors", "visitors.csv"), Bytes("visitors", "plants.csv"));
        ImportError[] wrong = [.. traits.Errors, .. errors];
        return wrong.Length == 0 ? (traits, visitors)
            : throw new InvalidOperationException("The program's own plant files cannot be read: " + string.Join(" ",
            wrong.Take(3).Select(e => $"{e.File} line {e.Line}: {e.What}")) + " What to do: install the program again.");
    }
}
