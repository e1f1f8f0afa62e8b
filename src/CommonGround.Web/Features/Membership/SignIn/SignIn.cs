using System.Security.Claims;
using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace CommonGround.Web.Features.Membership;

/// <summary>Signs somebody in, by whichever way: each time with a session of its own that can be ended from afar.</summary>
public sealed partial class SessionSignIn(
    Accounts accounts, IHttpContextAccessor http, IUserClaimsPrincipalFactory<Account> claims, IOptions<IdentityOptions> options,
    ILogger<SignInManager<Account>> log, IAuthenticationSchemeProvider schemes, IUserConfirmation<Account> confirmation, Sessions sessions)
    : SignInManager<Account>(accounts, http, claims, options, log, schemes, confirmation)
{
    public const string SessionClaim = "session";

    public override async Task SignInWithClaimsAsync(Account user, AuthenticationProperties? authenticationProperties,
        IEnumerable<Claim> additionalClaims)
    {
        ArgumentNullException.ThrowIfNull(user);
        // What this browser was signed in with before is over: nobody can hand somebody a session prepared beforehand.
        if (CurrentUserQueries.SessionOf(Context.User) is { } before)
        {
            await EndedAsync(before);
        }

        var session = await sessions.StartAsync(user.Id, authenticationProperties?.IsPersistent == true, Context);
        await base.SignInWithClaimsAsync(user, authenticationProperties,
            [.. additionalClaims, new Claim(SessionClaim, session.ToString())]);
        SignedIn(Context.RequestServices.GetRequiredService<ILogger<SessionSignIn>>(), user.Id, Context.Request.Path.Value ?? "");
    }

    public override async Task SignOutAsync()
    {
        if (CurrentUserQueries.SessionOf(Context.User) is { } session)
        {
            await EndedAsync(session);
        }

        await base.SignOutAsync();
    }

    /// <summary>The browser forgets the session in any case; where the database cannot just now, it ends there by time.</summary>
    private Task<IReadOnlyList<Problem>> EndedAsync(Guid session) => Door.TryAsync(async () =>
    {
        await sessions.EndAsync(session);
        return [];
    });

    // Numbers and the page, never names or addresses.
    [LoggerMessage(Level = LogLevel.Information, Message = "Account {Account} signed in at {Page}")]
    private static partial void SignedIn(ILogger log, long account, string page);
}

/// <summary>The sessions of all accounts: started at sign-in, looked up with every request, ended by their owner or by time.</summary>
public sealed class Sessions(IDbContextFactory<CommonGroundDb> database, TimeProvider time, SessionEvents standings)
{
    /// <summary>Without "stay signed in" a session ends after this much idleness; with it after <see cref="Staying"/>.</summary>
    public static readonly TimeSpan Idle = TimeSpan.FromHours(12);
    public static readonly TimeSpan Staying = TimeSpan.FromDays(14);

    /// <summary>However busy, after this long somebody signs in again.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(60);

    private static readonly TimeSpan SeenEvery = TimeSpan.FromMinutes(5);

    public async Task<Guid> StartAsync(long accountId, bool stays, HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        var now = time.GetUtcNow().UtcDateTime;
        var session = new Session
        {
            Id = Guid.NewGuid(),
            AccountId = accountId,
            StartedAtUtc = now,
            SeenAtUtc = now,
            EndsAtUtc = now + (stays ? Staying : Idle),
            Device = Devices.Name(http.Request.Headers.UserAgent.ToString()),
            From = Network.Shorten(http.Connection.RemoteIpAddress),
        };
        var saved = await database.WriteUnnotedAsync(async db =>
        {
            await db.Sessions.Where(s => s.EndsAtUtc < now).ExecuteDeleteAsync();
            db.Sessions.Add(session);
        });
        return saved.IsStored ? session.Id : throw new NotStoredException(saved.Problems[0]);
    }

    /// <summary>Whether the cookie's session still stands; moves its end while it is used.</summary>
    public async Task<bool> StandsAsync(Guid id, long accountId, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var session = await db.Sessions.AsNoTracking().SingleOrDefaultAsync(s => s.Id == id && s.AccountId == accountId, cancel);
        if (session is null || session.EndsAtUtc <= now || session.StartedAtUtc + Longest <= now)
        {
            return false;
        }

        if (now - session.SeenAtUtc > SeenEvery)
        {
            var idle = session.EndsAtUtc - session.SeenAtUtc;
            // A database that takes nothing just now signs nobody out.
            await database.WriteUnnotedAsync(there => there.Sessions.Where(s => s.Id == id)
                .ExecuteUpdateAsync(set => set.SetProperty(s => s.SeenAtUtc, now).SetProperty(s => s.EndsAtUtc, now + idle), cancel),
                cancel);
        }

        return true;
    }

    public async Task<IReadOnlyList<Session>> OfAsync(long accountId, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        return await db.Sessions.AsNoTracking().Where(s => s.AccountId == accountId && s.EndsAtUtc > now)
            .OrderByDescending(s => s.SeenAtUtc).ToListAsync(cancel);
    }

    /// <exception cref="NotStoredException">The database did not take it; the message says why.</exception>
    public Task EndAsync(Guid id, long? ofAccount = null) => EndAsync(s => s.Id == id && (ofAccount == null || s.AccountId == ofAccount));

    /// <summary>Ends every session of an account but one: after a new password, or when a device was lost.</summary>
    public Task EndAllAsync(long accountId, Guid? but = null) => EndAsync(s => s.AccountId == accountId && s.Id != but);

    private async Task EndAsync(System.Linq.Expressions.Expression<Func<Session, bool>> which)
    {
        List<Guid> ended = [];
        var saved = await database.WriteUnnotedAsync(async db =>
        {
            ended = await db.Sessions.Where(which).Select(s => s.Id).ToListAsync();
            await db.Sessions.Where(which).ExecuteDeleteAsync();
        });
        if (!saved.IsStored)
        {
            throw new NotStoredException(saved.Problems[0]);
        }

        foreach (var id in ended)
        {
            standings.Changed(id, null);
        }
    }

    /// <summary>Asked with every request that brings a cookie.</summary>
    public static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        var sessions = context.HttpContext.RequestServices.GetRequiredService<Sessions>();
        if (context.Principal is not { } user || CurrentUserQueries.AccountOf(user) is not { } account
            || CurrentUserQueries.SessionOf(user) is not { } session
            || !await sessions.StandsAsync(session, account, context.HttpContext.RequestAborted))
        {
            context.RejectPrincipal();
            await context.HttpContext.SignOutAsync(IdentityConstants.ApplicationScheme);
        }
    }
}
