using CommonGround.Drawings.Plants;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Tours;

/// <summary>Why guests look at a plant.</summary>
public enum TourSight { InFlower, InFruit, WorthATouch }

/// <summary>A plant to show, and why.</summary>
/// <param name="State">In words; with the day where a record says so.</param>
/// <param name="Touch">What is worth a touch; always empty for what a source calls harmful.</param>
public sealed record SeenOnTour(CatalogueTaxon Taxon, TourSight Kind, string State, string Touch, double CoverSquareMetres);

/// <summary>What there is to see in a yard on a day. Pure.</summary>
public static class TourSights
{
    /// <summary>Every plant of a yard that flowers, fruits or is worth a touch, once each; none of a doubtful name.</summary>
    /// <param name="half">Half-month of the tour.</param>
    /// <param name="lately">Days within which a recorded stage counts more than the usual dates.</param>
    public static IReadOnlyList<SeenOnTour> Of(IEnumerable<PlantingLine> plantings, int half, DateOnly on, int lately,
        Func<CatalogueTaxon, Characters?> characters, IReadOnlyDictionary<string, string> touch)
    {
        ArgumentNullException.ThrowIfNull(plantings);
        ArgumentNullException.ThrowIfNull(characters);
        ArgumentNullException.ThrowIfNull(touch);
        var seen = new List<SeenOnTour>();
        foreach (var group in plantings.Where(p => p.Certainty == Certainty.Certain && p.Qualifier.Length == 0).GroupBy(p => p.Taxon))
        {
            var taxon = group.Key;
            var last = group.MaxBy(p => p.ObservedOn)!;
            var isFresh = last.GrowthStage is not null && Math.Abs(on.DayNumber - last.ObservedOn.DayNumber) <= lately;
            var felt = taxon.Toxicity.Length == 0 && taxon.ToxicityClasses.Count == 0
                ? touch.GetValueOrDefault(taxon.ScientificName, "") : "";
            TourSight? kind = isFresh
                ? last.GrowthStage switch { 6 => TourSight.InFlower, 7 or 8 => TourSight.InFruit, _ => null }
                : taxon.Bloom?.Contains(half) == true ? TourSight.InFlower
                : characters(taxon) is { } row && Stage.At(row, half, 3).Head is Head.Ripe ? TourSight.InFruit : null;
            kind ??= felt.Length > 0 ? TourSight.WorthATouch : null;
            if (kind is not { } why || (why == TourSight.WorthATouch && characters(taxon) is { } shape && Stage.At(shape, half, 3).Gone))
            {
                continue;
            }

            var state = why switch { TourSight.InFlower => "in flower", TourSight.InFruit => "in fruit or seed", _ => "worth a touch" };
            var told = isFresh && why != TourSight.WorthATouch ? $"{state}, as seen {Words.ShortDate(last.ObservedOn)}" : state;
            seen.Add(new(taxon, why, told, felt, group.Sum(p => p.CoverSquareMetres)));
        }

        return seen;
    }

    /// <summary>What guests leave alone: every plant there that harms, doubtful ones too, gravest first, each with how.</summary>
    public static IReadOnlyList<string> LeaveAlone(IEnumerable<CatalogueTaxon> taxa) =>
    [
        .. taxa.Distinct().Select(t => (Taxon: t, Harm: ToxicityGrades.Gravest(t))).Where(t => t.Harm is not null)
            .OrderBy(t => t.Harm).ThenBy(t => t.Taxon.DisplayName, StringComparer.Ordinal)
            .Select(t => $"{t.Taxon.DisplayName} ({PlantWords.Of(t.Harm!.Value).ToLowerInvariant()})"),
    ];
}
