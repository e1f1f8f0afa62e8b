using CommonGround.Interchange.Csv;

namespace CommonGround.DemoData;

/// <summary>Two invented years of daily weather with the seasons of northern Illinois: monthly means and rain days from memory,
/// rounded.</summary>
internal static class Weather
{
    private static readonly DateOnly First = new(2024, 8, 20), Last = new(2026, 8, 19);

    /// <summary>By month: mean lowest and highest temperature, °C; days with rain in 100; mean fall of such a day, mm.</summary>
    private static readonly (double Low, double High, int RainDays, double Fall)[] Months =
    [
        (-10, -1, 30, 4.5), (-8, 1, 30, 4.5), (-2, 8, 33, 6), (4, 15, 37, 8), (10, 21, 37, 9.5), (15, 27, 33, 11),
        (18, 29, 29, 11.5), (17, 28, 29, 12), (12, 24, 27, 10.5), (5, 17, 29, 8.5), (-1, 9, 31, 7), (-7, 2, 31, 5.5),
    ];

    public static IEnumerable<RainRow> Rain()
    {
        var chance = new Chance("rain");
        foreach (var day in Days())
        {
            var month = Months[day.Month - 1];
            // Falls are exponential: many small ones, a few storms.
            var fall = chance.Happens(month.RainDays / 100.0) ? Math.Round(-month.Fall * Math.Log(1 - (0.999 * chance.Share())), 1) : 0;
            yield return new RainRow(0, day, fall);
        }
    }

    public static IEnumerable<TemperatureRow> Temperatures()
    {
        var chance = new Chance("temperature");
        double spell = 0;
        foreach (var day in Days())
        {
            // Warm and cold spells carry over from day to day.
            spell = (0.8 * spell) + chance.Between(-3, 3);
            var (low, high) = Mean(day);
            yield return new TemperatureRow(0, day, Math.Round(low + spell, 1),
                Math.Round(Math.Max(low + 1, high + chance.Between(-2, 2)) + spell, 1));
        }
    }

    /// <summary>Between the middles of two months, in a straight line.</summary>
    private static (double Low, double High) Mean(DateOnly day)
    {
        var middle = (day.Day - 15.5) / 30.5;
        var (here, next) = (Months[day.Month - 1], Months[(day.Month - 1 + (middle < 0 ? 11 : 1)) % 12]);
        var share = Math.Abs(middle);
        return (here.Low + (share * (next.Low - here.Low)), here.High + (share * (next.High - here.High)));
    }

    private static IEnumerable<DateOnly> Days()
    {
        for (var day = First; day <= Last; day = day.AddDays(1)) yield return day;
    }
}
