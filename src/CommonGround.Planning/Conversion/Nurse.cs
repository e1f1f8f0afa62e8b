namespace CommonGround.Planning.Conversion;

/// <summary>Taxa that show by the second summer and hold the ground until the slow ones come.</summary>
/// <remarks>
/// Source: University of Wisconsin–Madison, Lakeshore Nature Preserve, prairie seed mix page, early-successional species (read 2026-11-26);
/// wet and shade lists from memory.
/// </remarks>
internal static class Nurse
{
    public const string Sunny = "Rudbeckia hirta", OfWetGround = "Verbena hastata";

    public static readonly IReadOnlySet<string> Grasses = new HashSet<string>(StringComparer.Ordinal)
    {
        "Elymus canadensis", "Elymus virginicus", "Elymus hystrix", "Elymus villosus", "Koeleria macrantha", "Glyceria striata",
            "Carex vulpinoidea",
    };

    public static readonly IReadOnlySet<string> Forbs = new HashSet<string>(StringComparer.Ordinal)
    {
        "Rudbeckia hirta", "Ratibida pinnata", "Monarda fistulosa", "Monarda punctata", "Penstemon digitalis", "Coreopsis lanceolata",
            "Heliopsis helianthoides",
        "Chamaecrista fasciculata", "Desmodium canadense", "Verbena stricta", "Echinacea purpurea", "Solidago rigida",
    };

    public static readonly IReadOnlySet<string> ForbsOfWetGround = new HashSet<string>(StringComparer.Ordinal)
    {
        "Verbena hastata", "Helenium autumnale", "Mimulus ringens", "Symphyotrichum novae-angliae", "Asclepias incarnata",
            "Eupatorium perfoliatum",
    };

    public static readonly IReadOnlySet<string> ForbsOfShade = new HashSet<string>(StringComparer.Ordinal)
    {
        "Agastache nepetoides", "Campanulastrum americanum", "Blephilia hirsuta", "Aquilegia canadensis", "Solidago ulmifolia",
            "Symphyotrichum shortii",
    };

    public static bool IsQuick(string name) => Grasses.Contains(name) || Forbs.Contains(name) || ForbsOfWetGround.Contains(name);
}
