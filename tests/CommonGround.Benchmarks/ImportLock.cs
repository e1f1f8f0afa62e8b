using System.Diagnostics;
using System.Globalization;
using System.Text;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace CommonGround.Benchmarks;

/// <summary>100,000 sightings brought in one file: how long it is checked, how long the database is locked for writing, and how long a
/// neighbour's save waits at most meanwhile.</summary>
internal static class ImportLock
{
    private const int Yards = 1_000, Rows = 100_000;
    private static readonly DateOnly Today = new(2026, 8, 19);
    private static int s_refused;

    /// <param name="provider">sqlite or postgres.</param>
    /// <param name="connection">An empty database.</param>
    public static async Task PrintAsync(string provider, string connection)
    {
        var database = StorageRegistration.Open(new StorageLocation(provider, connection)).In(1);
        await using (var db = await database.CreateDbContextAsync())
        {
            await SiteStartup.MigrateAsync(db, null, default);
            var city = City.Build();
            db.Neighbourhoods.Add(new Neighbourhood { Id = 1, Name = "Invented", TimeZone = "America/Chicago" });
            db.Taxa.AddRange(city.Taxa.Select((t, i) => new Taxon
            {
                NeighbourhoodId = 1,
                Id = i + 1,
                ScientificName = t.ScientificName,
                Traits = t
            }));
            await db.SaveAsync(ChangeNote.OfProgram(1, "laid the ground"));
        }

        var neighbourhood = new CurrentNeighbourhood(1, "Invented", false);
        var clock = new GroupClock(TimeProvider.System, "America/Chicago", Today);
        var import = new ImportFiles(database, neighbourhood);
        var choices = new ImportChoices(false, false, Today);
        var places = string.Concat(Enumerable.Range(0, Yards + 1).Select(y => $"Street {y / 100},Block {y / 20},Y{y},41.5,-88.5,600\n"));
        var beds = string.Concat(Enumerable.Range(0, Yards + 1).Select(y => $"Y{y},front,200\n"));
        Fine(await import.RunAsync([File("places.csv", "street,block,yard,latitude,longitude,yard_m2\n" + places),
            File("beds.csv", "yard,bed,area_m2\n" + beds)], choices, null, default));
        var names = await NamesAsync(database);
        var rows = string.Concat(Enumerable.Range(0, Rows)
            .Select(i => $"Y{i % Yards},front,{names[i / Yards % names.Count]},{Today.AddDays(-1 - (i / Yards)):yyyy-MM-dd},1\n"));
        var file = File("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\n" + rows);

        using var locks = new Locks();
        using var stop = new CancellationTokenSource();
        var waits = new List<double>();
        var neighbour = Task.Run(() => SaveAsync(database, waits, stop.Token));
        var began = Stopwatch.GetTimestamp();
        Fine(await import.RunAsync([file], choices, null, default));
        var all = Stopwatch.GetElapsedTime(began).TotalMilliseconds;
        await stop.CancelAsync();
        await neighbour;
        waits.Sort();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{provider}: {Rows:n0} sightings in {all:n0} ms, of it locked {locks.Longest:n0} ms; a neighbour saved {waits.Count} times "
                + $"meanwhile, median {waits[waits.Count / 2]:n0} ms, longest {waits[^1]:n0} ms, refused {s_refused} times"));
    }

    /// <summary>Somebody who keeps changing a bed of a yard that the file does not speak of.</summary>
    private static async Task SaveAsync(NeighbourhoodDatabase database, List<double> waits, CancellationToken stop)
    {
        for (var i = 0; !stop.IsCancellationRequested; i++)
        {
            var began = Stopwatch.GetTimestamp();
            while (!(await database.WriteAsync(
                async db =>
                {
                    var yard = await db.Yards.SingleAsync(y => y.Code == $"Y{Yards}", CancellationToken.None);
                    yard.LawnSquareMetres = i % 100;
                    return ChangeNote.OfProgram(1, "a neighbour saves");
                }, CancellationToken.None)).IsStored)
            {
                // Had no turn within the five seconds of patience: a person presses Save again.
                Interlocked.Increment(ref s_refused);
            }

            waits.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            await Task.Delay(20, CancellationToken.None);
        }
    }

    private static async Task<List<string>> NamesAsync(NeighbourhoodDatabase database)
    {
        await using var db = await database.CreateDbContextAsync();
        return await db.Taxa.OrderBy(t => t.Id).Select(t => t.ScientificName).Take(100).ToListAsync();
    }

    private static ImportFile File(string name, string text) => ImportFile.Read(name, Encoding.UTF8.GetBytes(text));

    private static void Fine(ImportOutcome outcome)
    {
        if (outcome.Errors.Count > 0)
        {
            throw new InvalidOperationException(outcome.Errors[0].ToString());
        }
    }

    /// <summary>The longest transaction, from what the data library tells of itself.</summary>
    private sealed class Locks : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
    {
        private readonly List<IDisposable> heard = [];
        private readonly Dictionary<Guid, long> began = [];

        public Locks() => heard.Add(DiagnosticListener.AllListeners.Subscribe(this));

        public double Longest { get; private set; }

        public void Dispose() => heard.ToList().ForEach(h => h.Dispose());

        public void OnNext(DiagnosticListener value)
        {
            if (value.Name == "Microsoft.EntityFrameworkCore")
            {
                heard.Add(value.Subscribe(this, name => name == RelationalEventId.TransactionStarted.Name
                    || name == RelationalEventId.CommandExecuted.Name || name == RelationalEventId.TransactionCommitted.Name));
            }
        }

        public void OnNext(KeyValuePair<string, object?> value)
        {
            // On PostgreSQL others wait from the lock of the neighbourhood's row on, not from the beginning of the transaction.
            if (value.Value is CommandExecutedEventData { Command: { Transaction: { } } command }
                && command.CommandText.EndsWith("FOR UPDATE", StringComparison.Ordinal))
            {
                lock (began)
                {
                    began.Keys.ToList().ForEach(k => began[k] = Stopwatch.GetTimestamp());
                }
            }

            if (value.Value is not TransactionEndEventData told)
            {
                return;
            }

            lock (began)
            {
                if (value.Key == RelationalEventId.TransactionStarted.Name)
                {
                    began[told.TransactionId] = Stopwatch.GetTimestamp();
                }
                else if (began.Remove(told.TransactionId, out var at))
                {
                    Longest = Math.Max(Longest, Stopwatch.GetElapsedTime(at).TotalMilliseconds);
                }
            }
        }

        public void OnCompleted() { }

        public void OnError(Exception error) { }
    }
}
