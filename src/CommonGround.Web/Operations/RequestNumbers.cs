using System.Security.Cryptography;
using Serilog.Context;

namespace CommonGround.Web.Operations;

/// <summary>A short number for each request. The trouble page shows it, and every line that the request logs carries it.</summary>
public static class RequestNumbers
{
    /// <summary>Letters and figures that are not mistaken for one another when read out.</summary>
    private const string Letters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";

    public static string New() => RandomNumberGenerator.GetString(Letters, 8);

    /// <summary>First of all, so that whatever fails behind it is logged with the number.</summary>
    public static async Task NumberAsync(HttpContext http, RequestDelegate next)
    {
        http.TraceIdentifier = New();
        using (LogContext.PushProperty("Reference", http.TraceIdentifier))
        {
            await next(http);
        }
    }
}
