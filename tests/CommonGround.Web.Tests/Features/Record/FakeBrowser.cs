using Microsoft.JSInterop;

namespace CommonGround.Web.Tests.Features.Record;

/// <summary>A browser's own store, which outlives a page.</summary>
internal sealed class FakeBrowser : IJSRuntime, IJSObjectReference
{
    private readonly Dictionary<string, string> store = new(StringComparer.Ordinal);

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
                return ValueTask.FromResult((T)(object)store.GetValueOrDefault(key)!);
        }

        return ValueTask.FromResult<T>(default!);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
