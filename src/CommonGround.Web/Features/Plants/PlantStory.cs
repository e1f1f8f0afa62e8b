using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Plants;

/// <summary>A plant in one sentence, and its year as a chart.</summary>
public static class PlantStory
{
    public static string Lead(CatalogueTaxon taxon, Units units)
    {
        var kind = taxon.LifeForm == LifeForm.Unknown ? "plant" : PlantWords.Of(taxon.LifeForm);
        var nativity = taxon.Nativity switch { Nativity.Native => "A native", Nativity.Introduced => "An introduced", _ => "A" };
        var life = taxon.Duration.Length > 0 && taxon.LifeForm is LifeForm.Forb or LifeForm.Legume
            ? $"{taxon.Duration.ToLowerInvariant().Replace(", ", " or ", StringComparison.Ordinal).Replace("|", " or ", StringComparison.Ordinal)} " : "";
        var ground = taxon.Moisture.Count > 0 ? $" of {Words.List([.. taxon.Moisture.Select(PlantWords.Of)])} ground" : "";
        var light = taxon.Light.Count > 0 ? $" in {Words.List([.. taxon.Light.Select(PlantWords.Of)])}" : "";
        var bloom = taxon.Bloom is { } b
            ? $" It flowers {HalfMonthWords.Run(b.Start, b.End)}{(taxon.FlowerColour.Length > 0 ? $", {taxon.FlowerColour}" : "")}." : "";
        var height = taxon.HeightMaxMetres is { } h ? $" It grows to {units.LengthWords(h)}." : "";
        return $"{nativity} {life}{kind}{ground}{light}.{bloom}{height}";
    }

    public static Chart Year(CatalogueTaxon taxon, Season season, int now, double width)
    {
        var rows = new List<(string Name, BloomWindow Window, string Style, string Words)>();
        if (taxon.Bloom is { } bloom)
        {
            rows.Add(("In flower", bloom, taxon.FlowerColour.Length > 0 ? "fl-" + taxon.FlowerColour : "fl-none",
                HalfMonthWords.RunShort(bloom.Start, bloom.End)));
        }

        if (taxon is { ControlStart: { } from, ControlEnd: { } to })
        {
            rows.Add(("Usually treated", new BloomWindow(from, to), "g-plain", HalfMonthWords.RunShort(from, to)));
        }

        return YearChart.Draw($"The year of {taxon.DisplayName}", rows, season, now, width);
    }
}
