using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Invasives;

/// <summary>The control calendar that came with the program, read once when somebody first asks.</summary>
public static class ControlCalendar
{
    private static readonly Lazy<IReadOnlyDictionary<string, UnwantedTaxon>> All = new(() => UnwantedFiles.Read(Bytes));
    private static readonly Lazy<EfficacyClasses> Shares = new(() => UnwantedFiles.ReadClasses(Bytes));

    public static EfficacyClasses Classes => Shares.Value;

    /// <summary>What is held of one plant; null where it is nothing.</summary>
    public static UnwantedTaxon? Of(string scientificName) => All.Value.GetValueOrDefault(scientificName);

    /// <summary>Whether a plant that somebody records as planted is asked about: introduced, and on the calendar or of known
    /// harm.</summary>
    public static bool IsUnwanted(CatalogueTaxon taxon) => taxon.Nativity == Nativity.Introduced
        && (Of(taxon.ScientificName) is { IsNative: false } || taxon.ImpactRank != ImpactRank.Unranked);

    /// <summary>Low and high end of a plant's dispersal distance, m; null where no range is held.</summary>
    public static Span? Distance(string scientificName) => Of(scientificName)?.Spread?.Metres;

    private static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "unwanted", name));
}
