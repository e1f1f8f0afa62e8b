using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What seed wants before it is sown, and which kinds want it.</summary>
/// <param name="What">"chill moist for 60 days".</param>
public sealed record SeedCareNote(string What, IReadOnlyList<PlannedTaxon> Taxa);

/// <summary>Stratification, scarification and inoculation, where they matter.</summary>
/// <remarks>
/// From memory and common practice, by genus: growers' sheets differ by weeks. Grasses of the matrix, and kinds that come up without, have
/// no note. A winter sowing needs no chilling; scratching and inoculant it needs all the same.
/// </remarks>
public static class SeedCare
{
    /// <summary>Days moist and cold; a genus that is not named is sown as it is.</summary>
    private static readonly Dictionary<string, int> s_chill = new(StringComparer.Ordinal)
    {
        ["Asclepias"] = 30,
        ["Penstemon"] = 30,
        ["Echinacea"] = 30,
        ["Eryngium"] = 30,
        ["Eutrochium"] = 30,
        ["Eupatorium"] = 30,
        ["Aquilegia"] = 30,
        ["Verbena"] = 30,
        ["Drymocallis"] = 30,
        ["Chelone"] = 60,
        ["Lobelia"] = 60,
        ["Liatris"] = 60,
        ["Silphium"] = 60,
        ["Zizia"] = 60,
        ["Thalictrum"] = 60,
        ["Allium"] = 60,
        ["Gentiana"] = 60,
        ["Vernonia"] = 60,
        ["Parthenium"] = 60,
        ["Anemone"] = 60,
        ["Symphyotrichum"] = 60,
        ["Solidago"] = 60,
        ["Sisyrinchium"] = 60,
        ["Carex"] = 60,
        ["Scirpus"] = 60,
        ["Juncus"] = 60,
        ["Blephilia"] = 30,
        ["Ratibida"] = 30,
        ["Rudbeckia"] = 30,
        ["Helenium"] = 30,
        ["Heliopsis"] = 30,
        ["Mimulus"] = 60,
        ["Iris"] = 120,
        ["Polemonium"] = 60,
        ["Phlox"] = 60,
    };

    /// <summary>Hard coats.</summary>
    private static readonly HashSet<string> s_scratch = new(StringComparer.Ordinal) { "Baptisia", "Lupinus", "Astragalus", "Desmodium",
        "Lespedeza", "Chamaecrista", "Senna", "Tephrosia", "Ceanothus", "Geranium" };

    /// <summary>Legumes that have no bacteria at their roots, so far as is known.</summary>
    private static readonly HashSet<string> s_alone = new(StringComparer.Ordinal) { "Senna", "Gleditsia", "Gymnocladus", "Cercis" };

    /// <summary>Notes for the sown taxa, in order: chilling by days, scratching, inoculant. Empty when nothing matters.</summary>
    public static IReadOnlyList<SeedCareNote> Of(IEnumerable<PlannedTaxon> taxa, StartSeason start)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        var sown = taxa.Where(t => t.SeedsPerSquareMetre > 0).ToList();
        var chilled = start != StartSeason.Spring ? [] : sown.Where(t => s_chill.ContainsKey(Genus(t))).GroupBy(t => s_chill[Genus(t)])
            .OrderBy(g => g.Key)
            .Select(g => new SeedCareNote($"chill in damp sand in the refrigerator for {g.Key} days", [.. g]));
        SeedCareNote[] others =
        [
            new("rub between sandpaper until the coat is dull", [.. sown.Where(t => s_scratch.Contains(Genus(t)))]),
            new("dust with the right inoculant on the day of sowing",
                [.. sown.Where(t => t.Traits.Role == MixRole.Legume && !s_alone.Contains(Genus(t)))]),
        ];
        return [.. chilled, .. others.Where(o => o.Taxa.Count > 0)];
    }

    private static string Genus(PlannedTaxon taxon) => taxon.Taxon.ScientificName.Split(' ')[0];
}
