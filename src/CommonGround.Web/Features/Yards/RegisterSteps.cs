using CommonGround.Ecology.Taxa;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>Which problem belongs to which step; a step's problems show once somebody has tried to leave it.</summary>
public sealed class RegisterSteps
{
    private static readonly string[][] Fields =
    [
        [nameof(YardDraft.BlockId), nameof(YardDraft.Code), nameof(YardDraft.Household), nameof(YardDraft.Latitude),
            nameof(YardDraft.Longitude)],
        [nameof(YardDraft.AreaSquareMetres), nameof(YardDraft.LawnSquareMetres), nameof(YardDraft.Light), nameof(YardDraft.Moisture)],
        [nameof(YardDraft.Beds)],
        [],
    ];

    private readonly HashSet<int> left = [];

    /// <summary>Leaves a step; the one to go on with, which is the same while something in it is wrong.</summary>
    public int Next(YardDraft draft, int step)
    {
        left.Add(step);
        return draft.Check().Any(p => StepOf(p.Field) == step) ? step : step + 1;
    }

    public void LeaveAll() => left.UnionWith([0, 1, 2, 3]);

    /// <summary>The code to propose for the chosen block; one that somebody typed stays.</summary>
    public static string Code(YardDraft draft, IReadOnlyList<(long Id, string Street, string Block, string NextCode)> blocks) =>
        draft.Code.Length == 0 || blocks.Any(b => b.NextCode == draft.Code) ? blocks.FirstOrDefault(b => b.Id == draft.BlockId).NextCode
            ?? "" : draft.Code;

    public IEnumerable<Problem> Visible(YardDraft draft) => draft.Check().Where(p => StepOf(p.Field) is { } step && left.Contains(step));

    public static int? StepOf(string field)
    {
        var at = Array.FindIndex(Fields, f => f.Contains(field, StringComparer.Ordinal));
        return at < 0 ? null : at;
    }
}

/// <summary>The site conditions in plain words: what to look for, not what it is called.</summary>
public static class SiteWords
{
    public static readonly IReadOnlyList<(Light Value, string Name, string Sign)> Light =
    [
        (Ecology.Taxa.Light.FullSun, "full sun", "six hours of sun or more"),
        (Ecology.Taxa.Light.PartShade, "part shade", "three to six hours, or light under thin trees"),
        (Ecology.Taxa.Light.Shade, "shade", "under three hours"),
    ];

    public static readonly IReadOnlyList<(Moisture Value, string Name, string Sign)> Moisture =
    [
        (Ecology.Taxa.Moisture.Dry, "dry", "crumbles a day after rain; lawn browns first here"),
        (Ecology.Taxa.Moisture.Medium, "medium", "damp a few days after rain, then firm"),
        (Ecology.Taxa.Moisture.Moist, "moist", "seldom dries; dark, cool to the hand"),
        (Ecology.Taxa.Moisture.Wet, "wet", "water stands after rain"),
    ];

    // NRCS hydrologic soil groups, National Engineering Handbook 630 chapter 7, in a gardener's words.
    public static readonly IReadOnlyList<(SoilGroup Value, string Name, string Sign)> Soil =
    [
        (SoilGroup.A, "A", "sand or gravel: a jar of water is gone at once"),
        (SoilGroup.B, "B", "loam: gone within minutes"),
        (SoilGroup.C, "C", "clay loam: stands a good while"),
        (SoilGroup.D, "D", "clay or a high water table: stands for hours"),
    ];
}
