using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.Water;

namespace CommonGround.Planning.Tests.Water;

/// <summary>Ground and weather made up for the sums.</summary>
internal static class Ground
{
    public static ConversionRequest Request(double squareMetres = 100, PresentCover cover = PresentCover.GoodTurf,
        SoilGroup soil = SoilGroup.C, Light light = Light.FullSun) => new()
        {
            Areas = [new ConversionArea("front", squareMetres, [])],
            Light = light,
            Moisture = Moisture.Medium,
            SoilGroup = soil,
            PresentCover = cover,
        };

    /// <summary>2025, every day alike but for what <paramref name="change"/> does to it.</summary>
    public static IReadOnlyList<DailyWeather> Year(double tmin = 12, double tmax = 24, double rain = 2,
        Func<DailyWeather, DailyWeather?>? change = null) =>
        [.. Enumerable.Range(0, 365).Select(i => new DailyWeather(new DateOnly(2025, 1, 1).AddDays(i), tmin, tmax, rain))
            .Select(d => change is null ? d : change(d)).OfType<DailyWeather>()];
}
