using CommonGround.Ecology.Phenology;
using CommonGround.Interchange;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Import;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.More;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Every write of the product says in words why the database did not take it, and works again as soon as it does.</summary>
public abstract class RefusedWriteTests(SetSite site)
{
    /// <summary>Makes the site's database refuse writes until disposed.</summary>
    protected abstract IDisposable Refusing(Refuses how);

    [Theory]
    [InlineData(Refuses.Locked, "Others were saving for so long that this had no turn")]
    [InlineData(Refuses.Full, "The disk that holds the record is full")]
    [InlineData(Refuses.ReadOnly, "The record can only be read at the moment")]
    public async Task Every_write_is_refused_in_words_and_stored_when_the_database_takes_it_again(Refuses how, string words)
    {
        var by = await AdministratorAsync();
        var plan = await site.PlanAsync(await site.RegisterAsync(by), by);
        var target = await WriteMatrixTests.TargetAsync(site, by, plan);
        var wrong = new List<string>();
        var written = await WrittenAsync();
        using (Refusing(how))
        {
            // None of them is stored, so they may wait for the database at once.
            var answers = await Task.WhenAll(WriteMatrixTests.Writes.Select(write => Task.Run(async () =>
            {
                await using var scope = site.Stand();
                return (write.Name, Problems: await ChangingAsync(write, scope, target, by));
            })));
            answers.Where(a => a.Problems is not [var only] || !only.Message.StartsWith(words, StringComparison.Ordinal))
                .Select(a => $"{a.Name}: {string.Join(" ", a.Problems.Select(p => p.Message))}").ShouldBeEmpty();
            (await ImportAsync(by)).Errors.ShouldHaveSingleItem().ToString().ShouldContain(words);
        }

        (await WrittenAsync()).ShouldBe(written);
        foreach (var write in WriteMatrixTests.Writes)
        {
            await using var scope = site.Stand();
            // Each on something of its own: after one has taken the yard out, no other finds it.
            if (await write.Problems(scope, await WriteMatrixTests.TargetAsync(site, by, plan), by) is { Count: > 0 } left)
            {
                wrong.Add($"{write.Name}, once it could: {left[0].Message}");
            }
        }

        (await ImportAsync(by)).Errors.ShouldBeEmpty();
        wrong.ShouldBeEmpty();
    }

    [Theory]
    [InlineData(Refuses.Locked, "had no turn")]
    [InlineData(Refuses.Full, "is full")]
    [InlineData(Refuses.ReadOnly, "can only be read")]
    public async Task Accounts_are_refused_in_words_too(Refuses how, string words)
    {
        using var somebody = await site.JoinAsync(Role.Member);
        using var stranger = site.Browser();
        await using var scope = site.Stand();
        var accounts = scope.Get<Accounts>();
        var account = (await accounts.FindByEmailAsync(somebody.Email))!;
        using (Refusing(how))
        {
            (await scope.Get<AccountSettings>().RenameAsync(account, "Another name", "")).ShouldHaveSingleItem(
                ).Message.ShouldContain(words);
            (await scope.Get<AccountSettings>().SetPasswordAsync(account, Site.Password, "nine loud sparrows", null)).ShouldHaveSingleItem(
                ).Message.ShouldContain(words);
            await using var fresh = site.Stand();
            account = (await fresh.Get<Accounts>().FindByEmailAsync(somebody.Email))!;
            (await fresh.Get<AccountDeletion>().AskAsync(account, Site.Password, "")).ShouldHaveSingleItem().Message.ShouldContain(words);
            var page = await (await Site.SignInAsync(stranger, somebody.Email)).Content.ReadAsStringAsync();
            page.ShouldContain(words);
            page.ShouldContain(somebody.Email, Case.Sensitive, "what was typed stays in the form");
        }

        (await Site.SignInAsync(stranger, somebody.Email)).StatusCode.ShouldBe(System.Net.HttpStatusCode.Found);
        await using var later = site.Stand();
        var again = (await later.Get<Accounts>().FindByEmailAsync(somebody.Email))!;
        (await later.Get<AccountSettings>().RenameAsync(again, "Another name", "")).ShouldBeEmpty();
        (await site.AskAsync(db => db.Members.SingleAsync(m => m.AccountId == again.Id))).Name.ShouldBe("Another name");
    }

    [Fact]
    public async Task Somebody_whose_session_was_ended_is_told_so_by_every_write()
    {
        var by = await AdministratorAsync();
        var plan = await site.PlanAsync(await site.RegisterAsync(by), by);
        var target = await WriteMatrixTests.TargetAsync(site, by, plan);
        var gone = by with { SessionId = Guid.NewGuid() };
        foreach (var write in WriteMatrixTests.Writes.Where(w => w.Name != "GroupSettings.AddNeighbourhoodAsync"))
        {
            await using var scope = site.Stand();
            (await ChangingAsync(write, scope, target, gone)).ShouldHaveSingleItem(write.Name).Message.ShouldContain("no longer signed in");
        }
    }

    [Fact]
    public async Task A_signed_in_reader_of_a_database_that_takes_nothing_goes_on_reading()
    {
        using var somebody = await site.JoinAsync(Role.Member);
        await site.AskAsync(db => db.Set<Session>().ExecuteUpdateAsync(set => set.SetProperty(s => s.SeenAtUtc,
            s => s.SeenAtUtc.AddMinutes(-20))));
        using (Refusing(Refuses.ReadOnly))
        {
            (await somebody.Browser.GetAsync("/")).StatusCode.ShouldBe(System.Net.HttpStatusCode.OK);
        }
    }

    /// <summary>Two writes of the list store what is there already; here they alter something.</summary>
    private static async Task<IReadOnlyList<Problem>> ChangingAsync(WriteMatrixTests.Write write, AsyncServiceScope scope,
        WriteMatrixTests.Target target, CurrentUser by) => write.Name switch
        {
            "SaveRules.SaveAsync" => await scope.Get<SaveRules>()
                .SaveAsync(GroupRules.Default with { Season = Season.Default with { Norm = 4 } }, by),
            "GroupPrices.SaveAsync" => await scope.Get<GroupPrices>()
                .SaveAsync(await scope.Get<GroupPrices>().ReadAsync() with { PlugEach = 2.9 }, [], by),
            _ => await write.Problems(scope, target, by),
        };

    private async Task<ImportOutcome> ImportAsync(CurrentUser by)
    {
        await using var scope = site.Stand();
        var file = ImportFile.Read("places.csv",
            System.Text.Encoding.UTF8
                .GetBytes($"street,block,yard,latitude,longitude,yard_m2\nMill Street,A to "
                + $"B,M-{Guid.NewGuid().ToString("N")[..6]},41.5,-88.5,100\n"));
        return await scope.Get<ImportFiles>().RunAsync([file],
            new ImportChoices(false, false, new DateOnly(2026, 8, 19)) { By = by.Note("brought a file") }, null, CancellationToken.None);
    }

    private async Task<CurrentUser> AdministratorAsync()
    {
        using var who = await site.JoinAsync(Role.Administrator);
        return await site.ViewerAsync(who.Email);
    }

    private Task<int> WrittenAsync() => site.AskAsync(db => db.Changes.CountAsync());
}

public sealed class SqliteRefusedWriteTests(FreshSite site) : RefusedWriteTests(site), IClassFixture<FreshSite>
{
    protected override IDisposable Refusing(Refuses how) => RefusingDatabase.Begin(Path.Combine(site.Data, "commonground.db"), how);
}

public sealed class PostgresRefusedWriteTests(PostgresGroupSite site) : RefusedWriteTests(site), IClassFixture<PostgresGroupSite>
{
    protected override IDisposable Refusing(Refuses how) => RefusingPostgres.Begin(site.Connection, how);
}
