using BenchmarkDotNet.Attributes;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Hosting;

namespace CommonGround.Benchmarks;

/// <summary>Targets: a portrait 5 ms; a scene of 300 plants 80 ms; the slider's next picture, the server's part of it, well under
/// 150 ms.</summary>
public class Drawn
{
    private static readonly (string Name, int Count, Spread Spread)[] Mix =
    [
        ("Schizachyrium scoparium", 60, Spread.Matrix), ("Sporobolus heterolepis", 60, Spread.Matrix),
            ("Bouteloua curtipendula", 20, Spread.Matrix), ("Echinacea pallida", 20, Spread.Drift),
        ("Ratibida pinnata", 15, Spread.Drift), ("Monarda fistulosa", 15, Spread.Drift), ("Liatris aspera", 15, Spread.Drift),
            ("Symphyotrichum laeve", 15, Spread.Drift),
        ("Symphyotrichum novae-angliae", 12, Spread.Drift), ("Solidago speciosa", 12, Spread.Drift),
            ("Asclepias tuberosa", 12, Spread.Drift), ("Dalea purpurea", 14, Spread.Drift),
        ("Eryngium yuccifolium", 8, Spread.Dot), ("Penstemon digitalis", 10, Spread.Drift), ("Zizia aurea", 6, Spread.Drift),
            ("Geum triflorum", 6, Spread.Drift),
    ];

    private static readonly Likenesses Kept = new();

    private Likeness portrait = default!;
    private Likeness[] all = default!;
    private Bed bed = default!;
    private int next;

    [GlobalSetup]
    public void Read()
    {
        all = [.. CharactersFile.Read("characters.csv", File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "characters.csv")))
            .Select(Likeness.Of)];
        portrait = all.Single(l => l.ScientificName == "Symphyotrichum novae-angliae");
        bed = new Bed([new(0, 0), new(11, 0), new(11, 3), new(0, 3)],
            [.. Mix.Select(m => new DriftOf(all.Single(l => l.ScientificName == m.Name), m.Count, m.Spread))], "LA-07");
        Scene();
        foreach (var plant in all) plant.Draw(12, 3, "1", 1);
    }

    [Benchmark(Description = "Portrait of one plant, 250 px, as SVG")]
    public string Portrait() => SvgPen.Element(new Picture(300, 260, "", "",
        [new CommonGround.Drawings.Pens.Drawn(portrait.Draw(16, 3, "1", 1.8))], new Dictionary<string,
        IReadOnlyList<CommonGround.Drawings.Strokes.Stroke>>()), "p");

    [Benchmark(Description = "Likeness of 44 px, the next of all each time")]
    public object Small() => all[next++ % all.Length] is var plant ? plant.Draw(12, 3, "1", 40 / plant.HeightCm, .4) : all;

    [Benchmark(Description = "Scene of 300 plants in September, as SVG")]
    public string Scene() => SvgPen.Element(BedScene.Of(bed, 16, 3, new HouseFront(Story.One, Door.Middle, 2, FrontWalk.Straight)), "s");

    [Benchmark(Description = "The slider's next half-month, never asked for before")]
    public string Slider() => Kept.Svg($"{++next}", null, () => BedScene.Of(bed, next % 24, 3, widthPx: 1100, title: null));
}
