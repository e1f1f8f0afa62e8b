using CommonGround.Ecology.Sites;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Streets;

/// <summary>What a map class looks like and means.</summary>
public sealed record MapClass(string Style, string Label);

/// <summary>A measure the map can show: its class and figure for a block, and its key.</summary>
public sealed record MapMeasure(string Id, string Word, string KeyTitle, IReadOnlyList<MapClass> Classes, Func<SiteMeasures, int> ClassOf,
    Func<SiteMeasures, string> FigureOf)
{
    public static MapMeasure LateSeason(Figures figures) => new("late", "Late season", $"Half-months covered, of {figures.LateHalves}",
        [.. Enumerable.Range(0, 6).Select(i => new MapClass($"cv{i}", $"{i}"))], s => Math.Min(5, figures.LateCovered(s)),
            s => $"{figures.LateCovered(s)}");

    public static MapMeasure WholeSeason(Figures figures) =>
        new("season", "Whole season", $"Half-months covered, of {figures.SeasonHalves}",
        Cover("0–2", "3–5", "6–8", "9–10", "11–12", "13–14"), s => Step(figures.SeasonCovered(s), 3, 6, 9, 11, 13),
            s => $"{figures.SeasonCovered(s)}");

    public static MapMeasure InFlower(int half) => new("flower", "In flower", $"Native species in flower, {HalfMonthWords.Of(half)}",
        Cover("0", "1", "2", "3–5", "6–9", "10+"), s => Step(s.Bloom.HalfMonths[half].N, 1, 2, 3, 6, 10),
            s => $"{s.Bloom.HalfMonths[half].N}");

    public static MapMeasure NativeTaxa { get; } = new("taxa", "Native kinds", "Native kinds growing",
        Cover("0–9", "10–19", "20–29", "30–39", "40–59", "60+"), s => Step(s.NativeRichness, 10, 20, 30, 40, 60),
            s => $"{s.NativeRichness}");

    public static MapMeasure FloristicQuality { get; } = new("quality", "Old habitats",
        "Fidelity of the natives to old habitats (mean C), 0–10",
        Cover("under 3", "3–3.9", "4–4.4", "4.5–4.9", "5–5.9", "6+"), s => Step((int)((s.NativeMeanC ?? 0) * 10), 30, 40, 45, 50, 60),
            s => s.NativeMeanC is { } c ? c.ToString("0.0") : "–");

    public static MapMeasure Pressure { get; } = new("pressure", "Invasive pressure", "Invasive pressure, m²-equivalents",
        [new("pr1", "under 1"), new("pr2", "1–2.9"), new("pr3", "3–7.9"), new("pr4", "8–19"), new("pr5", "20+")],
        s => s.InvasivePressureSquareMetres switch { < 1 or null => 0, < 3 => 1, < 8 => 2, < 20 => 3, _ => 4 },
        s => s.InvasivePressureSquareMetres is { } p ? p.ToString(p < 10 ? "0.#" : "0") : "–");

    public static IReadOnlyList<MapMeasure> All(Figures figures, int half) => [LateSeason(figures), WholeSeason(figures), InFlower(half),
        NativeTaxa, FloristicQuality, Pressure];

    private static List<MapClass> Cover(params string[] labels) => [.. labels.Select((label, i) => new MapClass($"cv{i}", label))];

    private static int Step(int value, params int[] from) => from.Count(f => value >= f);
}
