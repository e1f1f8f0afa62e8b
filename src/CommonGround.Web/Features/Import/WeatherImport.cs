using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.Weather;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Rain and temperature, one row a day; either may come first.</summary>
internal static class WeatherImport
{
    public static async Task TakeAsync(CommonGroundDb db, int neighbourhoodId, IReadOnlyList<ImportFile> files, ImportFindings ledger,
        CancellationToken cancel)
    {
        if (!files.Any(f => f.Rain.Count > 0 || f.Temperatures.Count > 0))
        {
            return;
        }

        var days = await db.WeatherDays.ToDictionaryAsync(w => w.Date, cancel);
        foreach (var file in files)
        {
            foreach (var row in file.Rain)
            {
                Put(file.FileName, row.Line, row.Date, "rain days", w => w.RainMillimetres, w => w.RainMillimetres = row.RainMillimetres);
            }

            foreach (var row in file.Temperatures)
            {
                Put(file.FileName, row.Line, row.Date, "temperature days", w => (w.MinimumCelsius, w.MaximumCelsius),
                    w => (w.MinimumCelsius, w.MaximumCelsius) = (row.MinimumCelsius, row.MaximumCelsius));
            }
        }

        void Put<T>(string file, int line, DateOnly date, string kind, Func<WeatherDay, T> read, Action<WeatherDay> write)
        {
            if (ledger.InFuture(file, line, "date", date))
            {
                return;
            }

            var added = !days.TryGetValue(date, out var day);
            if (day is null)
            {
                day = new WeatherDay { NeighbourhoodId = neighbourhoodId, Date = date };
                days[date] = day;
                db.WeatherDays.Add(day);
            }

            var before = read(day);
            write(day);
            ledger.Count(kind, added, !EqualityComparer<T>.Default.Equals(before, read(day)));
        }
    }
}
