using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Walks;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Walks;

/// <summary>Phones that walk in yard N-1, whose bed "front" has 10 m².</summary>
internal static class Walking
{
    public static readonly DateTime Noon = new(2026, 8, 19, 12, 0, 0, DateTimeKind.Utc);

    extension(Garden garden)
    {
        public WalkDisputes Disputes => new(garden.Database, garden.Neighbourhood, garden.Live, garden.Receive(), garden.Clock);
    }

    public static ReceiveWalk Receive(this Garden garden) => new(garden.Database, garden.Neighbourhood, garden.Live, garden.Clock);

    /// <summary>An organiser with a row of their own.</summary>
    public static async Task<CurrentUser> WalkerAsync(this Garden garden, string name)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        var member = new Member { NeighbourhoodId = 1, Name = name, Role = Role.Organiser };
        db.Members.Add(member);
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        return new CurrentUser(Role.Organiser, member.Id, name, false);
    }

    public static WalkNote Note(WalkNoteKind kind, CurrentUser by, int minutes = 0, string yard = "N-1") =>
        new(Guid.NewGuid(), Guid.NewGuid(), kind, by.MemberId, 1, Noon.AddMinutes(minutes - 60), Noon.AddDays(-30), yard);

    /// <summary>A look at a planting, so many minutes before or after eleven o'clock.</summary>
    public static async Task<WalkNote> LookAsync(this Garden garden, CurrentUser by, string taxon, LookSaid said, int minutes = 0) =>
        Note(WalkNoteKind.Look, by, minutes) with { BedId = (await garden.BedAsync()).Bed.Id, Taxon = taxon, Look = said };

    public static Task<WalkAnswer> SendAsync(this Garden garden, CurrentUser by, params WalkNote[] notes) => garden.Receive()
        .SaveAsync(new WalkBatch(Noon, notes), by);

    /// <summary>Sends and expects that all is stored.</summary>
    public static async Task<WalkAnswer> StoreAsync(this Garden garden, CurrentUser by, params WalkNote[] notes)
    {
        var answer = await garden.SendAsync(by, notes);
        answer.Receipts.Where(r => r.State != ReceiptState.Stored).ShouldBeEmpty();
        return answer;
    }

    /// <summary>Bergamot as somebody planted it last year, in doubt, and where.</summary>
    public static async Task<Sighting> BergamotAsync(this Garden garden)
    {
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,origin,certainty,growth_stage,observer\nN-1,front,Monarda cf. "
                + "fistulosa,2025-08-01,2.5,self_sown,tentative,6,a walker\n"));
        return (await garden.SightingsAsync())[0];
    }

    public static async Task<T> AskAsync<T>(this Garden garden, Func<CommonGroundDb, Task<T>> ask)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await ask(db);
    }
}
