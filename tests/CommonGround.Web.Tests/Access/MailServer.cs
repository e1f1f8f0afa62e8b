using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;
using MimeKit;

namespace CommonGround.Web.Tests.Access;

/// <summary>A mail server on loopback that takes every letter: as much of RFC 5321 as that needs.</summary>
internal sealed class MailServer : IDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentQueue<(List<string> To, MimeMessage Letter)> taken = new();
    private readonly SemaphoreSlim news = new(0);

    public MailServer()
    {
        listener.Start();
        _ = AcceptAsync();
    }

    /// <summary>What a site is told that sends its letters here.</summary>
    public (string, string)[] Settings =>
        [("Mail:Host", "127.0.0.1"),
            ("Mail:Port", ((IPEndPoint)listener.LocalEndpoint).Port.ToString(System.Globalization.CultureInfo.InvariantCulture)),
         ("Site:Address", "https://plants.quarry-bend.example")];

    /// <summary>The next letter, with whom the envelope names.</summary>
    public async Task<(List<string> To, MimeMessage Letter)> NextAsync()
    {
        await news.WaitAsync();
        taken.TryDequeue(out var next).ShouldBeTrue();
        return next;
    }

    public void Dispose()
    {
        listener.Dispose();
        news.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                using var client = await listener.AcceptTcpClientAsync();
                await TakeAsync(client);
            }
        }
        catch (Exception e) when (e is ObjectDisposedException or SocketException)
        {
            // The test is over.
        }
    }

    private async Task TakeAsync(TcpClient client)
    {
        using var reader = new StreamReader(client.GetStream(), Encoding.ASCII);
        await using var writer = new StreamWriter(client.GetStream(), Encoding.ASCII) { NewLine = "\r\n", AutoFlush = true };
        await writer.WriteLineAsync("220 test");
        var to = new List<string>();
        while (await reader.ReadLineAsync() is { } line)
        {
            if (line.StartsWith("DATA", StringComparison.Ordinal))
            {
                await writer.WriteLineAsync("354 go on");
                var text = new StringBuilder();
                while (await reader.ReadLineAsync() is { } part && part != ".")
                {
                    text.Append(part.StartsWith("..", StringComparison.Ordinal) ? part[1..] : part).Append("\r\n");
                }

                using var bytes = new MemoryStream(Encoding.ASCII.GetBytes(text.ToString()));
                taken.Enqueue((to, await MimeMessage.LoadAsync(bytes)));
                news.Release();
            }
            else if (line.StartsWith("RCPT TO:", StringComparison.Ordinal))
            {
                to.Add(line[8..].Split(' ')[0]);
            }

            await writer.WriteLineAsync(line.StartsWith("QUIT", StringComparison.Ordinal) ? "221 bye" : "250 ok");
        }
    }
}
