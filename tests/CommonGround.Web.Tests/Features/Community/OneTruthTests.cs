using System.Text;
using System.Text.Json;
using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using CommonGround.Storage.Tests;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.More;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Community;

/// <summary>
/// Two programs on one database, each with its own memory: whatever either stores in whatever order, every answer of both is the one that a
/// program with an empty memory works out from the database.
/// </summary>
public sealed class OneTruthTests(Databases databases) : IClassFixture<Databases>
{
    private const int Schedules = 200, Steps = 4;

    [Theory, OnBothDatabases]
    public async Task Whatever_two_programs_store_both_answer_what_the_database_says(string provider)
    {
        var location = databases.LocationOf(await databases.NewAsync(provider));
        // Thousands of short looks, each on a connection of its own: as the site does, they are kept and used again.
        location = location with
        {
            ConnectionString = location.ConnectionString.Replace("Pooling=false", "Pooling=true",
            StringComparison.Ordinal)
        };
        var database = StorageRegistration.Open(location);
        for (var schedule = 1; schedule <= Schedules; schedule++)
        {
            var chance = new Random(schedule);
            await LayAsync(database, schedule);
            Program[] programs = [new(StorageRegistration.Open(location), schedule), new(StorageRegistration.Open(location), schedule)];
            var done = new List<string>();
            for (var step = 0; step < Steps; step++)
            {
                var one = chance.Next(2);
                done.Add($"{one}: {await programs[one].DoAsync(chance)}");
                await CompareAsync(programs[chance.Next(2)], schedule, done);
            }

            await CompareAsync(programs[0], schedule, done);
            await CompareAsync(programs[1], schedule, done);
        }
    }

    [Theory, OnBothDatabases]
    public async Task A_consent_withdrawn_through_one_program_is_gone_from_the_next_answer_of_the_other(string provider)
    {
        var database = await databases.NewAsync(provider);
        await LayAsync(database, 1);
        Program here = new(StorageRegistration.Open(databases.LocationOf(database)), 1),
            there = new(StorageRegistration.Open(databases.LocationOf(database)), 1);
        (await there.Live.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(4);
        await here.ConsentAsync("S1-1", shared: false);
        (await there.Live.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(0);
    }

    [Theory, OnBothDatabases]
    public async Task A_time_zone_changed_through_one_program_holds_in_the_other_with_the_same_live_community(string provider)
    {
        var database = await databases.NewAsync(provider);
        await LayAsync(database, 1);
        var time = TestClock.On(2026, 8, 19);
        Neighbourhoods here = new(database, time), there = new(StorageRegistration.Open(databases.LocationOf(database)), time);
        await here.ReadAsync();
        await there.ReadAsync();
        var (live, clock) = (there.All[0].Live, there.All[0].Clock);
        await using (var db = await database.CreateDbContextAsync())
        {
            (await db.Neighbourhoods.SingleAsync(n => n.Id == 1)).TimeZone = "Pacific/Kiritimati";
            await db.SaveAsync(ChangeNote.OfProgram(1, "a test"));
        }

        await there.FollowAsync();
        there.All[0].Live.ShouldBeSameAs(live);
        there.All[0].Clock.ShouldBeSameAs(clock);
        clock.TimeZone.ShouldBe("Pacific/Kiritimati");
    }

    [Fact]
    public async Task Neighbourhoods_nobody_looks_at_leave_memory_and_so_do_the_longest_unused_where_too_much_is_held()
    {
        var database = await databases.NewAsync("sqlite");
        var time = TestClock.On(2026, 8, 19);
        for (var id = 1; id <= 3; id++)
        {
            await LayAsync(database, id);
        }

        var all = new Neighbourhoods(database, time);
        await all.ReadAsync();
        foreach (var place in all.All)
        {
            await place.Live.NowAsync();
            place.Live.CellsHeld.ShouldBeGreaterThan(0);
            time.Now = time.Now.AddMinutes(1);
        }

        all.ForgetIdle(TimeSpan.FromMinutes(15), mostCells: 1000).ShouldBe(0);
        all.ForgetIdle(TimeSpan.FromMinutes(15), mostCells: all.All[0].Live.CellsHeld * 2).ShouldBe(1);
        all.All.Select(p => p.Live.CellsHeld > 0).ShouldBe([false, true, true]);
        time.Now = time.Now.AddMinutes(14);
        all.ForgetIdle(TimeSpan.FromMinutes(15), mostCells: 1000).ShouldBe(1);
        all.All.Select(p => p.Live.CellsHeld > 0).ShouldBe([false, false, true]);
        (await all.All[0].Live.NowAsync()).Yards.Count.ShouldBe(4);
    }

    [Fact]
    public async Task Rows_of_two_programs_never_get_one_number()
    {
        var database = await databases.NewAsync("sqlite");
        await using var db = await database.CreateDbContextAsync();
        var numbers = new HashSet<long>();
        // Two programs that start together and take turns within the same milliseconds.
        var (one, other) = (await ChangeStamps.NextProgramAsync(db), await ChangeStamps.NextProgramAsync(db));
        one.ShouldNotBe(other);
        for (var turn = 0; turn < 3000; turn++)
        {
            RowIds.UseProgram(turn % 2 == 0 ? one : other);
            for (var i = 0; i < 3; i++)
            {
                numbers.Add(RowIds.Next()).ShouldBeTrue();
            }
        }
    }

    private static async Task CompareAsync(Program program, int neighbourhoodId, List<string> done)
    {
        var fresh = new Program(program.Database, neighbourhoodId);
        foreach (var organiser in new[] { true, false })
        {
            Text(await program.Live.FiguresAsync(organiser))
                .ShouldBe(Text(await fresh.Live.FiguresAsync(organiser)), $"schedule {neighbourhoodId}, {string.Join("; ", done)}");
        }
    }

    private static string Text(Figures figures) => JsonSerializer.Serialize(new
    {
        figures.Blocks,
        figures.Streets,
        figures.Neighbourhood,
        figures.Shown,
        Season = figures.Season.ToString()
    });

    private static async Task LayAsync(IDbContextFactory<CommonGroundDb> database, int id)
    {
        await using (var db = await database.CreateDbContextAsync())
        {
            db.Neighbourhoods.Add(new Neighbourhood
            {
                Id = id,
                OffsetKey = PlaceOffset.NewKey(),
                Name = $"Ground {id}",
                TimeZone = "America/Chicago"
            });
            db.Taxa.AddRange(Flora.All.Select((t, i) => new Taxon
            {
                NeighbourhoodId = id,
                Id = i + 1,
                ScientificName = t.ScientificName,
                Traits = t
            }));
            await db.SaveAsync(ChangeNote.OfProgram(id, "a test"));
        }

        var program = new Program(database, id);
        await program.ImportAsync("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\n"
            + string.Concat(Enumerable.Range(1, 4).Select(y => $"North,A to B,S{id}-{y},41.5,-88.{500 + y},200,yes\n")));
        await program.ImportAsync("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\n"
            + string.Concat(Enumerable.Range(1, 4).Select(y => $"S{id}-{y},front,Monarda fistulosa,2026-06-01,{y}\n")));
    }

    /// <summary>One program on the database, with a memory of its own.</summary>
    private sealed class Program(IDbContextFactory<CommonGroundDb> database, int id)
    {
        private static readonly TestClock Time = TestClock.On(2026, 8, 19);
        private readonly NeighbourhoodDatabase here = database.In(id);
        private readonly CurrentNeighbourhood neighbourhood = new(id, $"Ground {id}", false);
        private readonly GroupClock clock = new(Time, "America/Chicago", null);
        private readonly CurrentUser organiser = Garden.Organiser with { NeighbourhoodId = id };
        private readonly Stack<long> changes = new();

        public IDbContextFactory<CommonGroundDb> Database => database;

        public LiveCommunity Live => field ??= new LiveCommunity(new CommunityQueries(here, neighbourhood), clock, Time);

        /// <summary>Stores something by chance; what, in words.</summary>
        public Task<string> DoAsync(Random chance) => chance.Next(6) switch
        {
            0 or 1 => RecordAsync(chance),
            2 => ConsentAsync($"S{id}-{chance.Next(1, 5)}", chance.Next(2) == 0),
            3 when changes.Count > 0 => UndoAsync(),
            4 => RulesAsync(chance),
            _ => ImportByChanceAsync(chance),
        };

        public async Task<string> ConsentAsync(string code, bool shared)
        {
            await using var db = await here.CreateDbContextAsync();
            var yard = await db.Yards.SingleAsync(y => y.Code == code);
            (await new YardSettings(here, clock).ConsentAsync(yard.Id, new Consents(shared, false, false), organiser)).ShouldBeEmpty();
            return $"{code} shared {shared}";
        }

        public async Task ImportAsync(string name, string text) =>
            (await new ImportFiles(here, neighbourhood).RunAsync([ImportFile.Read(name, Encoding.UTF8.GetBytes(text))],
                new ImportChoices(true, false, clock.CalendarToday) { By = ChangeNote.OfProgram(id, "brought a file") }, null,
                    default)).Errors.ShouldBeEmpty();

        private async Task<string> ImportByChanceAsync(Random chance)
        {
            var (yard, cover) = ($"S{id}-{chance.Next(1, 5)}", chance.Next(0, 9));
            switch (chance.Next(3))
            {
                case 0:
                    await ImportAsync(
                        "sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\n{yard},back,Unlisted herb "
                            + $"{chance.Next(3)},2026-07-0{chance.Next(1, 9)},{cover}\n");
                    return $"imported a sighting in {yard}";
                case 1:
                    await ImportAsync(
                        "infestations.csv", $"yard,scientific_name,observed_on,area_m2,cover_percent\n{yard},Alliaria "
                            + $"petiolata,2026-05-0{chance.Next(1, 9)},{cover},30\n");
                    return $"imported an infestation in {yard}";
                default:
                    var fresh = $"S{id}-{chance.Next(5, 9)}";
                    await ImportAsync(
                        "places.csv", $"street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A to B,{fresh},41.5,-88.52,200,yes\n");
                    return $"imported yard {fresh}";
            }
        }

        private async Task<string> RecordAsync(Random chance)
        {
            await using var db = await here.CreateDbContextAsync();
            var bed = await db.Beds.AsNoTracking().Where(b => b.Name == "front").OrderBy(b => b.Id).Skip(chance.Next(4)).FirstAsync();
            var line = Garden.Line(chance.Next(2) == 0 ? Flora.Smooth : Flora.Bergamot,
                chance.Next(0, 9)) with
            { SameDay = CommonGround.Web.Features.Record.SameDay.InPlace };
            var sheet = new RecordSheet(bed.YardId, bed.Id, bed.Version, Garden.Today.AddDays(-chance.Next(3)), "a walker", [line]);
            var result = await new RecordPlantings(here, neighbourhood, clock).SaveAsync(sheet, organiser);
            result.Problems.ShouldBeEmpty();
            changes.Push(result.ChangeId!.Value);
            return $"recorded {line.CoverSquareMetres} m² in bed {bed.Id}";
        }

        private async Task<string> UndoAsync()
        {
            // It may be refused, where something later hangs on it; the answers must be right either way.
            var problems = await new UndoChange(here, clock).UndoAsync(changes.Pop(), organiser);
            return problems.Count == 0 ? "undid" : "was refused an undo";
        }

        private async Task<string> RulesAsync(Random chance)
        {
            var norm = chance.Next(1, 5);
            (await new SaveRules(here, neighbourhood).SaveAsync(
                GroupRules.Default with { Season = GroupRules.Default.Season with { Norm = norm } }, organiser)).ShouldBeEmpty();
            return $"set the norm to {norm}";
        }
    }
}
