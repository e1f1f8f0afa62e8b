using System.Collections.Concurrent;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace CommonGround.Web.Features.Membership;

/// <summary>Where mail goes out.</summary>
/// <param name="Host">SMTP server; null: mails are laid into a folder instead.</param>
/// <param name="Site">Address of the site as mails name it: from the settings, never from a request, which anybody can forge.</param>
public sealed record MailSettings(string? Host, int Port, string? User, string? Password, string From, Uri Site)
{
    public static MailSettings Read(IConfiguration settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var address = settings["Site:Address"] ?? settings["urls"]?.Split(';')[0] ?? "http://localhost:5080";
        return Uri.TryCreate(address, UriKind.Absolute, out var site)
            ? new MailSettings(settings["Mail:Host"], settings.GetValue("Mail:Port", 587), settings["Mail:User"],
            settings["Mail:Password"], settings["Mail:From"] ?? "commonground@localhost", site)
            : throw new DataFolderException($"Site:Address '{address}' is not an address: write it whole, such as "
            + $"https://plants.example.org.");
    }
}

/// <summary>Sends the site's few letters; without a mail server they lie as files in the data folder's outbox.</summary>
public sealed partial class Mail(MailSettings settings, SiteOptions options, ILogger<Mail> log) : IAsyncDisposable
{
    private readonly ConcurrentDictionary<Task, bool> underWay = new();

    public bool HasServer => settings.Host is not null;

    /// <summary>A link into the site, as a letter says it.</summary>
    public string Link(string path, params (string Name, string Value)[] values) =>
        new Uri(settings.Site, path) + (values.Length == 0 ? ""
            : "?" + string.Join('&', values.Select(v => $"{v.Name}={Uri.EscapeDataString(v.Value)}")));

    /// <summary>Begins to send a letter that no answer waits for.</summary>
    public void Begin(Func<Task> sending)
    {
        var task = Task.Run(sending);
        underWay.TryAdd(task, true);
        _ = task.ContinueWith(ended => underWay.TryRemove(ended, out _), TaskScheduler.Default);
    }

    /// <summary>Waits for every letter that was begun.</summary>
    public Task FinishAsync() => Task.WhenAll(underWay.Keys);

    /// <summary>A site that stops sends first what it began.</summary>
    public async ValueTask DisposeAsync() => await FinishAsync();

    /// <summary>Sends one letter; false when it could not be, which the log explains.</summary>
    public async Task<bool> SendAsync(string to, string subject, string text, CancellationToken cancel = default)
    {
        if (!MailboxAddress.TryParse(to, out var recipient))
        {
            return false;
        }

        using var letter = new MimeMessage();
        letter.From.Add(MailboxAddress.Parse(settings.From));
        letter.To.Add(recipient);
        letter.Subject = subject;
        using var body = new TextPart("plain") { Text = text };
        letter.Body = body;
        try
        {
            if (settings.Host is null)
            {
                await using var file = Outbox(options.DataFolder);
                await letter.WriteToAsync(file, cancel);
                return true;
            }

            using var smtp = new SmtpClient();
            await smtp.ConnectAsync(settings.Host, settings.Port, settings.Port == 465 ? SecureSocketOptions.SslOnConnect
                : settings.Host is "localhost" or "127.0.0.1" ? SecureSocketOptions.StartTlsWhenAvailable : SecureSocketOptions.StartTls,
                cancel);
            if (settings.User is { Length: > 0 })
            {
                await smtp.AuthenticateAsync(settings.User, settings.Password ?? "", cancel);
            }

            await smtp.SendAsync(letter, cancel);
            await smtp.DisconnectAsync(quit: true, cancel);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.Net.Sockets.SocketException
            or MailKit.CommandException or MailKit.ProtocolException or AuthenticationException)
        {
            NotSent(e, subject);
            return false;
        }
    }

    /// <summary>A new file for one letter. Letters hold links that open accounts, so nobody else may read them, whatever rights a folder
    /// from before gave.</summary>
    private static FileStream Outbox(string dataFolder)
    {
        var folder = Directory.CreateDirectory(Path.Combine(dataFolder, "outbox"));
        var how = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            folder.UnixFileMode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
            how.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return new FileStream(Path.Combine(folder.FullName, $"{DateTime.UtcNow:yyyyMMdd-HHmmss-fff}-{Guid.NewGuid():N}.eml"), how);
    }

    // The subject says which letter; the recipient is left out of the log.
    [LoggerMessage(Level = LogLevel.Error, Message = "The letter “{Subject}” could not be sent")]
    private partial void NotSent(Exception e, string subject);
}
