using System.Text;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Invasives;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests;

/// <summary>A neighbourhood on a SQLite file of its own with the small catalogue, and the program's own reads and writes on it. Today is 19
/// August 2026.</summary>
internal sealed class Garden : IDisposable
{
    private static readonly PlantKnowledge s_knowledge = new();

    public static readonly DateOnly Today = new(2026, 8, 19);
    public static readonly CurrentUser Organiser = new(Role.Organiser, null, "an organiser", false);
    public static readonly CurrentUser Visitor = new(Role.Visitor, null, "a visitor", false);
    private static readonly Lazy<Task<byte[]>> Laid = new(LaidAsync);
    private readonly TempFolder folder = new();

    private Garden()
    {
        Database = StorageRegistration.Open(Location).In(Neighbourhood.Id);
        Clock = new GroupClock(Time, "America/Chicago", null);
        Queries = new CommunityQueries(Database, Neighbourhood);
        Live = new LiveCommunity(Queries, Clock, Time);
    }

    private StorageLocation Location => StorageLocation.SqliteFile(folder.File(PreparedData.FileName));
    public TestClock Time { get; } = TestClock.On(2026, 8, 19);
    public CurrentNeighbourhood Neighbourhood { get; } = new(1, "Testgrund", false);
    public NeighbourhoodDatabase Database { get; }
    public GroupClock Clock { get; }
    public CommunityQueries Queries { get; }
    public LiveCommunity Live { get; }
    public RecordPlantings Record => new(Database, Neighbourhood, Clock);
    public CorrectSighting Correct => new(Database, Neighbourhood, Clock);
    public PlantingQueries Plantings => new(Database, Live);
    public RegisterYard Register => new(Database, Neighbourhood, Clock);
    public UndoChange Undo => new(Database, Clock);
    public YardSettings Keeping => new(Database, Clock);
    public AddBed AddBed => new(Database, Neighbourhood, Clock);
    public YardQueries Yards => new(Database, Live, Queries, Clock);
    public StreetQueries Streets => new(Database, Live, Clock);
    public PlantQueries Catalogue => new(Live, new VisitorQueries(s_knowledge, Live), s_knowledge);
    public PlantOverrides Overrides => new(Database, Neighbourhood, Clock);
    public PlantNotes Notes => new(Database, Neighbourhood, Clock);
    public CaseQueries Cases => new(Database, Live, Clock);
    public ReportInfestation Report => new(Database, Neighbourhood, Live, Clock);
    public LogTreatment Treat => new(Database, Neighbourhood, Live, Clock);
    public WorkDayQueries WorkDays => new(Cases, Live, Streets);
    public PressureQueries Pressure => new(Database, Live);
    public CaseSteps CaseSteps => new(Database, Neighbourhood, Live, Clock);
    public ExportFiles Export => new(Database, Neighbourhood, Queries, Clock);

    /// <summary>A neighbourhood with the small catalogue and nothing else.</summary>
    public static async Task<Garden> LayAsync()
    {
        var garden = new Garden();
        await File.WriteAllBytesAsync(garden.folder.File(PreparedData.FileName), await Laid.Value);
        return garden;
    }

    /// <summary>Made once, and copied for every test.</summary>
    private static async Task<byte[]> LaidAsync()
    {
        using var garden = new Garden();
        await using (var db = await garden.Database.CreateDbContextAsync())
        {
            await db.Database.MigrateAsync();
            db.Neighbourhoods.Add(new Neighbourhood
            {
                Id = 1,
                OffsetKey = PlaceOffset.NewKey(),
                Name = garden.Neighbourhood.Name,
                TimeZone = "America/Chicago"
            });
            db.Taxa.AddRange(Flora.All.Select((t, i) => new Taxon
            {
                NeighbourhoodId = 1,
                Id = i + 1,
                ScientificName = t.ScientificName,
                Traits = t
            }));
            await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        }

        return await PreparedData.BytesAsync(garden.Location, garden.folder);
    }

    /// <summary>One street of one block with one yard, N-1, of 100 m², which has a bed "front" of 10 m².</summary>
    public static async Task<Garden> WithOneYardAsync()
    {
        var garden = await LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,lawn_m2\nNorth,A to B,N-1,41.5,-88.5,100,60\n"),
                ("beds.csv", "yard,bed,area_m2\nN-1,front,10\n"));
        return garden;
    }

    /// <summary>Imports texts as files.</summary>
    public Task<ImportOutcome> ImportAsync(params (string Name, string Text)[] files) => ImportAsync(allowUnlisted: false, files);

    public Task<ImportOutcome> ImportAsync(bool allowUnlisted, params (string Name, string Text)[] files) =>
        new ImportFiles(Database, Neighbourhood).RunAsync([.. files.Select(f => ImportFile.Read(f.Name, Encoding.UTF8.GetBytes(f.Text)))],
            new ImportChoices(allowUnlisted, false, Clock.CalendarToday), null, CancellationToken.None);

    /// <summary>Imports and expects no error.</summary>
    public async Task<ImportOutcome> StoreAsync(params (string Name, string Text)[] files)
    {
        var outcome = await ImportAsync(files);
        outcome.Errors.ShouldBeEmpty();
        return outcome;
    }

    public async Task<List<Sighting>> SightingsAsync()
    {
        await using var db = await Database.CreateDbContextAsync();
        return await db.Sightings.AsNoTracking().OrderBy(s => s.ObservedOn).ThenBy(s => s.Id).ToListAsync();
    }

    public async Task<(Yard Yard, Bed Bed)> BedAsync(string code = "N-1", string bed = "front")
    {
        await using var db = await Database.CreateDbContextAsync();
        var yard = await db.Yards.AsNoTracking().SingleAsync(y => y.Code == code);
        return (yard, await db.Beds.AsNoTracking().SingleAsync(b => b.YardId == yard.Id && b.Name == bed));
    }

    /// <summary>A member who keeps the yards named.</summary>
    public async Task<CurrentUser> MemberOfAsync(params string[] codes)
    {
        await using var db = await Database.CreateDbContextAsync();
        var member = new Member { NeighbourhoodId = 1, Name = "a member", Role = Role.Member };
        db.Members.Add(member);
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        await db.Yards.Where(y => codes.Contains(y.Code)).ExecuteUpdateAsync(set => set.SetProperty(y => y.OwnerId, member.Id));
        return new CurrentUser(Role.Member, member.Id, member.Name, false);
    }

    /// <summary>A line as somebody would type it.</summary>
    public static PlantingDraft Line(string name, double? cover, int? count = null) =>
        new() { Typed = name, Taxon = Flora.All.SingleOrDefault(t => t.ScientificName == name), CoverSquareMetres = cover, Count = count };

    public async Task<RecordResult> SaveAsync(CurrentUser by, params PlantingDraft[] lines)
    {
        var (yard, bed) = await BedAsync();
        return await Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Today, "walker 1", lines), by);
    }

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        folder.Dispose();
    }
}
