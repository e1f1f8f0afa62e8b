using CommonGround.Ecology.Phenology;
using CommonGround.Reports.Charts;
using LikenessPicture = CommonGround.Drawings.Pens.Picture;

namespace CommonGround.Reports.Labels;

/// <summary>What a plant's label says. It names no yard, no household and no place.</summary>
/// <param name="Name">Common name.</param>
/// <param name="Latin">Scientific name.</param>
/// <param name="Likeness">The plant as it is drawn in a list.</param>
/// <param name="Bloom">When it flowers; null for grasses, sedges and where no source tells.</param>
/// <param name="BloomWords">"flowers July to September"; what to say instead where there is no window.</param>
/// <param name="Colour">white, yellow, orange, red, pink, purple, blue or green; empty when not known.</param>
/// <param name="Address">The plant's public page, for the code.</param>
public sealed record PlantLabel(string Name, string Latin, LikenessPicture Likeness, BloomWindow? Bloom, string BloomWords, string Colour,
    string Address)
{
    private const double Month = 12, StripHeight = 20;
    private static readonly string[] Initials = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];

    /// <summary>Twelve months in a row, those in flower filled.</summary>
    internal Chart Strip(bool letters)
    {
        var marks = new List<Mark>();
        for (var month = 0; month < Initials.Length; month++)
        {
            marks.Add(new LineMark("g-tick", month * Month, 0, month * Month, 9));
            if (letters)
            {
                marks.Add(new TextMark("axis", (month * Month) + (Month / 2), StripHeight - 1, Initials[month], Anchor.Middle));
            }
        }

        marks.Add(new LineMark("g-tick", 12 * Month, 0, 12 * Month, 9));
        marks.Add(new LineMark("g-tick", 0, 9, 12 * Month, 9));
        if (Bloom is { } bloom)
        {
            var style = Colour.Length > 0 ? "fl-" + Colour : "solid";
            foreach (var half in Enumerable.Range(0, HalfMonth.Count).Where(bloom.Contains))
            {
                marks.Add(new RectMark(style, half * Month / 2, 1.5, Month / 2, 6));
            }
        }

        return new Chart(12 * Month, letters ? StripHeight : 10, $"{Name}: {BloomWords}", marks);
    }
}
