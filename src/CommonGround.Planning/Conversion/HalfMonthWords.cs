using System.Globalization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Planning.Conversion;

/// <summary>Half-months as people say them: "early April", "late April".</summary>
internal static class HalfMonthWords
{
    public static string Of(int halfMonth) =>
        (halfMonth % 2 == 0 ? "early " : "late ") + CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(HalfMonth.FirstDay(halfMonth,
            2001).Month);
}
