using Microsoft.AspNetCore.ResponseCompression;

namespace CommonGround.Web.Hosting;

/// <summary>
/// Pages and tables travel compressed, but not to a signed-in reader at another site's bidding: there, lengths of compressed answers could
/// be watched for what they hold beside something the other site chose (the attack called BREACH; docs/security.md says what we decided).
/// </summary>
internal static class Compression
{
    public static void Add(IServiceCollection services) => services.AddResponseCompression(o => (o.EnableForHttps, o.MimeTypes) = (true,
        [.. ResponseCompressionDefaults.MimeTypes, "image/svg+xml"]))
        .Configure<BrotliCompressionProviderOptions>(o => o.Level = System.IO.Compression.CompressionLevel.Fastest);

    public static void Use(IApplicationBuilder app) => app.UseWhen(May, compressed => compressed.UseResponseCompression());

    /// <summary>Nobody is signed in, or the browser says that this site itself, or its reader by hand, asks (Fetch Metadata,
    /// W3C).</summary>
    private static bool May(HttpContext http) =>
        !http.Request.Cookies.Keys.Any(SiteSecurity.IsSessionCookie) || http.Request.Headers["Sec-Fetch-Site"].ToString() is "same-origin"
            or "none";
}
