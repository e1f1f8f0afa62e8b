using Microsoft.JSInterop;

namespace CommonGround.Web.Tests.Features.Record;

/// <summary>A browser's own store, which outlives a page.</summary>
internal sealed class FakeBrowser : IJSRuntime, IJSObjectReference
{
    /// <summary>What a read waits for; nothing unless a test says so.</summary>
    public Task Reading { get; set; } = Task.CompletedTask;

    private readonly Dictionary<string, string> store = new(StringComparer.Ordinal);

    /// <summary>What the store holds under a key; empty where nothing.</summary>
    public string Stored(string key) => store.GetValueOrDefault(key, "");

    public ValueTask<T> InvokeAsync<T>(string identifier, object?[]? args) => InvokeAsync<T>(identifier, CancellationToken.None, args);

    public ValueTask<T> InvokeAsync<T>(string identifier, CancellationToken cancellationToken, object?[]? args)
    {
        var key = args is [string first, ..] ? first : "";
        switch (identifier)
        {
            case "import":
                return ValueTask.FromResult((T)(object)this);
            case "keep" when args is [_, string text]:
                store[key] = text;
                break;
            case "keep":
                store.Remove(key);
                break;
            case "kept":
                return LaterAsync<T>(store.GetValueOrDefault(key));
        }

        return ValueTask.FromResult<T>(default!);
    }

    private async ValueTask<T> LaterAsync<T>(object? answer)
    {
        await Reading;
        return (T)answer!;
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
