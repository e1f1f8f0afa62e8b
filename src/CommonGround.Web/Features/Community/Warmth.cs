using CommonGround.Ecology.Phenology;
using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>Mean temperatures by month that a group has typed, °C.</summary>
/// <param name="Usual">Twelve usual means.</param>
public sealed record Temperatures(IReadOnlyList<double> Usual)
{
    /// <summary>Year → its twelve means; null where a month is not typed. A typed one goes before an imported one.</summary>
    public IReadOnlyDictionary<int, IReadOnlyList<double?>> Years { get; init; } = new Dictionary<int, IReadOnlyList<double?>>();

    internal const double Coldest = -40, Warmest = 45;

    internal bool IsSound => Usual.Count == 12 && Usual.All(Holds)
        && Years.Values.All(y => y.Count == 12 && y.All(c => c is null || Holds(c.Value)));

    internal static bool Holds(double celsius) => celsius is >= Coldest and <= Warmest;
}

/// <summary>How early or late each year is by its warmth; nothing where the group gives no usual temperatures.</summary>
internal sealed class Warmth
{
    /// <summary>An imported month counts from so many days on.</summary>
    private const int FewestDays = 20;

    private readonly IReadOnlyList<double> usual;
    private readonly Dictionary<int, IReadOnlyList<double>> years;

    private Warmth(IReadOnlyList<double> usual, IReadOnlyDictionary<int, double?[]> months, IReadOnlyList<double> usualMonths)
    {
        this.usual = usual;
        years = months.ToDictionary(m => m.Key, m => WarmthShift.OfYear(usualMonths, m.Value));
    }

    /// <summary>Null where no usual temperatures are given.</summary>
    public static async Task<Warmth?> ReadAsync(CommonGroundDb db, GroupRules rules, DateOnly asOf, CancellationToken cancel) =>
        rules.Temperatures is not { } given ? null : new Warmth(WarmthShift.OfMonths(given.Usual),
            await MonthsAsync(db, given, asOf, cancel), given.Usual);

    /// <summary>Days later than usual at a day of the year, negative is earlier; null where the year's temperatures are not
    /// given.</summary>
    public int? DaysLater(int year, int dayOfYear) =>
        years.TryGetValue(year, out var gathered) && gathered.Count > 0
            ? WarmthShift.DaysLaterSoFar(usual, gathered, Math.Clamp(dayOfYear, 1, usual.Count)) : null;

    /// <summary>Means by year and month, °C: typed ones, else those of the imported weather record.</summary>
    public static async Task<IReadOnlyDictionary<int, double?[]>> MonthsAsync(CommonGroundDb db, Temperatures? given, DateOnly asOf,
        CancellationToken cancel)
    {
        var days = await db.WeatherDays.AsNoTracking().Where(w => w.Date <= asOf && w.MinimumCelsius != null && w.MaximumCelsius != null)
            .Select(w => new { w.Date, Mean = (w.MinimumCelsius!.Value + w.MaximumCelsius!.Value) / 2 }).ToListAsync(cancel);
        var months = new Dictionary<int, double?[]>();
        double?[] Year(int year) => months.TryGetValue(year, out var known) ? known : months[year] = new double?[12];
        foreach (var month in days.GroupBy(d => (d.Date.Year, d.Date.Month)).Where(m => m.Count() >= FewestDays))
        {
            Year(month.Key.Year)[month.Key.Month - 1] = month.Average(d => d.Mean);
        }

        foreach (var (year, typed) in given?.Years.Where(y => y.Key <= asOf.Year) ?? [])
        {
            for (var month = 0; month < 12 && (year < asOf.Year || month < asOf.Month); month++)
            {
                Year(year)[month] = typed[month] ?? Year(year)[month];
            }
        }

        return months;
    }
}
