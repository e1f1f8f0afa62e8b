using System.Net;
using System.Threading.RateLimiting;
using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using IPNetwork = System.Net.IPNetwork;

namespace CommonGround.Web.Hosting;

/// <summary>Sign-in, cookies, headers, limits and what is believed of a proxy.</summary>
internal static class SiteSecurity
{
    private const string SessionCookie = "cg-session";

    public static void AddSecurity(this WebApplicationBuilder builder)
    {
        var (services, settings) = (builder.Services, builder.Configuration);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 40 * 1024 * 1024;
        });
        AddSignIn(services, OnlyHttps(settings));
        services.AddSingleton<AllowedHosts>();
        // Behind a proxy the program does not see at which port it listens for https, and would then send nobody there.
        services.AddHttpsRedirection(to => to.HttpsPort = settings.GetValue<int?>("https_port") ?? HttpsPort(settings));
        services.AddHsts(hsts => (hsts.MaxAge, hsts.IncludeSubDomains) = (TimeSpan.FromDays(365), true));
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.GlobalLimiter = Limits(settings.GetValue("Limits:RequestsPerMinute", 1200),
                settings.GetValue("Limits:EntriesPerMinute", 20));
            limits.OnRejected = async (context, cancel) =>
            {
                context.HttpContext.Response.Headers.RetryAfter = "60";
                await context.HttpContext.Response.WriteAsync(
                    "Too many requests from your address or account. Nothing was stored of this one; wait a minute and try again.", cancel);
            };
        });
        if (Proxies(settings) is { Count: > 0 } proxies)
        {
            services.Configure<ForwardedHeadersOptions>(forwarded =>
            {
                forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto;
                forwarded.KnownProxies.Clear();
                forwarded.KnownIPNetworks.Clear();
                proxies.ForEach(forwarded.KnownIPNetworks.Add);
            });
        }
    }

    /// <summary>What stands before everything else.</summary>
    public static void UseSecurity(this WebApplication app, Task<OpenedSite> opening)
    {
        if (Proxies(app.Configuration).Count > 0)
        {
            app.UseForwardedHeaders();
        }

        app.Services.GetRequiredService<AllowedHosts>().Use(app, opening);
        if (OnlyHttps(app.Configuration))
        {
            app.UseHsts().UseHttpsRedirection();
        }

        UseOrigin(app);
        app.UseHeaders();
    }

    /// <summary>What every answer says to the browser, that of the health check too. Set anew where an error was answered
    /// instead.</summary>
    public static void UseHeaders(this WebApplication app)
    {
        var tiles = TileOrigin(app.Configuration);
        app.Use(async (http, next) =>
        {
            var headers = http.Response.Headers;
            var host = http.Request.Host.Value ?? "";
            // The walk runs compiled code in the browser; no other page may.
            var compiled = http.Request.Path.StartsWithSegments("/walk", StringComparison.OrdinalIgnoreCase) ? " 'wasm-unsafe-eval'" : "";
            headers.ContentSecurityPolicy = "default-src 'self'; frame-src 'self'; script-src 'self'" + compiled
                + "; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:" + tiles
                + $"; connect-src 'self' ws://{host} wss://{host}; font-src 'self'; object-src 'none'; base-uri 'self'; frame-ancestors "
                + $"'none'; form-action 'self'";
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=(), payment=()";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            await next(http);
        });
    }

    /// <summary>Live pages talk over a WebSocket, to which browsers apply no same-origin rule: one that a page of another site opens is
    /// refused (RFC 6455, section 10.2).</summary>
    private static void UseOrigin(WebApplication app)
    {
        var site = app.Services.GetRequiredService<MailSettings>().Site.Authority;
        app.Use((http, next) =>
        {
            if (http.Request.Path.StartsWithSegments("/_blazor", StringComparison.OrdinalIgnoreCase)
                && http.Request.Headers.Origin is [{ } origin]
                && !(Uri.TryCreate(origin, UriKind.Absolute, out var from)
                && (Same(from.Authority, http.Request.Host.Value) || Same(from.Authority, site))))
            {
                http.Response.StatusCode = StatusCodes.Status403Forbidden;
                return Task.CompletedTask;
            }

            return next(http);
        });
        static bool Same(string one, string? other) => one.Equals(other, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Pages made for somebody are kept by no cache between; files that never change may be.</summary>
    public static IApplicationBuilder UseNoStore(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (http.GetEndpoint() is { } endpoint && !Access.AccessCheckStep.IsPlumbing(endpoint, http.Request.Path))
        {
            http.Response.Headers.CacheControl = "no-store";
        }

        return next(http);
    });

    /// <summary>Whether a cookie says that somebody is signed in, or half way.</summary>
    internal static bool IsSessionCookie(string name) => name.StartsWith(SessionCookie, StringComparison.Ordinal)
        || name.StartsWith("__Host-" + SessionCookie, StringComparison.Ordinal);

    private static void AddSignIn(IServiceCollection services, bool onlyHttps)
    {
        // Identity's own reads and writes have a context of the request's; the record's have one each.
        services.AddScoped(s => s.GetRequiredService<IDbContextFactory<CommonGroundDb>>().CreateDbContext());
        services.AddHttpContextAccessor();
        services.AddSingleton<SessionEvents>().AddSingleton<Sessions>().AddSingleton<UsedSteps>();
        services.AddAuthentication(IdentityConstants.ApplicationScheme).AddIdentityCookies(cookies =>
        {
            cookies.ApplicationCookie!.Configure(c =>
            {
                c.Cookie.Name = onlyHttps ? "__Host-" + SessionCookie : SessionCookie;
                (c.LoginPath, c.AccessDeniedPath, c.ReturnUrlParameter) = ("/sign-in", "/sign-in", "back");
                (c.ExpireTimeSpan, c.SlidingExpiration) = (Sessions.Staying, true);
                c.Events.OnValidatePrincipal = Sessions.ValidateAsync;
                Strict(c.Cookie, onlyHttps);
            });
            cookies.TwoFactorUserIdCookie!.Configure(c =>
            {
                c.Cookie.Name = onlyHttps ? "__Host-cg-second" : "cg-second";
                Strict(c.Cookie, onlyHttps);
            });
        });
        services.AddIdentityCore<Account>(identity =>
            {
                identity.Stores.SchemaVersion = IdentitySchemaVersions.Version3;
                // The name to sign in with is unique, and it is the address wherever there is one (decision 28).
                identity.User.RequireUniqueEmail = false;
                identity.SignIn.RequireConfirmedEmail = false;
                identity.Lockout.AllowedForNewUsers = true;
                identity.Password = new PasswordOptions
                {
                    RequiredLength = Passwords.Shortest,
                    RequireDigit = false,
                    RequireLowercase = false,
                    RequireUppercase = false,
                    RequireNonAlphanumeric = false,
                    RequiredUniqueChars = 1
                };
            })
            .AddUserManager<Accounts>().AddSignInManager<SessionSignIn>().AddEntityFrameworkStores<CommonGroundDb>()
            .AddDefaultTokenProviders().AddTokenProvider<OneTimeCodes>(TokenOptions.DefaultAuthenticatorProvider)
            .AddPasswordValidator<Passwords>();
        services.Configure<PasswordHasherOptions>(h => h.IterationCount = Passwords.Rounds);
        services.Configure<DataProtectionTokenProviderOptions>(t => t.TokenLifespan = TimeSpan.FromHours(2));
        services.AddAntiforgery(a =>
        {
            a.Cookie.Name = onlyHttps ? "__Host-cg-form" : "cg-form";
            Strict(a.Cookie, onlyHttps);
        });
    }

    private static void Strict(CookieBuilder cookie, bool onlyHttps)
    {
        // Lax: a link in a mail finds its reader signed in; forms from elsewhere do not, and antiforgery stops them once more.
        (cookie.HttpOnly, cookie.SameSite, cookie.IsEssential, cookie.Path) = (true, SameSiteMode.Lax, true, "/");
        cookie.SecurePolicy = onlyHttps ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
    }

    /// <summary>Per address for everything, per address for what guesses passwords and codes, and per account.</summary>
    private static PartitionedRateLimiter<HttpContext> Limits(int requests, int entries) => PartitionedRateLimiter.CreateChained(
        PartitionedRateLimiter.Create<HttpContext, string>(http => Access.AccessCheckStep.IsPlumbing(http.GetEndpoint() ?? Nothing,
            http.Request.Path) && !IsConnecting(http)
            ? RateLimitPartition.GetNoLimiter("plumbing")
            : Window("all " + Address(http), requests)),
        PartitionedRateLimiter.Create<HttpContext, string>(http => HttpMethods.IsPost(http.Request.Method)
            && EntryPages.Guessable.Any(p => http.Request.Path.StartsWithSegments(p, StringComparison.OrdinalIgnoreCase))
            ? Window("entry " + Address(http), entries)
            : RateLimitPartition.GetNoLimiter("reading")),
        PartitionedRateLimiter.Create<HttpContext, string>(http => CurrentUserQueries.AccountOf(http.User) is { } account
            && !Access.AccessCheckStep.IsPlumbing(http.GetEndpoint() ?? Nothing, http.Request.Path)
            ? Window($"account {account}", requests)
            : RateLimitPartition.GetNoLimiter("nobody")));

    /// <summary>A live page connects: two requests each, which count like others; what goes over the connection does not.</summary>
    private static bool IsConnecting(HttpContext http) => http.Request.Path.StartsWithSegments("/_blazor",
        StringComparison.OrdinalIgnoreCase);

    private static readonly Endpoint Nothing = new(null, null, "nothing");

    private static RateLimitPartition<string> Window(string key, int perMinute) =>
        RateLimitPartition.GetSlidingWindowLimiter(key, _ => new SlidingWindowRateLimiterOptions
        {
            PermitLimit = perMinute,
            Window = TimeSpan.FromMinutes(1),
            SegmentsPerWindow = 6
        });

    /// <summary>Who asks. Of IPv6 the first half: the other half everybody has for themselves and can change at will.</summary>
    internal static string Address(HttpContext http) => http.Connection.RemoteIpAddress switch
    {
        null => "",
        { IsIPv4MappedToIPv6: true } mapped => mapped.MapToIPv4().ToString(),
        { AddressFamily: System.Net.Sockets.AddressFamily.InterNetworkV6 } six => Convert.ToHexString(six.GetAddressBytes(), 0, 8),
        var four => four.ToString(),
    };

    private static int HttpsPort(ConfigurationManager settings) => MailSettings.Read(settings).Site is { Scheme: "https", Port: var port }
        ? port : 443;

    private static bool OnlyHttps(IConfiguration settings) => settings.GetValue("Https:Only", false);

    /// <summary>Addresses or networks of proxies whose word is taken for who asks; none unless configured.</summary>
    private static List<IPNetwork> Proxies(IConfiguration settings) =>
        [.. (settings["Proxy:Known"] ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(Network)];

    private static IPNetwork Network(string written)
    {
        if (IPNetwork.TryParse(written, out var network))
        {
            return network;
        }

        return IPAddress.TryParse(written, out var address)
            ? new IPNetwork(address, address.GetAddressBytes().Length * 8)
            : throw new DataFolderException($"Proxy:Known '{written}' is neither an address nor a network: write 10.0.0.5 or 10.0.0.0/24, "
            + $"with commas between.");
    }

    private static string TileOrigin(IConfiguration configuration) =>
        configuration["Map:TileUrl"] is { Length: > 0 } url
            && Uri.TryCreate(url.Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal), UriKind.Absolute,
            out var uri) ? " " + uri.GetLeftPart(UriPartial.Authority) : "";
}
