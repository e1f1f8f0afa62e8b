using Microsoft.JSInterop;

namespace CommonGround.Walk;

/// <summary>What the site answered, or status 0 where nothing came.</summary>
public sealed record SiteAnswer(int Status, string Text);

/// <summary>A photo as the phone keeps it.</summary>
/// <param name="TakenOn">yyyy-MM-dd, or empty where the file does not tell.</param>
/// <param name="Problem">Why it was not kept; else empty.</param>
public sealed record KeptPhoto(string TakenOn, string Problem);

/// <summary>
/// What the phone keeps, in IndexedDB, and what it asks the site for. Shelves: "taken" (can be fetched again), "queue" (notes that exist
/// nowhere else), "walked" (the notes of the walk under way), "photos", "beside" (what two people said differently). The browser's own
/// script does the work: it is many times faster here than compiled code.
/// </summary>
public sealed class Shelf(IJSRuntime script) : IDisposable
{
    private DotNetObjectReference<Shelf>? self;
    private Func<bool, Task>? woken;
    private Func<bool>? back;
    private Task<IJSObjectReference>? module;

    private Task<IJSObjectReference> Module => module ??= script.InvokeAsync<IJSObjectReference>("import", "./store.js").AsTask();

    public async Task<string?> ReadAsync(string shelf, string key) => await (await Module).InvokeAsync<string?>("read", shelf, key);

    /// <summary>All texts of a shelf whose key begins so.</summary>
    public async Task<string[]> AllAsync(string shelf, string prefix = "") => await (await Module)
        .InvokeAsync<string[]>("all", shelf, prefix);

    /// <summary>Writes on one or several shelves at once; returns once the device has written it down, not before.</summary>
    /// <exception cref="JSException">The device did not take it, because it is full for example; nothing was written.</exception>
    public async Task WriteAsync(params (string Shelf, string Key, string Text)[] entries) =>
        await (await Module).InvokeVoidAsync("write", [entries.Select(e => new[] { e.Shelf, e.Key, e.Text }).ToArray()]);

    public async Task RemoveAsync(params (string Shelf, string Key)[] entries) =>
        await (await Module).InvokeVoidAsync("remove", [entries.Select(e => new[] { e.Shelf, e.Key }).ToArray()]);

    /// <summary>Empties a shelf.</summary>
    public async Task ClearAsync(string shelf, string prefix = "") => await (await Module).InvokeVoidAsync("clear", shelf, prefix);

    /// <summary>Fetches lines of key, tab, text and keeps each in the place of all that was there; false where the site did not
    /// answer.</summary>
    public async Task<bool> TakeLinesAsync(string shelf, string prefix, string address) => await (await Module)
        .InvokeAsync<bool>("takeLines", shelf, prefix, address);

    public async Task<SiteAnswer> GetAsync(string address) => await (await Module).InvokeAsync<SiteAnswer>("get", address);

    public async Task<SiteAnswer> PostAsync(string address, string body) => await (await Module)
        .InvokeAsync<SiteAnswer>("post", address, body);

    /// <summary>Reads the photo that was chosen, turns and resizes it, takes its position out and keeps it under this key.</summary>
    public async Task<KeptPhoto> KeepPhotoAsync(string inputId, string key) => await (await Module)
        .InvokeAsync<KeptPhoto>("keepPhoto", inputId, key);

    public async Task<SiteAnswer> SendPhotoAsync(string key, string batch) => await (await Module)
        .InvokeAsync<SiteAnswer>("sendPhoto", key, batch);

    /// <summary>Asks the browser not to clear what is kept when the disk is short.</summary>
    public async Task KeepForGoodAsync() => await (await Module).InvokeVoidAsync("keepForGood");

    /// <summary>Keeps a picture of what stands on the page, to be seen before the program runs the next time.</summary>
    public async Task PictureAsync() => await (await Module).InvokeVoidAsync("picture");

    /// <summary>Calls when signal is back or gone, when the walk comes to the front or goes away, when the site answers again while
    /// something waits, and (true) when another tab stored something.</summary>
    /// <param name="back">Closes the open sheet at the phone's Back button; false where none is open.</param>
    public async Task ListenAsync(Func<bool, Task> woken, Func<bool>? back = null)
    {
        (this.woken, this.back) = (woken, back);
        self ??= DotNetObjectReference.Create(this);
        await (await Module).InvokeVoidAsync("listen", self);
    }

    /// <summary>A sheet was opened: Back closes it first.</summary>
    public async Task StepAsync() => await (await Module).InvokeVoidAsync("step");

    [JSInvokable]
    public Task<bool> BackAsync() => Task.FromResult(back?.Invoke() ?? false);

    [JSInvokable]
    public Task WokenAsync(bool byOtherTab) => woken?.Invoke(byOtherTab) ?? Task.CompletedTask;

    public void Dispose() => self?.Dispose();
}
