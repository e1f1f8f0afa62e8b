namespace CommonGround.Web.Features.Membership;

/// <summary>Addresses that are spoken of in more than one place.</summary>
public static class EntryPages
{
    public const string FirstRun = "/begin", SignIn = "/sign-in", Second = "/sign-in/second", Join = "/join",
        FinishSignUp = "/finish-sign-up", Forgot = "/forgot", NewPassword = "/new-password", Confirm = "/confirm", Account = "/account";

    /// <summary>Where passwords and codes could be guessed: few tries a minute from one address.</summary>
    public static readonly IReadOnlyList<string> Guessable = [FirstRun, SignIn, Join, FinishSignUp, Forgot, NewPassword, Confirm, Account];

    /// <summary>Where to go after signing in: an address of this site, else its first page.</summary>
    public static string Back(string? wanted) =>
        wanted is ['/', ..] and not ['/', '/' or '\\', ..] && !wanted.Any(c => c is '\\' or < ' ') ? wanted : "/";
}
