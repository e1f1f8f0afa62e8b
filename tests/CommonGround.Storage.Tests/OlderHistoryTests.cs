using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace CommonGround.Storage.Tests;

/// <summary>
/// A change recorded by an older program on an older schema is undone by this one. In the older schema a bed had its name under another
/// property and column, a nickname that has been dropped since, and no moisture and no day of planting yet.
/// </summary>
[Collection(DatabaseTests.Name)]
public class OlderHistoryTests(Databases databases)
{
    private static readonly ChangeNote Note = ChangeNote.OfProgram(1, "a test");

    [Theory, OnBothDatabases]
    public async Task A_change_of_an_older_schema_is_undone(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var change = await ByOlderAsync(database, async older => (await BedAsync(older)).Property("Title").CurrentValue = "renamed");
        await using (var db = await database.CreateDbContextAsync())
        {
            (await db.Beds.SingleAsync()).Name.ShouldBe("renamed");
            (await TakeBackAsync(db, change)).ShouldBe(ReversalResult.Ready);
            await db.SaveAsync(Note);
        }

        await using var after = await database.CreateDbContextAsync();
        (await after.Beds.SingleAsync()).Name.ShouldBe(ground.Bed.Name);
    }

    [Theory, OnBothDatabases]
    public async Task A_row_that_an_older_schema_added_is_taken_out_and_one_it_removed_comes_back(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var added = await ByOlderAsync(database, older =>
        {
            var bed = older.Entry(new Bed { NeighbourhoodId = 1, Id = RowIds.Next(), YardId = ground.Yard.Id, Name = "" });
            bed.State = EntityState.Added;
            (bed.Property("Title").CurrentValue, bed.Property("Nickname").CurrentValue) = ("second", "the small one");
            return Task.CompletedTask;
        });
        await using (var db = await database.CreateDbContextAsync())
        {
            (await TakeBackAsync(db, added)).ShouldBe(ReversalResult.Ready);
            await db.SaveAsync(Note);
        }

        var removed = await ByOlderAsync(database, async older => (await BedAsync(older)).State = EntityState.Deleted);
        await using (var db = await database.CreateDbContextAsync())
        {
            (await TakeBackAsync(db, removed)).ShouldBe(ReversalResult.Ready);
            await db.SaveAsync(Note);
        }

        await using var after = await database.CreateDbContextAsync();
        var back = await after.Beds.SingleAsync();
        (back.Id, back.Name, back.AreaSquareMetres, back.Light).ShouldBe((ground.Bed.Id, ground.Bed.Name, ground.Bed.AreaSquareMetres,
            ground.Bed.Light));
    }

    [Theory, OnBothDatabases]
    public async Task What_was_changed_since_is_not_overwritten_in_an_old_column_or_a_new_one(string provider)
    {
        foreach (var later in new Action<Bed>[] { b => b.AreaSquareMetres = 7, b => b.Moisture = Ecology.Taxa.Moisture.Dry })
        {
            var (database, _) = await NewAsync(provider);
            var change = await ByOlderAsync(database, async older => (await BedAsync(older)).Property("Title").CurrentValue = "renamed");
            await using (var db = await database.CreateDbContextAsync())
            {
                later(await db.Beds.SingleAsync());
                await db.SaveAsync(Note);
            }

            await using var after = await database.CreateDbContextAsync();
            (await TakeBackAsync(after, change)).ShouldBe(ReversalResult.ChangedSince);
        }
    }

    [Theory, OnBothDatabases]
    public async Task A_change_whose_columns_were_not_noted_or_whose_kind_is_gone_is_refused(string provider)
    {
        var (database, _) = await NewAsync(provider);
        await using (var db = await database.CreateDbContextAsync())
        {
            db.Changes.AddRange(new Change { NeighbourhoodId = 1, Id = 5, What = "by the first program" },
                new Change { NeighbourhoodId = 1, Id = 6, What = "of a kind of row since dropped" });
            var bed = await db.Beds.SingleAsync();
            db.ChangedRows.AddRange(
                new ChangedRow
                {
                    NeighbourhoodId = 1,
                    ChangeId = 5,
                    Ordinal = 1,
                    Kind = RowKinds.Bed,
                    RowKey = $"{bed.Id}",
                    RowAction = RowAction.Changed,
                    Before = """{"Name":"x"}""",
                    After = """{"Name":"y"}""",
                    Hash = "0123456789ABCDEF"
                },
                new ChangedRow
                {
                    NeighbourhoodId = 1,
                    ChangeId = 6,
                    Ordinal = 1,
                    Kind = "Compost",
                    RowKey = "1",
                    RowAction = RowAction.Added,
                    Hash = "abcd",
                    Columns = "Name"
                });
            await db.SaveChangesAsync();
        }

        await using var later = await database.CreateDbContextAsync();
        (await TakeBackAsync(later, 5)).ShouldBe(ReversalResult.NotNoted);
        (await TakeBackAsync(later, 6)).ShouldBe(ReversalResult.Unreadable);
    }

    [Theory, OnBothDatabases]
    public async Task Every_kind_of_row_has_a_word_in_history_or_is_on_the_list_of_those_without(string provider)
    {
        await using var db = await databases.Bare(provider).CreateDbContextAsync();
        string[] without = ["Account", "Change", "ChangedRow", "ChangeStamp", "PublishedYards", "ReceivedNote", "Session", "SiteCounter"];
        db.Model.GetEntityTypes().Where(t => t.ClrType.Namespace!.StartsWith("CommonGround.", StringComparison.Ordinal)
            && RowKinds.Of(t) is null).Select(t => t.ClrType.Name).ShouldBe(without, ignoreOrder: true);
    }

    /// <summary>These words stand in groups' databases. Where a property is renamed, its mapping says HasHistoryName with the old word; a
    /// word here is never altered, only added or, with its column, dropped.</summary>
    [Fact]
    public async Task The_words_of_history_are_those_that_stand_in_databases()
    {
        await using var db = await databases.Bare("sqlite").CreateDbContextAsync();
        string.Join('\n', db.Model.GetEntityTypes().Where(t => RowKinds.Of(t) is not null).OrderBy(RowKinds.Of, StringComparer.Ordinal)
            .Select(t => $"{RowKinds.Of(t)}: {string.Join(' ', t.FindPrimaryKey()!.Properties.Select(RowKinds.ColumnOf))} | "
            + $"{AuditTrail.ColumnsOf(t)}")).ShouldBe("""
            Bed: NeighbourhoodId Id | AreaSquareMetres EstablishedOn Light Moisture Name YardId
            CaseStep: NeighbourhoodId Id | BlockId Kind Reason RecordedAtUtc RecordedById SaidOn TaxonId Until Who YardId
            InfestationRecord: NeighbourhoodId Id | AreaSquareMetres BlockId Certainty CoverPercent GrowthStage ObservedOn RecordedAtUtc Remarks TaxonId YardId
            Invitation: NeighbourhoodId Id | CodeHash EndsAtUtc ForWhom MadeAtUtc MadeById Role UsedAtUtc UsedById WithdrawnAtUtc
            Member: NeighbourhoodId Id | AccountId Name Role
            Neighbourhood: Id | CatalogueFingerprint DemoToday ElevationMetres Host IsDemo Latitude Longitude Name OffsetKey OpenSignUp PlaceName Rates RegionalTable Settings State TimeZone
            Photo: NeighbourhoodId Id | AddedAtUtc AddedById BedId Caption FileName Patch Sha256 TakenOn TaxonId YardId
            PlantNote: NeighbourhoodId Id | Answer ClosedAtUtc TaxonId Text Trait WrittenAtUtc WrittenById
            PlantOverride: NeighbourhoodId TaxonId Trait | Reason SetAtUtc SetById Value
            PriceRow: NeighbourhoodId TaxonId | PlugEach SeedPerGram
            SavedPlan: NeighbourhoodId Id | MadeAtUtc MadeById MadeOn Number Request Shares YardId
            Sighting: NeighbourhoodId Id | BedId Certainty Count CoverDerived CoverSquareMetres Finding GrowthStage ObservedOn Observer Origin Patch PlaceInBed Qualifier RecordedAtUtc RecordedById Remarks SeedCollectedGrams TaxonId VerifiedBy YardId
            Street: NeighbourhoodId Id | Name
            StreetBlock: NeighbourhoodId Id | Geometry MiddleLatitude MiddleLongitude Name StreetId
            Taxon: NeighbourhoodId Id | ScientificName Traits Unlisted
            Tour: NeighbourhoodId Id | Key Meet On StreetId YardId
            Treatment: NeighbourhoodId Id | AreaSquareMetres BlockId LabelFollowed Method PersonHours Qualification RecordedAtUtc RecordedById Remarks TaxonId TreatedOn Who YardId
            Walk: NeighbourhoodId Id | Looked Minutes Observer RecordedAtUtc RecordedById WalkedOn YardId
            WeatherDay: NeighbourhoodId Date | MaximumCelsius MinimumCelsius RainMillimetres
            WildlifeRecord: NeighbourhoodId Id | BedId CountClass Kind Name ObservedOn Observer RecordedAtUtc RecordedById TaxonId YardId
            Yard: NeighbourhoodId Id | AreaSquareMetres BlockId Code Directions Household Latitude LawnSquareMetres Light Longitude Moisture OffsetEastMetres OffsetNorthMetres OnMap OnTour OwnerId PhotosShared RegisteredOn Shared SoilGroup TourLine WouldPlant
            """);
    }

    private static Task<Microsoft.EntityFrameworkCore.ChangeTracking.EntityEntry> BedAsync(OlderDb older) => older.Beds.SingleAsync()
        .ContinueWith(b => (Microsoft.EntityFrameworkCore.ChangeTracking.EntityEntry)older.Entry(b.Result), TaskScheduler.Default);

    private static async Task<ReversalResult> TakeBackAsync(CommonGroundDb db, long change) =>
        await ChangeReversal.PrepareAsync(db, await db.ChangedRows.AsNoTracking().Where(r => r.ChangeId == change).ToListAsync(), default);

    /// <summary>Sets the schema back, lets the older program write, and upgrades the schema again.</summary>
    private async Task<long> ByOlderAsync(NeighbourhoodDatabase database, Func<OlderDb, Task> write)
    {
        await RunAsync(database, ["""ALTER TABLE "Beds" RENAME COLUMN "Name" TO "Title" """,
            """ALTER TABLE "Beds" ADD COLUMN "Nickname" text NULL""", """ALTER TABLE "Beds" DROP COLUMN "Moisture" """,
                """ALTER TABLE "Beds" DROP COLUMN "EstablishedOn" """]);
        long change;
        await using (var older = new OlderDb(OlderDb.Options(databases.LocationOf(database))))
        {
            older.In(1);
            await write(older);
            change = await older.SaveAsync(Note);
        }

        await RunAsync(database, ["""ALTER TABLE "Beds" RENAME COLUMN "Title" TO "Name" """,
            """ALTER TABLE "Beds" DROP COLUMN "Nickname" """, """ALTER TABLE "Beds" ADD COLUMN "Moisture" text NULL""",
            databases.LocationOf(database).Provider == "sqlite" ? """ALTER TABLE "Beds" ADD COLUMN "EstablishedOn" text NULL"""
                : """ALTER TABLE "Beds" ADD COLUMN "EstablishedOn" date NULL"""]);
        return change;
    }

    private static async Task RunAsync(NeighbourhoodDatabase database, IEnumerable<string> statements)
    {
        await using var db = await database.CreateDbContextAsync();
        foreach (var sql in statements)
        {
            await db.Database.ExecuteSqlRawAsync(sql);
        }
    }

    private async Task<(NeighbourhoodDatabase Database, Ground Ground)> NewAsync(string provider)
    {
        var database = await databases.NewAsync(provider);
        return (database, await Ground.LayAsync(database));
    }

    /// <summary>The program of long ago.</summary>
    private sealed class OlderDb(DbContextOptions<OlderDb> options) : CommonGroundDb(options)
    {
        public static DbContextOptions<OlderDb> Options(StorageLocation location) => (location.Provider == "sqlite"
            ? new DbContextOptionsBuilder<OlderDb>().UseSqlite(location.ConnectionString)
            : new DbContextOptionsBuilder<OlderDb>().UseNpgsql(location.ConnectionString)).Options;

        public override Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default) =>
            Database.BeginTransactionAsync(cancel);

        protected override void OnModelCreating(ModelBuilder modelBuilder)
        {
            base.OnModelCreating(modelBuilder);
            modelBuilder.Entity<Bed>(bed =>
            {
                bed.Metadata.RemoveIndex(bed.Metadata.GetIndexes().Single(i => i.IsUnique));
                bed.Ignore(b => b.Name).Ignore(b => b.Moisture).Ignore(b => b.EstablishedOn);
                bed.Property<string>("Title").HasHistoryName("Name");
                bed.Property<string?>("Nickname");
            });
        }
    }
}
