using System.Collections.Concurrent;
using System.Globalization;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Tests;

public class LikenessTests
{
    private static int Middle(Characters c) => c.TallestIn;

    [Fact]
    public void Every_plant_is_drawn_as_tall_as_its_row_says()
    {
        var wrong = new ConcurrentBag<string>();
        Parallel.ForEach(SeedTable.Likenesses, plant =>
        {
            var scale = 180 / plant.HeightCm;
            var tall = Enumerable.Range(0, 9)
                .Average(i => -Bounds.Of(plant.Draw(Middle(plant.Characters!), 3, "tall" + i, scale))!.Value.Top / scale);
            if (Math.Abs((tall / plant.HeightCm) - 1) > .08)
                wrong.Add(FormattableString.Invariant($"{plant.ScientificName} {tall:0} for {plant.HeightCm:0} cm"));
        });

        wrong.ShouldBeEmpty();
    }

    [Fact]
    public void A_hundred_individuals_of_every_plant_have_no_broken_stroke_and_stay_in_their_box()
    {
        var wrong = new ConcurrentBag<string>();
        Parallel.ForEach(SeedTable.Likenesses, plant =>
        {
            var scale = 60 / plant.HeightCm;
            var row = plant.Characters!;
            for (var i = 0; i < 100; i++)
            {
                var half = i % 4 == 0 ? Middle(row) : (i * 7) % 24;
                var strokes = plant.Draw(half, 1 + (i % 3), i.ToString(CultureInfo.InvariantCulture), scale, .5);
                if (strokes.FirstOrDefault(Broken) is { Ink: not null } broken)
                    wrong.Add($"{plant.ScientificName}, individual {i}, half-month {half}: {broken.Ink}");
                var reach = scale * Math.Max(plant.HeightCm * 1.5, plant.SpreadCm * 2.2) + 14;
                if (Bounds.Of(strokes) is { } box && (box.Left < -reach || box.Right > reach || box.Top < -(1.5 * 60) - 14
                    || box.Bottom > (.4 * scale * plant.SpreadCm) + 16))
                {
                    wrong.Add($"{plant.ScientificName}, individual {i}, half-month {half}: {box}");
                }
            }
        });

        wrong.ShouldBeEmpty();
    }

    [Fact]
    public void The_same_input_draws_the_same_bytes()
    {
        foreach (var plant in SeedTable.Likenesses.Where((_, i) => i % 12 == 0))
        {
            var again = Likeness.Of(plant.Characters!);
            Svg(plant).ShouldBe(Svg(again), plant.ScientificName);
        }

        static string Svg(Likeness l) => SvgPen.File(new Picture(100, 100, "x", "x", [new Drawn(l.Draw(13, 3, "a", 1.2))],
            new Dictionary<string, IReadOnlyList<Stroke>>()));
    }

    [Fact]
    public void An_individual_keeps_its_stems_from_flower_to_winter()
    {
        var plant = SeedTable.Of("Echinacea pallida");
        static double Lean(IReadOnlyList<Stroke> strokes) =>
            Bounds.Of(strokes.Where(s => s.Ink[0] == 'h').Concat(strokes.Where(s => s.Ink is "f-dark" or "f-brown")))!.Value is var b
            ? (b.Left + b.Right) / 2 : 0;
        foreach (var who in new[] { "a", "b", "c" }) Lean(plant.Draw(19, 3, who, 2)).ShouldBe(Lean(plant.Draw(22, 3, who, 2)), 14);
        plant.Draw(19, 3, "a", 2).ShouldNotBe(plant.Draw(19, 3, "b", 2));
    }

    /// <summary>Colour is seen when the table of the catalogue says the plant flowers, and in no other half-month.</summary>
    [Fact]
    public void The_flowers_colour_is_seen_in_the_bloom_window_of_the_catalogue_and_not_outside_it()
    {
        var wrong = new ConcurrentBag<string>();
        var rows = SeedTable.Likenesses.ToDictionary(l => l.ScientificName);
        Parallel.ForEach(SeedTable.Taxa.Where(t => t.Bloom is not null && rows.ContainsKey(t.ScientificName)), taxon =>
        {
            var plant = rows[taxon.ScientificName];
            var row = plant.Characters!;
            var fruit = row.SeedHead != "none" && (row.SeedColour == row.FlowerColour || row.FlowerColour is "green" or "white" or "red");
            for (var half = 0; half < 24; half++)
            {
                var area = ColourArea(plant.Draw(half, 3, "bloom", 200 / plant.HeightCm), "f-" + row.FlowerColour);
                var open = half >= taxon.Bloom!.Value.Start && half <= taxon.Bloom.Value.End;
                if (open && row.Inflorescence != "none" && area <= 0)
                    wrong.Add($"{row.ScientificName} shows no {row.FlowerColour} in half-month {half}");
                if (!open && !fruit && area > 0) wrong.Add($"{row.ScientificName} shows {row.FlowerColour} in half-month {half}");
            }
        });

        wrong.ShouldBeEmpty();
    }

    private static double ColourArea(IEnumerable<Stroke> strokes, string ink) =>
        strokes.Where(s => s.Ink == ink || s.Ink.StartsWith(ink + " ", StringComparison.Ordinal))
        .Sum(s => s.Path is null ? Math.PI * s.Radius * s.Radius : Bounds.Of([s]) is { } b
            ? Math.Max(0, (b.Right - b.Left) * (b.Bottom - b.Top)) : 0);

    private static bool Broken(Stroke s) => s.Path is null
        ? !double.IsFinite(s.Centre.X) || !double.IsFinite(s.Centre.Y) || !double.IsFinite(s.Radius) || s.Radius <= 0
        : s.Path.Steps.Count < 2 || s.Path.Steps.Any(p => !double.IsFinite(p.To.X) || !double.IsFinite(p.To.Y)
            || !double.IsFinite(p.Control.X) || !double.IsFinite(p.Control.Y));
}
