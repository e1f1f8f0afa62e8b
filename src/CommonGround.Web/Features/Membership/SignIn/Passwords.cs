using CommonGround.Storage.Accounts;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using Microsoft.AspNetCore.Identity;

namespace CommonGround.Web.Features.Membership;

/// <summary>What makes a password too easy: too short, chosen by many, or made of words an attacker tries first. Nothing about capitals and
/// signs.</summary>
public sealed class Passwords(Neighbourhoods neighbourhoods) : IPasswordValidator<Account>
{
    public const int Shortest = 10;
    public const int Longest = 128;

    /// <summary>OWASP's figure for PBKDF2 with HMAC-SHA-512 (Password Storage Cheat Sheet).</summary>
    public const int Rounds = 210_000;
    private static readonly Lazy<HashSet<string>> Common =
        new(() => [.. File.ReadLines(Path.Combine(SiteOptions.SeedFolder, "common-passwords.txt"))]);

    public Task<IdentityResult> ValidateAsync(UserManager<Account> manager, Account user, string? password)
    {
        ArgumentNullException.ThrowIfNull(user);
        string[] words = ["commonground", .. neighbourhoods.All.Select(p => p.Neighbourhood.Name), user.Name,
            .. (user.Email ?? "").Split('@', '.')];
        var problem = Problem(password ?? "", words);
        return Task.FromResult(problem is null ? IdentityResult.Success
            : IdentityResult.Failed(new IdentityError { Code = "Password", Description = problem }));
    }

    /// <param name="words">Names of the site, the group and the person.</param>
    /// <returns>What is wrong, or null.</returns>
    public static string? Problem(string password, IEnumerable<string> words)
    {
        ArgumentNullException.ThrowIfNull(password);
        if (password.Length is < Shortest or > Longest)
        {
            return $"A password has {Shortest} to {Longest} characters. Four words that belong together only for you make a good one.";
        }

        var folded = password.ToLowerInvariant();
        if (folded.Distinct().Count() < 4)
        {
            return "This password repeats the same few characters. Choose one with more of them.";
        }

        var stem = folded.TrimEnd("0123456789!?.,-_*#$%&+".ToCharArray());
        if (Common.Value.Contains(folded) || Common.Value.Contains(stem))
        {
            return "Many people use this password, so it is among the first to be guessed. Choose one of your own.";
        }

        var bare = Letters(folded);
        return words.Select(w => Letters(w.ToLowerInvariant())).Any(w => w.Length >= 4 && bare.Contains(w, StringComparison.Ordinal)
            && bare.Length - w.Length < 5)
            ? "This password is little more than a name that belongs to you or the group. Choose one that has nothing to do with them."
            : null;
    }

    /// <summary>A refusal in our words: the framework's own rule says the same of the length in its words.</summary>
    public static string Words(IdentityError error, string password)
    {
        ArgumentNullException.ThrowIfNull(error);
        return error.Code == "Password" ? error.Description : Problem(password, []) ?? error.Description;
    }

    private static string Letters(string text) => new([.. text.Where(char.IsLetterOrDigit)]);
}
