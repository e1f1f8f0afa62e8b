using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Membership;

/// <summary>What somebody types who joins.</summary>
public sealed class JoinDraft
{
    public string Code { get; set; } = "";
    public string Name { get; set; } = "";
    public string Email { get; set; } = "";
    public string Password { get; set; } = "";

    /// <param name="name">What others see.</param>
    /// <param name="email">What they sign in with.</param>
    /// <param name="orName">Whether a name that is no address will do.</param>
    internal static List<Problem> CheckPerson(string name, string email, bool orName = false)
    {
        var problems = new List<Problem>();
        if (name.Trim().Length is 0 or > 100)
        {
            problems.Add(new(nameof(JoinDraft.Name),
                "Give a name, up to 100 characters; it may be a first name. Members of the group see it."));
        }

        if (orName && !email.Contains('@', StringComparison.Ordinal))
        {
            if (email.Trim() is not { Length: >= 3 and <= 40 } wanted
                || !wanted.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.' or '_'))
            {
                problems.Add(new(nameof(JoinDraft.Email),
                    "Give an e-mail address, or a name of 3 to 40 letters, digits, dots and dashes."));
            }
        }
        else if (email.Trim().Length is < 3 or > 254 || !MimeKit.MailboxAddress.TryParse(email.Trim(), out var box)
            || box.Domain.Length == 0)
        {
            problems.Add(new(nameof(JoinDraft.Email), $"“{email}” is not an e-mail address. Write it like name@example.org."));
        }

        return problems;
    }
}
