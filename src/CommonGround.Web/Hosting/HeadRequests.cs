namespace CommonGround.Web.Hosting;

/// <summary>HEAD is answered wherever GET is, with the same headers and nothing after them (RFC 9110, section 9.3.2).</summary>
internal static class HeadRequests
{
    public static async Task AnswerAsync(HttpContext http, RequestDelegate next)
    {
        if (!HttpMethods.IsHead(http.Request.Method) || http.Request.Path.StartsWithSegments("/_blazor",
            StringComparison.OrdinalIgnoreCase))
        {
            await next(http);
            return;
        }

        var body = http.Response.Body;
        (http.Request.Method, http.Response.Body) = (HttpMethods.Get, Stream.Null);
        try
        {
            await next(http);
        }
        finally
        {
            (http.Request.Method, http.Response.Body) = (HttpMethods.Head, body);
        }
    }
}
