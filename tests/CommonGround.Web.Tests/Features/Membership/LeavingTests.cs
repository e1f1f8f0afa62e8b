using System.IO.Compression;
using System.Net;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Tests.Access;
using CommonGround.Web.Tests.Operations;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

namespace CommonGround.Web.Tests.Features.Membership;

/// <summary>A household leaves: at once, with a way back for thirty days, then for good.</summary>
[Collection(SiteTests.Name)]
public class LeavingTests(GroupSite site)
{
    private const string Household = "The house with the green door";

    [Fact]
    public async Task Leaving_takes_yards_and_name_out_at_once_and_can_be_taken_back_whole()
    {
        using var somebody = await site.JoinAsync(Role.Member);
        var (code, currentUser) = await RegisterAsync(somebody);
        (await somebody.Browser.GetStringAsync($"/yards/{code}")).ShouldContain(code);
        (await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", "not mine at all"))).StatusCode
            .ShouldBe(HttpStatusCode.OK);
        (await CountAsync(db => db.Yards.CountAsync(y => y.Code == code))).ShouldBe(1);
        (await (await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password))).Content
            .ReadAsStringAsync()).ShouldContain("You have left");
        (await CountAsync(db => db.Yards.CountAsync(y => y.Code == code))).ShouldBe(0);
        (await CountAsync(db => db.Sightings.CountAsync(s => s.RecordedById == currentUser.MemberId))).ShouldBe(0);
        (await CountAsync(db => db.Members.CountAsync(m => m.Id == currentUser.MemberId && m.AccountId == null
            && m.Name == "a former member"))).ShouldBe(1);
        // Signed out everywhere; who signs in again finds the way back and nothing else.
        (await somebody.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await Site.SignInAsync(somebody.Browser, somebody.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await somebody.Browser.GetStringAsync("/account")).ShouldContain("erased for good");
        (await somebody.Browser.GetAsync($"/yards/{code}")).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await Site.PostAsync(somebody.Browser, "/account", "return")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await somebody.Browser.GetStringAsync($"/yards/{code}")).ShouldContain("Record plantings");
        (await CountAsync(db => db.Sightings.CountAsync(s => s.RecordedById == currentUser.MemberId))).ShouldBe(1);
        (await CountAsync(db => db.Members.CountAsync(m => m.Id == currentUser.MemberId && m.AccountId == currentUser.AccountId
            && m.Role == Role.Member))).ShouldBe(1);
    }

    [Fact]
    public async Task After_thirty_days_nothing_in_the_database_holds_the_household_any_more_and_history_still_stands()
    {
        using var somebody = await site.JoinAsync(Role.Member);
        var (code, currentUser) = await RegisterAsync(somebody);
        (await DumpAsync()).ShouldContain(Household + code);
        await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password));
        var changes = await CountAsync(db => db.Changes.CountAsync());
        (await EraseAsync(AccountDeletion.Days - 1)).ShouldBe(0);
        (await DumpAsync()).ShouldContain(Household + code);
        (await EraseAsync(AccountDeletion.Days + 1)).ShouldBeGreaterThan(0);
        var dump = await DumpAsync();
        dump.ShouldNotContain(Household + code);
        dump.ShouldNotContain(somebody.Email, Case.Insensitive);
        dump.ShouldNotContain("41.87777");
        (await CountAsync(db => db.Changes.CountAsync())).ShouldBe(changes);
        (await CountAsync(db => db.Users.CountAsync(a => a.Id == currentUser.AccountId))).ShouldBe(0);
        (await (await Site.SignInAsync(somebody.Browser, somebody.Email)).Content.ReadAsStringAsync()).ShouldContain(
            "do not belong together");
    }

    [Fact]
    public async Task Notes_about_plants_are_in_ones_own_files_go_with_their_writer_and_come_back_with_them()
    {
        using var somebody = await site.JoinAsync(Role.Organiser);
        var (_, currentUser) = await RegisterAsync(somebody);
        var words = "The plant at my sister's gate " + Guid.NewGuid().ToString("N");
        await using (var scope = site.Stand())
        {
            (await scope.Get<Web.Features.Plants.PlantNotes>().WriteAsync("Monarda fistulosa", "", words, currentUser)).ShouldBeEmpty();
            (await scope.Get<Web.Features.Plants.PlantOverrides>().SetAsync("Monarda fistulosa", "height_max_m", "1.1",
                "measured in eight yards", null, currentUser)).ShouldBeEmpty();
        }

        using (var zip = new ZipArchive(await somebody.Browser.GetStreamAsync("/account/data.zip")))
        {
            var text = await new StreamReader(zip.Entries.Single(e => e.FullName.EndsWith("membership.json", StringComparison.Ordinal))
                .Open()).ReadToEndAsync();
            text.ShouldContain(words.Replace("'", "\\u0027"));
            text.ShouldContain("measured in eight yards");
        }

        Task<int> NotesAsync() => CountAsync(db => db.PlantNotes.CountAsync(n => n.WrittenById == currentUser.MemberId));
        Task<int> ValuesAsync() => CountAsync(db => db.PlantOverrides.CountAsync(o => o.SetById == currentUser.MemberId));
        await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password));
        (await NotesAsync(), await ValuesAsync()).ShouldBe((0, 0));
        (await CountAsync(db => db.PlantOverrides.CountAsync(o => o.Value == "1.1"))).ShouldBe(1, "the group's value stays");
        await Site.SignInAsync(somebody.Browser, somebody.Email);
        (await Site.PostAsync(somebody.Browser, "/account", "return")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await NotesAsync(), await ValuesAsync()).ShouldBe((1, 1));
        await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password));
        (await EraseAsync(AccountDeletion.Days + 1)).ShouldBeGreaterThan(0);
        (await DumpAsync()).ShouldNotContain(words[^32..]);
    }

    [Fact]
    public async Task A_name_somebody_checked_in_anothers_yard_stays_checked_without_their_name()
    {
        using var somebody = await site.JoinAsync(Role.Organiser);
        var (_, currentUser) = await RegisterAsync(somebody);
        using var other = await site.JoinAsync(Role.Member);
        var (code, _) = await RegisterAsync(other);
        await using (var db = await Database.CreateDbContextAsync())
        {
            var yard = await db.Yards.SingleAsync(y => y.Code == code);
            (await db.Sightings.Where(s => s.YardId == yard.Id)
                .ExecuteUpdateAsync(set => set.SetProperty(s => s.VerifiedBy, currentUser.Name))).ShouldBe(1);
        }

        await Site.PostAsync(somebody.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password));
        await using var after = await Database.CreateDbContextAsync();
        var its = await after.Yards.SingleAsync(y => y.Code == code);
        (await after.Sightings.SingleAsync(s => s.YardId == its.Id)).VerifiedBy.ShouldBe("a former member");
    }

    [Fact]
    public async Task The_only_administrator_cannot_leave_the_group_without_one()
    {
        using var administrator = await site.AdministratorAsync();
        (await CountAsync(db => db.Members.CountAsync(m => m.Role == Role.Administrator))).ShouldBe(1);
        (await (await Site.PostAsync(administrator, "/account/leave", "leave", ("Draft.Password", Site.Password))).Content
            .ReadAsStringAsync()).ShouldContain("only administrator");
    }

    [Fact]
    public async Task Undoing_does_not_leave_the_group_without_an_administrator_either()
    {
        (await site.AdministratorAsync()).Dispose();
        await using var scope = site.Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        await using var db = await Database.CreateDbContextAsync();
        var first = await db.Changes.Where(c => c.What == "made the first administrator").Select(c => c.Id).SingleAsync();
        var member = await db.Members.FirstAsync(m => m.Role == Role.Administrator);
        (await scope.ServiceProvider.GetRequiredService<Web.Features.History.UndoChange>().UndoAsync(first,
            new CurrentUser(Role.Administrator, member.Id, member.Name, false))).ShouldHaveSingleItem(
                ).Message.ShouldContain("without an administrator");
        (await CountAsync(d => d.Members.CountAsync(m => m.Role == Role.Administrator))).ShouldBe(1);
    }

    [Fact]
    public async Task Somebodys_data_come_as_files_with_all_that_is_theirs_and_nothing_of_others()
    {
        using var other = await site.JoinAsync(Role.Member);
        var (otherCode, _) = await RegisterAsync(other);
        using var somebody = await site.JoinAsync(Role.Member);
        var (code, _) = await RegisterAsync(somebody);
        using var zip = new ZipArchive(await somebody.Browser.GetStreamAsync("/account/data.zip"));
        var text = string.Concat(zip.Entries.Select(e => e.FullName + "\n" + new StreamReader(e.Open()).ReadToEnd()));
        foreach (var own in new[] { somebody.Email, code, Household + code, "41.87777", "Monarda fistulosa", "registered yard " + code })
        {
            text.ShouldContain(own);
        }

        text.ShouldNotContain(other.Email);
        text.ShouldNotContain(otherCode);
        using var stranger = site.Browser();
        (await stranger.GetAsync("/account/data.zip")).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
    }

    /// <summary>A yard of somebody's with one planting, through the product's own writes.</summary>
    private async Task<(string Code, CurrentUser CurrentUser)> RegisterAsync(Somebody somebody)
    {
        await using var scope = site.Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        var services = scope.ServiceProvider;
        await using var db = await services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1).CreateDbContextAsync();
        var member = await db.Members.SingleAsync(m => db.Users.Any(a => a.Id == m.AccountId && a.Email == somebody.Email));
        var currentUser = new CurrentUser(member.Role, member.Id, member.Name, false) { AccountId = member.AccountId };
        var organiser = new CurrentUser(Role.Organiser, null, "an organiser", false);
        await services.GetRequiredService<GroupSettings>().AddBlockAsync("Kiln Street", "A to B", 41.8, -88.5, organiser);
        var block = (await services.GetRequiredService<RegisterYard>().BlocksAsync())[0];
        var code = "K-" + Guid.NewGuid().ToString("N")[..8];
        (await services.GetRequiredService<RegisterYard>().SaveAsync(new YardDraft
        {
            BlockId = block.Id,
            Code = code,
            Latitude = 41.87777,
            Longitude = -88.5,
            AreaSquareMetres = 500,
            Light = Light.FullSun,
            Moisture = Moisture.Medium,
            Household = Household + code,
            Beds = [new() { Name = "front", AreaSquareMetres = 10 }],
        }, currentUser)).ShouldBeEmpty();
        var view = (await services.GetRequiredService<YardQueries>().GetAsync(code, currentUser))!;
        var taxon = (await services.GetRequiredService<LiveCommunity>().NowAsync()).Taxa
            .Single(t => t.ScientificName == "Monarda fistulosa");
        (await services.GetRequiredService<RecordPlantings>()
            .SaveAsync(new RecordSheet(view.Facts.Id, view.Beds[0].Id, view.Beds[0].Version,
            services.GetRequiredService<GroupClock>().Today, member.Name, [new PlantingDraft { Taxon = taxon, CoverSquareMetres = 1 }]),
                currentUser)).Problems.ShouldBeEmpty();
        return (code, currentUser);
    }

    private async Task<int> EraseAsync(int daysFromNow) =>
        await new RetentionJob(Database, new CommonGround.Web.Features.Photos.PhotoFolder(site.Services.GetRequiredService<SiteOptions>()),
            site.Services.GetRequiredService<SiteOptions>(), new Ahead(daysFromNow), NullLogger<RetentionJob>.Instance).RunAsync();

    private async Task<int> CountAsync(Func<CommonGroundDb, Task<int>> count)
    {
        await using var db = await Database.CreateDbContextAsync();
        return await count(db);
    }

    /// <summary>Every value of every table, as text.</summary>
    private async Task<string> DumpAsync()
    {
        var tables = await TableRows.OfAsync(site.Services.GetRequiredService<SiteOptions>().Storage);
        return string.Join('\n', tables.SelectMany(t => t.Value));
    }

    private IDbContextFactory<CommonGroundDb> Database => site.Services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1);

    private sealed class Ahead(int days) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow().AddDays(days);
    }
}
