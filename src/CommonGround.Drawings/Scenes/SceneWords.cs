using System.Globalization;
using CommonGround.Drawings.Plants;

namespace CommonGround.Drawings.Scenes;

/// <summary>How a reader measures.</summary>
/// <param name="Feet">The rod is a yardstick.</param>
/// <param name="Words">Metres in words.</param>
public sealed record SceneLengths(bool Feet, Func<double, string> Words);

/// <summary>The words that stand for a scene, from the same stages that drew it.</summary>
public static class SceneWords
{
    /// <summary>Plants within this distance of the walk's side of the bed make its edge, m.</summary>
    private const double Edge = .6;

    /// <summary>What must be said with every scene of a plan.</summary>
    public const string Caution = "Drawn from usual heights and dates; real plants vary. The first year is mostly green.";

    public static string Of(IReadOnlyList<Spot> spots, double eachStandsFor, int half, int year, SceneLengths? lengths = null)
    {
        ArgumentNullException.ThrowIfNull(spots);
        string Metres(double m) => lengths?.Words(m) ?? m.ToString("0.0", CultureInfo.InvariantCulture) + " m";
        var when = $"{Capital(HalfMonths.Words(half))}, {(year == 1 ? "first summer" : year == 2 ? "second year" : "third year or later")}: ";
        if (spots.Count == 0)
        {
            return when + "nothing is planted here yet, or the bed has no area.";
        }

        var near = spots.Min(s => s.At.Y);
        var kinds = spots.GroupBy(s => s.Plant)
            .Select(g => (Plant: g.Key, Count: g.Count(), Stage: g.Key.StageAt(half, year), Low: g.Average(s => s.At.Y)))
            .OrderByDescending(g => g.Count).ThenBy(g => g.Plant.ScientificName, StringComparer.Ordinal).ToList();
        var standing = kinds.Where(k => !k.Stage.Gone).ToList();
        var middle = spots.Average(s => s.At.Y);
        var open = standing.Where(k => k.Stage.Head == Head.Open && k.Plant.Characters is { HasBlades: false })
            .Select(k => $"{Shown(k.Plant.Characters!.FlowerColour)} {k.Plant.CommonName} {(k.Low < middle ? "in front" : "behind")}")
            .ToList();
        var seed = standing.Where(k => k.Stage.Head is Head.Green or Head.Ripe or Head.Winter).Select(k => k.Plant.CommonName).Take(5)
            .ToList();
        var words = when + string.Create(CultureInfo.InvariantCulture,
            $"a bed of {spots.Count * eachStandsFor:0} plants, {kinds.Count} {(kinds.Count == 1 ? "kind" : "kinds")}, to scale beside a "
                + $"{(lengths?.Feet == true ? "yardstick" : "one-metre rod")}. ");
        words += open.Count > 0 ? $"In flower: {List(open)}. " : "Nothing in flower. ";
        words += seed.Count > 0 ? $"In seed or dry: {List(seed)}. " : "";
        words += $"The tallest stand about {Metres(Tall(standing.Select(k => (k.Plant, k.Stage))))}, "
            + $"at the walk about {Metres(Tall(spots.Where(s => s.At.Y < near + Edge).Select(s => (s.Plant, s.Plant.StageAt(half, year)))))}.";
        words += eachStandsFor > 1.001 ? string.Create(CultureInfo.InvariantCulture,
            $" So many plants are thinned in the drawing: one drawn stands for about {eachStandsFor:0.#}.") : "";
        words += BedScene.Cut(spots) is { Count: > 0 } cut
            ? $" Taller than this picture and cut off at its top: {List([.. cut.Select(p => p.CommonName)])}." : "";
        var plain = kinds.Where(k => k.Plant.IsPlain).Select(k => k.Plant.CommonName).ToList();
        return plain.Count > 0 ? words + $" Shown as plain shapes, since they have not been described for drawing: {List(plain)}." : words;
    }

    /// <summary>One plant in words.</summary>
    public static string Of(Likeness plant, int half, int year, SceneLengths? lengths = null)
    {
        ArgumentNullException.ThrowIfNull(plant);
        var stage = plant.StageAt(half, year);
        if (stage.Gone)
        {
            return $"{plant.CommonName}, {HalfMonths.Words(half)}: nothing above ground.";
        }

        var doing = stage.Dead ? plant.Characters is { IsWoody: true } ? "bare branches" : "dry stems"
            : stage.Head == Head.Open && plant.Characters is { HasBlades: false } row ? $"in flower, {Shown(row.FlowerColour)}"
            : stage.Head switch
            {
                Head.Open => "heads out",
                Head.Bud => "in bud",
                Head.Green or Head.Ripe => "in seed",
                _ =>
                stage.Growth < .3 ? "coming up" : "in leaf"
            };
        var tall = Tall([(plant, stage)]);
        var height = lengths?.Words(tall) ?? (tall * 100).ToString("0", CultureInfo.InvariantCulture) + " cm";
        return $"{plant.CommonName}, {HalfMonths.Words(half)}: {doing}, about {height}."
            + (plant.Note.Length > 0 ? " " + plant.Note : "");
    }

    private static double Tall(IEnumerable<(Likeness Plant, Stage Stage)> plants) =>
        plants.Where(p => !p.Stage.Gone).Select(p => p.Plant.HeightCm * Math.Pow(p.Stage.Size, .75) * p.Stage.Growth / 100)
            .DefaultIfEmpty(0).Max();

    private static string Shown(string colour) => colour == "green" ? "greenish" : colour;

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string List(List<string> names) => names.Count < 2 ? string.Concat(names)
        : string.Join(", ", names.Take(names.Count - 1)) + " and " + names[^1];
}
