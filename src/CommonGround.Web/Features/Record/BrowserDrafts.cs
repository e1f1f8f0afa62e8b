using System.Text.Json;
using Microsoft.JSInterop;

namespace CommonGround.Web.Features.Record;

/// <summary>Keeps unsaved lines and plans in the reader's own browser.</summary>
public sealed class BrowserDrafts(IJSRuntime script) : IAsyncDisposable
{
    private IJSObjectReference? module;

    public async Task KeepAsync(string key, IReadOnlyList<PlantingDraft> lines) =>
        await (await ModuleAsync()).InvokeVoidAsync("keep", key, lines.Count == 0 ? null
            : JsonSerializer.Serialize(lines.Select(KeptLine.Of)));

    public async Task<IReadOnlyList<KeptLine>> ReadAsync(string key)
    {
        var text = await (await ModuleAsync()).InvokeAsync<string?>("kept", key);
        try
        {
            return text is null ? [] : JsonSerializer.Deserialize<List<KeptLine>>(text) ?? [];
        }
        catch (JsonException)
        {
            // A draft of an older version, or one somebody changed by hand: nothing that can be read back.
            return [];
        }
    }

    public async Task KeepTextAsync(string key, string? text) => await (await ModuleAsync()).InvokeVoidAsync("keep", key, text);

    public async Task<string?> ReadTextAsync(string key) => await (await ModuleAsync()).InvokeAsync<string?>("kept", key);

    /// <summary>A form's draft; nothing where none was kept, or one of an older version or changed by hand.</summary>
    public async Task<T?> ReadAsync<T>(string key)
    {
        try
        {
            return await ReadTextAsync(key) is { } text ? JsonSerializer.Deserialize<T>(text) : default;
        }
        catch (JsonException)
        {
            return default;
        }
    }

    public async Task FocusAsync(string id) => await (await ModuleAsync()).InvokeVoidAsync("focus", id);

    /// <summary>How wide something is shown, pixels; 0 where it is not.</summary>
    public async Task<double> WidthAsync(string id) => await (await ModuleAsync()).InvokeAsync<double>("width", id);

    private async Task<IJSObjectReference> ModuleAsync() => module ??= await script.InvokeAsync<IJSObjectReference>("import", "./draft.js");

    public async ValueTask DisposeAsync()
    {
        try
        {
            if (module is not null)
            {
                await module.DisposeAsync();
            }
        }
        catch (JSDisconnectedException)
        {
            // The page is gone, and its script with it.
        }
    }
}
