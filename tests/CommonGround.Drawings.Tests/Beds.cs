using CommonGround.Drawings.Scenes;

namespace CommonGround.Drawings.Tests;

/// <summary>A front bed of 300 plants of 26 kinds, as a steward would plant it; the outline bends.</summary>
internal static class Beds
{
    private static readonly (string Name, int Count, Spread Spread)[] Mix =
    [
        ("Schizachyrium scoparium", 44, Spread.Matrix), ("Sporobolus heterolepis", 44, Spread.Matrix),
            ("Bouteloua curtipendula", 18, Spread.Matrix), ("Carex brevior", 9, Spread.Matrix),
        ("Echinacea pallida", 18, Spread.Drift), ("Ratibida pinnata", 13, Spread.Drift), ("Monarda fistulosa", 15, Spread.Drift),
            ("Liatris aspera", 15, Spread.Drift),
        ("Symphyotrichum laeve", 15, Spread.Drift), ("Symphyotrichum novae-angliae", 10, Spread.Drift),
            ("Solidago speciosa", 10, Spread.Drift), ("Solidago nemoralis", 9, Spread.Drift),
        ("Asclepias tuberosa", 10, Spread.Drift), ("Dalea purpurea", 15, Spread.Drift), ("Eryngium yuccifolium", 6, Spread.Dot),
            ("Rudbeckia hirta", 10, Spread.Dot),
        ("Penstemon digitalis", 9, Spread.Drift), ("Baptisia alba", 3, Spread.Dot), ("Zizia aurea", 8, Spread.Drift),
            ("Geum triflorum", 8, Spread.Drift), ("Phlox pilosa", 4, Spread.Drift),
        ("Tradescantia ohiensis", 2, Spread.Drift), ("Allium cernuum", 2, Spread.Drift), ("Veronicastrum virginicum", 1, Spread.Dot),
            ("Silphium laciniatum", 1, Spread.Dot), ("Andropogon gerardii", 1, Spread.Dot),
    ];

    public static Bed Front { get; } = new([new(0, .2), new(3, 0), new(7, .4), new(11, 0), new(11, 2.8), new(6, 3.2), new(0, 2.6)],
        [.. Mix.Select(m => new DriftOf(SeedTable.Of(m.Name), m.Count, m.Spread))], "LA-07");
}
