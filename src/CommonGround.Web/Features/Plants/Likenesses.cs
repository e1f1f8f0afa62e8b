using System.Globalization;
using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Security.Cryptography;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Hosting;
using CommonGround.Web.Shared;
using Microsoft.Extensions.Caching.Memory;

namespace CommonGround.Web.Features.Plants;

/// <summary>How every plant is drawn: the table that came with the program, read once, and what was drawn of it lately.</summary>
/// <remarks>A plant's first drawing measures how much it is stretched (some milliseconds); likenesses live as long as the program, so that
/// happens once.</remarks>
public sealed class Likenesses : IDisposable
{
    /// <summary>Characters of SVG text that are kept: about 32 MB.</summary>
    private const long Kept = 16_000_000;

    private readonly Lazy<(FrozenDictionary<string, Likeness> Plants, string Hash)> table = new(Read);
    private readonly ConcurrentDictionary<(string Latin, string Name), Likeness> renamed = [];
    private readonly MemoryCache drawn = new(new MemoryCacheOptions { SizeLimit = Kept });

    /// <summary>The plant as it is drawn; the plain shape of its life form where nobody has described it.</summary>
    public Likeness Of(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        // One plant has one name: the catalogue's, which a group may have changed.
        return table.Value.Plants.GetValueOrDefault(taxon.ScientificName) is { } drawn
            ? renamed.GetOrAdd((taxon.ScientificName, taxon.DisplayName), key => drawn.Called(key.Name)) : Likeness.Plain(taxon);
    }

    /// <summary>Every plant that has been described, by name.</summary>
    internal IEnumerable<Likeness> All => table.Value.Plants.Values.OrderBy(l => l.ScientificName, StringComparer.Ordinal);

    /// <summary>Changes whenever the plant may look different: with the table, with the program, and for a plain shape with its
    /// height.</summary>
    public string HashOf(Likeness plant)
    {
        ArgumentNullException.ThrowIfNull(plant);
        return plant.IsPlain ? string.Create(CultureInfo.InvariantCulture, $"{table.Value.Hash}-{plant.Form}-{plant.HeightCm:0}")
            : table.Value.Hash;
    }

    /// <summary>Changes with the table and the program.</summary>
    public string TableHash => table.Value.Hash;

    /// <summary>Where a picture of a plant is fetched; the address changes when the picture does, so it may be kept for ever.</summary>
    /// <param name="taxon">The plant.</param>
    /// <param name="picture">likeness, a moment's key, or a mark.</param>
    /// <param name="theme">system, light or dark.</param>
    /// <param name="feet">A yardstick beside it.</param>
    public string Address(CatalogueTaxon taxon, string picture, string theme, bool feet = false) =>
        $"{PlantLink.To(taxon)}/drawn/{picture}.svg?v={HashOf(Of(taxon))}{(theme is "light" or "dark" ? "&look=" + theme : "")}{(feet ? "&feet=1" : "")}";

    /// <summary>A picture as SVG, from memory where it was drawn lately.</summary>
    /// <param name="key">What is drawn, all of it.</param>
    /// <param name="theme">system, light or dark.</param>
    /// <param name="draw">Draws it.</param>
    public string Svg(string key, string? theme, Func<Picture> draw)
    {
        var element = drawn.GetOrCreate(key, entry =>
        {
            var text = SvgPen.Element(draw(), "p");
            entry.Size = text.Length;
            return text;
        })!;
        return SvgPen.WithRules(element, theme switch
        {
            "light" => StyleSheet.Alone(Theme.Light),
            "dark" => StyleSheet.Alone(Theme.Dark),
            _ => StyleSheet.Alone(null)
        });
    }

    public void Dispose() => drawn.Dispose();

    private static (FrozenDictionary<string, Likeness> Plants, string Hash) Read()
    {
        var bytes = File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "characters.csv"));
        var hand = typeof(Likeness).Assembly.ManifestModule.ModuleVersionId.ToByteArray();
        var hash = Convert.ToHexStringLower(SHA256.HashData([.. bytes, .. hand]))[..10];
        return (CharactersFile.Read("characters.csv", bytes).Select(Likeness.Of).ToFrozenDictionary(l => l.ScientificName,
            StringComparer.Ordinal), hash);
    }
}
