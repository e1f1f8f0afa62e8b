using System.Text.RegularExpressions;
using CommonGround.Web.Features.Membership;
using Microsoft.Extensions.DependencyInjection;
using MimeKit;

namespace CommonGround.Web.Tests.Access;

/// <summary>Letters of a site without a mail server.</summary>
internal static partial class Outbox
{
    /// <summary>The newest letter of a subject to somebody; some are written behind the answer's back.</summary>
    public static async Task<MimeMessage> LetterAsync(SetSite site, string to, string subject, int number = 1)
    {
        while (true)
        {
            await site.Services.GetRequiredService<Mail>().FinishAsync();
            var letters = (await LettersAsync(site, to)).Where(l => l.Subject == subject).ToList();
            if (letters.Count >= number)
            {
                return letters[^1];
            }

            await Task.Delay(20);
        }
    }

    public static async Task<List<MimeMessage>> LettersAsync(SetSite site, string to)
    {
        var letters = new List<MimeMessage>();
        foreach (var file in Directory.CreateDirectory(Path.Combine(site.Data, "outbox")).GetFiles("*.eml").Select(f => f.FullName).Order())
        {
            try
            {
                letters.Add(await MimeMessage.LoadAsync(file));
            }
            catch (Exception e) when (e is IOException or FormatException)
            {
                // Half written as yet.
            }
        }

        return [.. letters.Where(l => l.To.Mailboxes.Any(m => m.Address == to))];
    }

    [GeneratedRegex("https?://\\S+")]
    public static partial Regex Link();
}
