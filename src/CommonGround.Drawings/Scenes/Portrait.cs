using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>A time of a plant's year that is worth a picture.</summary>
/// <param name="Key">spring, flower, seed or winter.</param>
/// <param name="Word">What it is called beside the picture.</param>
/// <param name="Half">Half-month, 0–23.</param>
public sealed record Moment(string Key, string Word, int Half);

/// <summary>One plant by itself: beside a rule at four times of its year, its telling marks enlarged, and small for lists.</summary>
public static class Portrait
{
    private const double Width = 280, Height = 320, Foot = 14, Head = 8, RodAt = 14, Left = 26;
    private static readonly Dictionary<string, IReadOnlyList<Stroke>> s_none = [];

    /// <summary>The four times, in the order of the year.</summary>
    public static IReadOnlyList<Moment> Moments(Likeness plant)
    {
        ArgumentNullException.ThrowIfNull(plant);
        if (plant.Characters is not { Inflorescence: not "none" } row)
        {
            var emerges = plant.Characters?.Emerges ?? 6;
            return [new("spring", "in spring", emerges + 1), new("flower", "in summer", 13), new("seed", "in autumn", 19),
                new("winter", "in winter", 0)];
        }

        var flower = (row.BloomFrom + row.BloomTo) / 2;
        if (row.FlowersAtTheGround)
        {
            return [new("flower", "in flower", flower), new("spring", "in leaf", row.TallestIn), new("seed", "dying back",
                row.DiesBack - 1), new("winter", "in winter", 0)];
        }

        // Never while it still flowers: a late aster is in seed after the frost.
        var seed = Math.Max(row.BloomTo + 1, Math.Clamp(row.BloomTo + 3, flower + 1, Math.Max(flower + 1, row.DiesBack - 1)));
        var first = row.BloomFrom - row.Emerges >= 3
            ? new Moment("spring", "in spring", Math.Min(row.Emerges + 2, row.BloomFrom - 2))
            : new Moment("spring", "first growth", Math.Max(0, Math.Min(row.Emerges, row.BloomFrom - 1)));
        return [first, new("flower", row.HasBlades ? "heads out" : "in flower", flower), new("seed", "in seed", Math.Min(seed, 22)),
            new("winter", "in winter", 0)];
    }

    /// <summary>A grown plant beside the rule, at one scale for all four times.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="moment">When.</param>
    /// <param name="feet">A yardstick instead of a metre.</param>
    /// <param name="description">What the picture says in words.</param>
    public static Picture At(Likeness plant, Moment moment, bool feet, string description)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(moment);
        var (k, x) = (Scale(plant), Left + ((Width - Left) / 2));
        var ground = Height - Foot;
        IReadOnlyList<Stroke> strokes = [.. Ground.Line((Width - Left - 12) / 2, plant.ScientificName),
            .. plant.Draw(moment.Half, 3, "1", k)];
        var rod = Rod.Draw(RodAt, ground, k, feet, (ground - Head) / k);
        return new Picture(Width, Height, $"{plant.CommonName}, {moment.Word}", description,
            [new Drawn(rod), new Drawn(Moved.By(strokes, x, ground))], s_none);
    }

    /// <summary>How much of the rule is seen beside it, cm: a plant of a hand's height is not drawn beside a whole metre.</summary>
    public static double ShownCm(Likeness plant) => (Height - Foot - Head) / Scale(plant);

    /// <summary>Marks by which it is told: the flower or stand, a leaf, the seed; none of a silhouette.</summary>
    public static IReadOnlyList<string> Marks(Likeness plant)
    {
        ArgumentNullException.ThrowIfNull(plant);
        return plant.Characters is not { } row ? []
            : [.. new[] { row.Inflorescence == "none" ? "" : "flower", "leaf", row.SeedHead == "none" || row.Inflorescence == "none" ? ""
            : "seed" }.Where(m => m.Length > 0)];
    }

    /// <summary>One mark, as large as its square allows.</summary>
    public static Picture Mark(Likeness plant, string what, string description)
    {
        ArgumentNullException.ThrowIfNull(plant);
        const double side = 150;
        return Fitted(side, 5, k => plant.Mark(what, k), 10, $"{plant.CommonName}: {what}", description);
    }

    /// <summary>Small, for a list: in flower, or fully grown.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="side">Px of its square.</param>
    public static Picture Small(Likeness plant, double side = 44)
    {
        ArgumentNullException.ThrowIfNull(plant);
        var half = plant.Characters is { Inflorescence: not "none" } row ? (row.BloomFrom + row.BloomTo) / 2 : 13;
        return Fitted(side, 2, k => plant.Draw(half, 3, "1", k, .4), .9 * side / plant.HeightCm, plant.CommonName,
            SceneWords.Of(plant, half, 3));
    }

    private static double Scale(Likeness plant) =>
        Math.Min((Height - Foot - Head) / Math.Max(plant.HeightCm * 1.12, 24), (Width - Left - 8) / Math.Max(plant.SpreadCm * 1.25, 10));

    private static Picture Fitted(double side, double edge, Func<double, IReadOnlyList<Stroke>> draw, double first, string title,
        string description)
    {
        var k = first;
        var strokes = draw(k);
        for (var pass = 0; pass < 2 && Bounds.Of(strokes) is { } box; pass++)
        {
            k *= (side - (2 * edge)) / Math.Max(1, Math.Max(box.Right - box.Left, box.Bottom - box.Top));
            strokes = draw(k);
        }

        var at = Bounds.Of(strokes) ?? new Bounds(0, 0, 0, 0);
        return new Picture(side, side, title, description,
            [new Drawn(Moved.By(strokes, (side / 2) - ((at.Left + at.Right) / 2), (side / 2) - ((at.Top + at.Bottom) / 2)))], s_none);
    }
}
