using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Tests.Features.Record;

/// <summary>An organiser who records in yard N-1, whose bed "front" has 10 m².</summary>
internal static class Recording
{
    public static async Task<RecordSession> SessionAsync(this Garden garden, FakeBrowser? browser = null)
    {
        var session = await garden.ShownAsync(browser);
        await session.ReadKeptAsync();
        return session;
    }

    /// <summary>The page before it has asked the browser what it kept.</summary>
    public static async Task<RecordSession> ShownAsync(this Garden garden, FakeBrowser? browser = null)
    {
        var session = new RecordSession((await garden.Live.LoadedAsync()).Names, garden.Record, garden.Undo,
            new BrowserDrafts(browser ?? new FakeBrowser()), garden.Clock, Garden.Organiser);
        session.Show((await garden.Yards.GetAsync("N-1", Garden.Organiser))!);
        return session;
    }

    public static Task TypeAsync(this RecordSession session, string line) => session.AddAsync(session.Sheet.Draft(line, null, false));

    public static async Task SaveAndReadAsync(this RecordSession session, Garden garden)
    {
        await session.SaveAsync();
        session.Show((await garden.Yards.GetAsync("N-1", Garden.Organiser))!);
    }

    public static NameIndex Names { get; } = new(Flora.All);
}
