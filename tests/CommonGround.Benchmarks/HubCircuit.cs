using System.Buffers;
using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.SignalR.Client;
using Microsoft.AspNetCore.SignalR.Protocol;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Benchmarks;

/// <summary>An open page without a browser: it loads the page, begins the circuit over the hub, acknowledges what is rendered, and
/// clicks.</summary>
/// <remarks>The framework's own protocol between page and server, version 10: what Blazor Server's script sends.</remarks>
internal sealed partial class HubCircuit : IAsyncDisposable
{
    /// <summary>The kind of answer that is an object of the browser's (JSCallResultType).</summary>
    private const int ObjectReference = 1;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);
    private readonly TaskCompletionSource ready = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource clickable = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private static readonly HttpClient Browser = new();
    private readonly HubConnection hub;
    private readonly Uri site;
    private readonly string word;
    private readonly ConcurrentDictionary<ulong, string> handlers = new();
    private readonly StringBuilder drawn = new();
    private readonly TaskCompletionSource ended = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long interop = -1;
    private ulong handler;
    private int calls, batches;
    private TaskCompletionSource? rendered;

    private HubCircuit(HubConnection hub, Uri site, string word)
    {
        this.hub = hub;
        this.site = site;
        this.word = word;
        hub.On<int, string>("JS.AttachComponent", (_, _) => { });
        hub.On<long>("JS.EndUpdateRootComponents", _ => ready.TrySetResult());
        hub.On<string>("JS.Error", error =>
        {
            Error = error;
            ready.TrySetException(new InvalidOperationException(error));
        });
        hub.Closed += _ =>
        {
            ended.TrySetResult();
            ready.TrySetException(new IOException("The server closed the connection."));
            return Task.CompletedTask;
        };
        hub.On<string>("JS.SavePersistedState", _ => { });
        hub.On<string, bool, string>("JS.EndInvokeDotNet", (_, _, _) => { });
        hub.On<long, byte[]>("JS.RenderBatch", RenderedAsync);
        hub.On<long, string, string, int, long, int>("JS.BeginInvokeJS", AnswerAsync);
    }

    /// <param name="site">Address of the site.</param>
    /// <param name="path">The page.</param>
    /// <param name="word">An attribute value by which the button to click is known: the element's id or text-free mark.</param>
    /// <param name="role">As whom the demo is looked at; empty for another site.</param>
    public static async Task<HubCircuit> OpenAsync(Uri site, string path, string word, string role)
    {
        var cookies = new CookieContainer();
        if (role.Length > 0)
        {
            cookies.Add(site, new Cookie("cg-act", role));
        }

        using var browser = new HttpClientHandler { CookieContainer = cookies };
        using var http = new HttpClient(browser) { BaseAddress = site };
        var since = Stopwatch.GetTimestamp();
        var circuit = await BeginAsync(site, path, await http.GetStringAsync(path), cookies, word);
        await circuit.clickable.Task.WaitAsync(Patience);
        circuit.Opening = Stopwatch.GetElapsedTime(since);
        return circuit;
    }

    /// <summary>Begins the circuit of a page that was got before, with what cookies there are now: a browser's way, or that of somebody who
    /// kept the page.</summary>
    /// <exception cref="IOException">The server closed the connection.</exception>
    public static async Task<HubCircuit> BeginAsync(Uri site, string path, string html, CookieContainer cookies, string word = "")
    {
        var markers = Marker().Matches(html).Select(m => m.Groups["marker"].Value).ToArray();
        var state = State().Match(html).Groups["state"].Value;
        var builder = new HubConnectionBuilder().WithUrl(new Uri(site, "/_blazor"), options => options.Cookies = cookies);
        builder.Services.AddSingleton<IHubProtocol>(new BlazorPack());
        var circuit = new HubCircuit(builder.Build(), site, word);
        await circuit.hub.StartAsync();
        try
        {
            circuit.Id = await circuit.hub.InvokeAsync<string>("StartCircuit", site.ToString(), new Uri(site, path).ToString(), "[]",
                state);
            var operations = string.Join(",", markers.Select((m, i) => $"{{\"type\":\"add\",\"ssrComponentId\":{i + 1},\"marker\":{m}}}"));
            await circuit.hub.SendAsync("UpdateRootComponents", $"{{\"batchId\":1,\"operations\":[{operations}]}}", state);
            await circuit.ready.Task.WaitAsync(Patience);
        }
        catch (Exception e) when (e is HubException or InvalidOperationException or OperationCanceledException)
        {
            await circuit.DisposeAsync();
            throw new IOException("The server closed the connection.", e);
        }

        return circuit;
    }

    /// <summary>The secret by which a browser finds its circuit again after a broken connection.</summary>
    public string Id { get; private set; } = "";

    /// <summary>From asking for the page until its button could be pressed.</summary>
    public TimeSpan Opening { get; private set; }

    /// <summary>All that was drawn so far, as the batches carried it.</summary>
    public string Drawn
    {
        get
        {
            lock (drawn)
            {
                return drawn.ToString();
            }
        }
    }

    /// <summary>What the server said when the page failed; null while it did not.</summary>
    public string? Error { get; private set; }

    /// <summary>Batches drawn so far.</summary>
    public int Batches => batches;

    /// <summary>What the page handles: the number of each handler and the event's name.</summary>
    public IReadOnlyDictionary<ulong, string> Handlers => handlers;

    /// <summary>Done once the server closed the connection.</summary>
    public Task Ended => ended.Task;

    /// <summary>Says that an event happened, whether or not there is such a handler.</summary>
    public Task SendEventAsync(ulong number, string name, string arguments) => hub.SendAsync("BeginInvokeDotNetFromJS",
        (++calls).ToString(CultureInfo.InvariantCulture), null, "DispatchEventAsync", interop,
        $"[{{\"eventHandlerId\":{number},\"eventName\":\"{name}\",\"eventFieldInfo\":null}},{arguments}]");

    /// <summary>Says that the reader went to another page.</summary>
    public Task GoAsync(Uri address) => hub.SendAsync("OnLocationChanged", address.ToString(), null, false);

    /// <summary>Asks for a circuit of before, as after a broken connection.</summary>
    public static async Task<bool> FindAgainAsync(Uri site, string id, CookieContainer cookies)
    {
        var builder = new HubConnectionBuilder().WithUrl(new Uri(site, "/_blazor"), options => options.Cookies = cookies);
        builder.Services.AddSingleton<IHubProtocol>(new BlazorPack());
        await using var connection = builder.Build();
        await connection.StartAsync();
        try
        {
            return await connection.InvokeAsync<bool>("ConnectCircuit", id);
        }
        catch (Exception e) when (e is HubException or InvalidOperationException or OperationCanceledException)
        {
            return false;
        }
    }

    /// <summary>Milliseconds from the click to what it rendered.</summary>
    public async Task<double> ClickAsync()
    {
        rendered = new(TaskCreationOptions.RunContinuationsAsynchronously);
        var since = Stopwatch.GetTimestamp();
        await hub.SendAsync("BeginInvokeDotNetFromJS", (++calls).ToString(CultureInfo.InvariantCulture), null, "DispatchEventAsync",
            interop,
            $"[{{\"eventHandlerId\":{handler},\"eventName\":\"click\",\"eventFieldInfo\":null}},{{\"type\":\"click\",\"detail\":1,\"button\":0,\"buttons\":0}}]");
        await rendered.Task.WaitAsync(Patience);
        return Stopwatch.GetElapsedTime(since).TotalMilliseconds;
    }

    /// <summary>Closes the page as a browser does, which says so, that nothing is kept for it.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Id.Length > 0 && hub.State == HubConnectionState.Connected)
        {
            using var form = new MultipartFormDataContent { { new StringContent(Id), "circuitId" } };
            using var answer = await Browser.PostAsync(new Uri(site, "/_blazor/disconnect"), form);
        }

        await hub.DisposeAsync();
    }

    private async Task RenderedAsync(long id, byte[] batch)
    {
        lock (drawn)
        {
            drawn.Append(Encoding.UTF8.GetString(batch));
        }

        Interlocked.Increment(ref batches);
        Scan(batch);
        await hub.SendAsync("OnRenderCompleted", id, null);
        rendered?.TrySetResult();
    }

    private async Task AnswerAsync(long handle, string name, string arguments, int result, long target, int call)
    {
        if (name == "Blazor._internal.attachWebRendererInterop" && Interop().Match(arguments) is { Success: true } match)
        {
            interop = long.Parse(match.Groups["id"].Value, CultureInfo.InvariantCulture);
            Ready();
        }

        if (handle != 0)
        {
            // A script that is asked for is there, by whatever number; else nothing comes back.
            await hub.SendAsync("EndInvokeJSFromDotNet", handle,
                true, $"[{handle},true,{(result == ObjectReference ? "{\"__jsObjectId\":1}" : "null")}]");
        }
    }

    private void Ready()
    {
        if (interop >= 0 && handler != 0)
        {
            clickable.TrySetResult();
        }
    }

    /// <summary>Finds the button's handler in a batch: five offsets in its last 20 bytes, frames of 20 bytes, strings by offset.</summary>
    private void Scan(byte[] batch)
    {
        if (batch.Length < 20)
        {
            return;
        }

        int At(int position) => BinaryPrimitives.ReadInt32LittleEndian(batch.AsSpan(position));
        int frames = At(batch.Length - 16), strings = At(batch.Length - 4), count = At(frames);
        var (marked, found) = (false, false);
        for (var i = 0; i < count; i++)
        {
            var frame = frames + 4 + (i * 20);
            if (At(frame) == 1)
            {
                marked = false; // Another element begins.
            }

            if (At(frame) != 3)
            {
                continue;
            }

            if (BinaryPrimitives.ReadUInt64LittleEndian(batch.AsSpan(frame + 12)) is > 0 and var number)
            {
                handlers[number] = Text(batch, strings, At(frame + 4))[2..];
            }

            marked |= word.Length > 0 && Text(batch, strings, At(frame + 8)) == word;
            if (marked && !found && Text(batch, strings, At(frame + 4)) == "onclick")
            {
                found = true;
                handler = BinaryPrimitives.ReadUInt64LittleEndian(batch.AsSpan(frame + 12));
                Ready();
            }
        }
    }

    private static string Text(byte[] batch, int strings, int index)
    {
        if (index < 0)
        {
            return "";
        }

        var at = BinaryPrimitives.ReadInt32LittleEndian(batch.AsSpan(strings + (index * 4)));
        int length = 0, shift = 0;
        byte part;
        do
        {
            part = batch[at++];
            length |= (part & 127) << shift;
            shift += 7;
        }
        while ((part & 128) != 0);
        return Encoding.UTF8.GetString(batch, at, length);
    }

    [GeneratedRegex("<!--Blazor:(?<marker>\\{\"type\":\"server\".*?\\})-->", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Marker();

    [GeneratedRegex("<!--Blazor-Server-Component-State:(?<state>.*?)-->", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex State();

    [GeneratedRegex("__dotNetObject\":(?<id>\\d+)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Interop();
}
