using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace CommonGround.Web.Tests.Features.Import;

/// <summary>Writes down when a transaction begins on a garden's database, from what the data library tells of itself.</summary>
internal sealed class TransactionLog : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private readonly List<string> told;
    private readonly List<IDisposable> heard = [];
    private readonly string file;

    public TransactionLog(Garden garden, List<string> told)
    {
        this.told = told;
        using var db = garden.Database.CreateDbContext();
        file = db.Database.GetDbConnection().DataSource;
        heard.Add(DiagnosticListener.AllListeners.Subscribe(this));
    }

    public void Dispose() => heard.ToList().ForEach(h => h.Dispose());

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == "Microsoft.EntityFrameworkCore")
        {
            heard.Add(value.Subscribe(this, name => name == RelationalEventId.TransactionStarted.Name));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (value.Value is TransactionEndEventData { Transaction.Connection: { } connection } && connection.DataSource == file)
        {
            told.Add("begin");
        }
    }

    public void OnCompleted() { }

    public void OnError(Exception error) { }
}
