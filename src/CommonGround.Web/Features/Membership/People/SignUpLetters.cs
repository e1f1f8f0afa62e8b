using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.DataProtection;

namespace CommonGround.Web.Features.Membership;

/// <summary>What somebody asked for who joins. It travels in the letter's link, protected, and is stored nowhere.</summary>
/// <param name="Invitation">The code of the invitation they hold; null where the group is open to anybody.</param>
public sealed record AskedSignUp(int Neighbourhood, string Name, string Email, string? Invitation = null);

/// <summary>
/// The letters that prove an address before its account has a password: to an address that has no account a link, to another one a word
/// that it has one.
/// </summary>
public sealed class SignUpLetters(IDataProtectionProvider protection, Mail mail)
{
    public const string NoGood = "This link is too old or was cut off on its way. Ask to join once more.";
    private static readonly TimeSpan Serves = TimeSpan.FromHours(2);
    private readonly ITimeLimitedDataProtector protector = protection.CreateProtector("CommonGround.SignUp").ToTimeLimitedDataProtector();

    /// <summary>The link that proves the address; it serves two hours.</summary>
    public string Write(AskedSignUp asked) => Write(asked, Serves);

    /// <summary>The link in the letter of an invitation, which serves as long as the invitation does.</summary>
    public string Write(AskedSignUp asked, TimeSpan serves) =>
        mail.Link(EntryPages.FinishSignUp, ("code", protector.Protect(JsonSerializer.Serialize(asked), serves)));

    /// <summary>What a link holds; null for one that is too old, or not ours.</summary>
    public AskedSignUp? Read(string code)
    {
        try
        {
            return JsonSerializer.Deserialize<AskedSignUp>(protector.Unprotect(code));
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    public (string Subject, string Text) ToNew(string group, string link) => ("Join " + group, string.Create(CultureInfo.InvariantCulture,
        $"Somebody, perhaps you, wants to join {group} with this address. Open this link to choose a password. It serves for two hours.\n"
            + $"\n{link}\n\nIf you did not ask for it, throw this letter away: nothing was stored.\n"));

    public (string Subject, string Text) ToKnown(string group, string? invitation = null) => ("You have an account already",
        $"Somebody, perhaps you, wanted to join {group} with this address. You have an account already: sign in, or set a new password.\n\n"
        + (invitation is null ? mail.Link(EntryPages.SignIn) : mail.Link(EntryPages.Join, ("code", invitation))) + "\n");
}
