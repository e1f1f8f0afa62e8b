using CommonGround.Storage.Operations;

namespace CommonGround.Web.Operations;

/// <summary>While the database does not answer, every page is one plain page with status 503. It needs nothing from the database; the next
/// request tries again, so no restart is needed once it is back.</summary>
internal static class DatabaseAway
{
    private const string Page = """
        <!DOCTYPE html>
        <html lang="en">
        <head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Not available just now · CommonGround</title>
        <style>body{font:1.1rem/1.5 sans-serif;max-width:36rem;margin:3rem auto;padding:0 1rem;color-scheme:light dark}</style></head>
        <body><main><h1>The record is not available just now</h1>
        <p>The site runs, but its database does not answer. Everything saved before is safe.</p>
        <p>Load this page again in a few minutes. If it stays like this, tell whoever looks after the site.</p></main></body>
        </html>
        """;

    public static async Task AnswerAsync(HttpContext http, RequestDelegate next)
    {
        try
        {
            await next(http);
        }
        catch (Exception e) when (!http.Response.HasStarted && StorageFailure.Of(e) is { } failure)
        {
            http.RequestServices.GetRequiredService<ILogger<Health>>().LogError(e, "The database did not answer: {Kind}", failure.Kind);
            http.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            http.Response.Headers.RetryAfter = "60";
            http.Response.Headers.CacheControl = "no-store";
            http.Response.ContentLength = null;
            http.Response.ContentType = "text/html; charset=utf-8";
            await http.Response.WriteAsync(Page, http.RequestAborted);
        }
    }
}
