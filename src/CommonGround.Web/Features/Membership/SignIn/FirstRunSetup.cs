using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Regions;
using CommonGround.Web.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>What the first administrator says on the first page.</summary>
public sealed class FirstRunDraft
{
    public string Code { get; set; } = "";
    public string Group { get; set; } = "";
    public string TimeZone { get; set; } = "";
    public string Name { get; set; } = "";
    public string Email { get; set; } = "";
    public string Password { get; set; } = "";

    /// <summary>Where the group is; may be said later.</summary>
    public PlaceDraft Place { get; set => field = value ?? new(); } = new();
}

/// <summary>Makes the first administrator. The code that stands in the log shows that whoever comes has the machine; it serves
/// once.</summary>
public sealed class FirstRunSetup(Neighbourhoods neighbourhoods, IServiceScopeFactory scopes, IDbContextFactory<CommonGroundDb> database)
    : IDisposable
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly string code = Codes.New();
    private bool over;

    /// <summary>For the log alone.</summary>
    public string Code => code;

    /// <summary>Whether a real group is still without anybody who can sign in.</summary>
    public async Task<bool> IsNeededAsync(CancellationToken cancel = default)
    {
        if (over || neighbourhoods.All[0].Neighbourhood.IsDemo)
        {
            return false;
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        over = await db.Members.AcrossNeighbourhoods().AnyAsync(m => m.Role == Role.Administrator && m.AccountId != null, cancel);
        return !over;
    }

    /// <summary>The account made, or what is wrong.</summary>
    public async Task<(Account? Account, IReadOnlyList<Problem> Problems)> MakeAsync(FirstRunDraft draft, string from,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        await gate.WaitAsync(cancel);
        try
        {
            Account? account = null;
            var problems = await Door.TryAsync(async () =>
            {
                if (!await IsNeededAsync(cancel))
                {
                    return [new("", "This site has its administrator already. Sign in, or ask them for an invitation.")];
                }

                IReadOnlyList<Problem> wrong = Check(draft);
                if (wrong.Count == 0)
                {
                    (account, wrong) = await StoreAsync(draft, from, cancel);
                }

                return wrong;
            });
            return (account, problems);
        }
        finally
        {
            gate.Release();
        }
    }

    public void Dispose() => gate.Dispose();

    private List<Problem> Check(FirstRunDraft draft)
    {
        var problems = new List<Problem>();
        if (!Codes.Same(draft.Code, code))
        {
            problems.Add(new(nameof(FirstRunDraft.Code),
                "This is not the code. It stands in the program's output, on the line that says “first start”; a new one is made at "
                    + "every start."));
        }

        if (draft.Group.Trim().Length is 0 or > 200)
        {
            problems.Add(new(nameof(FirstRunDraft.Group), "Give the neighbourhood a name, up to 200 characters."));
        }

        if (TimeZones.Fault(draft.TimeZone) is { } fault)
        {
            problems.Add(new(nameof(FirstRunDraft.TimeZone), fault));
        }

        if (!draft.Place.IsBlank)
        {
            problems.AddRange(draft.Place.Read().Problems);
        }

        problems.AddRange(JoinDraft.CheckPerson(draft.Name, draft.Email));
        return problems;
    }

    private async Task<(Account?, IReadOnlyList<Problem>)> StoreAsync(FirstRunDraft draft, string from, CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<Accounts>();
        // The mail address is taken on trust: whoever holds the machine holds the code.
        var (account, problems) = await SignUp.MakeAccountAsync(accounts, draft.Name, draft.Email, draft.Password, confirmed: true);
        if (account is null)
        {
            return (null, problems);
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var group = await db.Neighbourhoods.OrderBy(n => n.Id).FirstAsync(cancel);
                (group.Name, group.TimeZone) = (draft.Group.Trim(), draft.TimeZone);
                if (draft.Place.Read().Place is { } place)
                {
                    RegionSettings.Put(group, place, draft.Place.PlaceName);
                }

                db.Members.Add(new Member
                {
                    NeighbourhoodId = group.Id,
                    Name = draft.Name.Trim(),
                    Role = Role.Administrator,
                    AccountId = account.Id
                });
                return ChangeNote.OfProgram(group.Id, "made the first administrator") with { From = from };
            }, cancel);
        if (!saved.IsStored)
        {
            await SignUp.DropAsync(accounts, account);
            return (null, saved.Problems);
        }

        over = true;
        await neighbourhoods.TryReadAsync(cancel);
        return (account, []);
    }
}
