using System.Globalization;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>Many likenesses on one sheet, each at its own scale with its height, for people who know plants to correct.</summary>
public static class LikenessSheet
{
    private const int Columns = 8;
    private const double CellWidth = 176, CellHeight = 176, Foot = 40;

    /// <param name="title">Name of the sheet.</param>
    /// <param name="plants">The plants, in order.</param>
    /// <param name="half">The half-month to draw each in.</param>
    /// <param name="year">1, 2 or 3.</param>
    public static Picture Of(string title, IReadOnlyList<Likeness> plants, Func<Likeness, int> half, int year = 3)
    {
        ArgumentNullException.ThrowIfNull(plants);
        ArgumentNullException.ThrowIfNull(half);
        var items = new List<Item>();
        for (var i = 0; i < plants.Count; i++)
        {
            var plant = plants[i];
            var x = 20 + ((i % Columns) * CellWidth) + (CellWidth / 2);
            var y = 46 + ((i / Columns) * CellHeight) + CellHeight - Foot;
            var scale = Math.Min((CellHeight - Foot - 10) / plant.HeightCm,
                (CellWidth - 16) / Math.Max(plant.SpreadCm * 1.15, plant.HeightCm * .35));
            // A rosette of the first summer fills its cell as well as a grown plant does.
            var first = Bounds.Of(plant.Draw(half(plant), year, "1", scale, .8));
            if (first is { } box)
            {
                scale *= Math.Clamp(Math.Min((CellHeight - Foot - 14) / Math.Max(8, -box.Top),
                    (CellWidth - 14) / Math.Max(10, 2 * Math.Max(-box.Left, box.Right))), .4, 7);
            }

            var strokes = plant.Draw(half(plant), year, "1", scale, .8);
            items.Add(new Drawn(Moved.By([.. Ground.Line(56, plant.ScientificName), .. strokes], x, y)));
            var tall = Bounds.Of(strokes) is { } drawn ? Math.Max(0, -drawn.Top / scale) : 0;
            items.Add(new Label("small", x, y + 18, plant.CommonName, LabelAnchor.Middle));
            items.Add(new Label("small", x, y + 33,
                $"{(year >= 3 ? plant.HeightCm : tall).ToString("0", CultureInfo.InvariantCulture)} cm, {HalfMonths.Words(half(plant))}",
                LabelAnchor.Middle));
        }

        items.Add(new Label("head", 20, 28, title));
        var rows = (plants.Count + Columns - 1) / Columns;
        return new Picture(40 + (Columns * CellWidth), 56 + (rows * CellHeight), title,
            $"{title}: {plants.Count} plants, each drawn from its characters at a scale of its own.", items, new Dictionary<string,
            IReadOnlyList<Stroke>>());
    }
}
