using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Plantings;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

/// <summary>History keeps every write, the same on both databases, and lets nobody touch what it keeps.</summary>
[Collection(DatabaseTests.Name)]
public class HistoryTests(Databases databases)
{
    private static readonly ChangeNote Note = ChangeNote.OfProgram(1, "a test");

    [Theory, OnBothDatabases]
    public async Task A_save_keeps_who_when_what_and_from_where_with_every_row_it_touched(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await using var db = await database.CreateDbContextAsync();
        var sighting = ground.Sighting();
        db.Add(sighting);
        (await db.Beds.SingleAsync()).Name = "renamed";
        var id = await db.SaveAsync(new ChangeNote(1, "recorded one planting", ground.Member.Id, Role.Member, "203.0.113.0/24"));
        await using var later = await database.CreateDbContextAsync();
        var change = await later.Changes.SingleAsync(c => c.Id == id);
        (change.What, change.MemberId, change.By, change.From).ShouldBe(("recorded one planting", ground.Member.Id, Role.Member,
            "203.0.113.0/24"));
        change.AtUtc.Kind.ShouldBe(DateTimeKind.Utc);
        var rows = await later.ChangedRows.Where(r => r.ChangeId == id).OrderBy(r => r.Kind).ToListAsync();
        rows.Select(r => (r.Kind, r.RowAction, r.YardId, r.RowKey))
            .ShouldBe([("Bed", RowAction.Changed, ground.Yard.Id, $"{ground.Bed.Id}"),
            ("Sighting", RowAction.Added, ground.Yard.Id, $"{sighting.Id}")]);
        (rows[0].Before, rows[0].After).ShouldBe(("{\"Name\":\"vorne \\u524D\"}", "{\"Name\":\"renamed\"}"));
    }

    [Theory, OnBothDatabases]
    public async Task A_write_that_does_not_say_who_writes_is_refused(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        await using var db = await database.CreateDbContextAsync();
        db.Add(ground.Sighting());
        (await Should.ThrowAsync<InvalidOperationException>(() => db.SaveChangesAsync())).Message
            .ShouldContain("without saying who writes");
        Should.Throw<NotSupportedException>(() => db.SaveChanges());
    }

    [Theory, OnBothDatabases]
    public async Task The_database_itself_refuses_to_alter_or_delete_history(string provider)
    {
        var (database, _) = await NewAsync(provider);
        await using var db = await database.CreateDbContextAsync();
        var changes = await db.Changes.CountAsync();
        foreach (var sql in new[]
        {
            """DELETE FROM "Changes" """, """DELETE FROM "ChangedRows" """, """UPDATE "Changes" SET "What" = 'nothing'""",
                """UPDATE "Changes" SET "MemberId" = 7""",
            """UPDATE "Changes" SET "EraseAtUtc" = '2030-01-01 00:00:00Z'""", """UPDATE "ChangedRows" SET "Before" = '{{}}'""",
                """UPDATE "ChangedRows" SET "Kind" = 'Nothing', "Before" = NULL, "After" = NULL""",
        })
        {
            (await Should.ThrowAsync<Exception>(() => db.Database.ExecuteSqlRawAsync(sql), sql)).Message.ShouldContain("History is not");
        }

        if (provider == "postgres")
        {
            (await Should.ThrowAsync<Exception>(() => db.Database.ExecuteSqlRawAsync("""TRUNCATE "Changes" CASCADE"""))).Message
                .ShouldContain("History is not");
        }

        (await db.Changes.CountAsync()).ShouldBe(changes);
    }

    [Theory, OnBothDatabases]
    public async Task What_a_row_held_may_be_erased_that_it_was_touched_may_not(string provider)
    {
        var (database, _) = await NewAsync(provider);
        await using var db = await database.CreateDbContextAsync();
        (await db.Beds.SingleAsync()).Name = "renamed";
        var id = await db.SaveAsync(Note);
        await db.ChangedRows.Where(r => r.ChangeId == id).ExecuteUpdateAsync(set => set.SetProperty(r => r.Before, (string?)null)
            .SetProperty(r => r.After, (string?)null).SetProperty(r => r.Hash, ""));
        var row = await db.ChangedRows.AsNoTracking().SingleAsync(r => r.ChangeId == id);
        (row.Before, row.After, row.Hash, row.Kind).ShouldBe((null, null, "", "Bed"));
    }

    [Theory, OnBothDatabases]
    public async Task A_fingerprint_is_the_same_after_the_row_has_been_to_the_database_and_back(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var sighting = ground.Sighting();
        // A tick is finer than either database keeps.
        sighting.RecordedAtUtc = sighting.RecordedAtUtc.AddTicks(7);
        await using (var db = await database.CreateDbContextAsync())
        {
            db.AddRange(sighting, ground.Infestation());
            await db.SaveAsync(Note);
        }

        await using var again = await database.CreateDbContextAsync();
        foreach (var row in await again.ChangedRows.Where(r => r.Hash != "").ToListAsync())
        {
            var type = again.Model.GetEntityTypes().Single(t => RowKinds.Of(t) == row.Kind);
            var found = (await again.FindAsync(type.ClrType, AuditTrail.KeyValues(type, 1, row.RowKey))).ShouldNotBeNull(row.Kind);
            AuditTrail.HashOf(again.Entry(found)).ShouldBe(row.Hash, row.Kind);
        }
    }

    [Theory, OnBothDatabases]
    public async Task A_session_that_was_ended_or_a_role_that_was_taken_writes_nothing(string provider)
    {
        var (database, ground) = await NewAsync(provider);
        var session = new Session
        {
            Id = Guid.NewGuid(),
            StartedAtUtc = DateTime.UtcNow,
            SeenAtUtc = DateTime.UtcNow,
            EndsAtUtc = DateTime.UtcNow.AddHours(1)
        };
        await using (var db = await database.CreateDbContextAsync())
        {
            var account = new Account { Name = "Zoë", UserName = "zoe@quarry-bend.example" };
            db.Users.Add(account);
            await db.SaveChangesAsync();
            session.AccountId = account.Id;
            db.Sessions.Add(session);
            await db.SaveChangesAsync();
        }

        var note = Note with { MemberId = ground.Member.Id, By = Role.Member, SessionId = session.Id };
        await SavedAsync(note);
        await Should.ThrowAsync<AccessLostException>(() => SavedAsync(note with { By = Role.Organiser }));
        await using (var db = await database.CreateDbContextAsync())
        {
            await db.Sessions.ExecuteDeleteAsync();
        }

        await Should.ThrowAsync<AccessLostException>(() => SavedAsync(note));
        await using var after = await database.CreateDbContextAsync();
        (await after.Sightings.CountAsync()).ShouldBe(1);

        async Task SavedAsync(ChangeNote by)
        {
            await using var db = await database.CreateDbContextAsync();
            Sighting sighting = ground.Sighting();
            sighting.ObservedOn = sighting.ObservedOn.AddDays(-await db.Sightings.CountAsync());
            db.Add(sighting);
            await db.SaveAsync(by);
        }
    }

    private async Task<(IDbContextFactory<CommonGroundDb> Database, Ground Ground)> NewAsync(string provider)
    {
        var database = await databases.NewAsync(provider);
        return (database, await Ground.LayAsync(database));
    }
}
