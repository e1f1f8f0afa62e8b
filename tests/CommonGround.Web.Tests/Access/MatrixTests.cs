using System.Net;
using System.Reflection;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Commands;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.JSInterop;

namespace CommonGround.Web.Tests.Access;

/// <summary>Every endpoint of the running server, asked as every role about one's own yard and another's, answers what the table says (ASVS
/// 5.0, 8.2.1 and 8.2.2).</summary>
public sealed class MatrixTests(FreshSite site) : IClassFixture<FreshSite>
{
    private static readonly Assembly Web = typeof(AccessTable).Assembly;

    /// <summary>The framework's own answer to a file that is not there; it says nothing of itself, so the gate opens it to
    /// nobody.</summary>
    private const string MissingFile = "{**path:file}";

    private sealed record Actor(Role Role, HttpClient Browser, Registered? Yard, long Plan, long Photo, long Sighting, string Tour)
    {
        public long Block { get; init; }
    }

    private IReadOnlyList<RouteEndpoint> Endpoints =>
        [.. site.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>().Where(e => !IsPlumbing(e)
            && e.RoutePattern.RawText != MissingFile)];

    [Fact]
    public void Every_endpoint_and_every_page_says_what_it_is_for()
    {
        var endpoints = Endpoints;
        endpoints.Count.ShouldBeGreaterThan(40);
        site.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Single(e => e.RoutePattern.RawText == MissingFile).Metadata.GetMetadata<RequiresAttribute>().ShouldBeNull();
        endpoints.Where(e => e.Metadata.GetMetadata<RequiresAttribute>() is null).Select(e => e.RoutePattern.RawText).ShouldBeEmpty();
        var pages = Web.GetTypes().Where(t => t.IsDefined(typeof(RouteAttribute), false)).ToList();
        pages.Count.ShouldBeGreaterThan(25);
        pages.Where(t => t.GetCustomAttributes<RequiresAttribute>(false).Count() != 1).Select(t => t.Name).ShouldBeEmpty();
    }

    [Fact]
    public void What_needs_the_machine_is_asked_for_by_commands_alone()
    {
        AccessTable.Commands.Keys.ShouldBe(CommandLine.Commands().Select(c => c.Name), ignoreOrder: true);
        AccessTable.Commands.Values.ShouldAllBe(act => act == Permission.HaveTheMachine);
        Endpoints.Where(e => e.Metadata.GetMetadata<RequiresAttribute>()!.Permission == Permission.HaveTheMachine).ShouldBeEmpty();
        foreach (var role in Enum.GetValues<Role>())
        {
            AccessTable.Of(Permission.HaveTheMachine, role).ShouldBe(Scope.None);
        }
    }

    [Fact]
    public void Nothing_is_called_from_a_browser_that_is_not_on_a_list()
    {
        const BindingFlags Any =
            BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        var called = Web.GetTypes().SelectMany(t => t.GetMethods(Any)).Where(m => m.IsDefined(typeof(JSInvokableAttribute), false))
            .Select(m => m.DeclaringType!.Name + "." + m.Name);
        called.ShouldBe(AccessTable.CalledFromScript, ignoreOrder: true);
        Web.GetTypes().Where(t => t.IsSubclassOf(typeof(Hub))).ShouldBeEmpty();
        var hubs = site.Services.GetRequiredService<EndpointDataSource>(
            ).Endpoints.Select(e => e.Metadata.GetMetadata<HubMetadata>()?.HubType).OfType<Type>().Distinct().ToList();
        hubs.ShouldHaveSingleItem().FullName!.ShouldStartWith("Microsoft.AspNetCore.Components.Server.");
        var methods = hubs[0].GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly).Where(m => !m.IsVirtual
            && !m.IsSpecialName).Select(m => m.Name);
        methods.ShouldBe(AccessTable.HubMethods, ignoreOrder: true);
    }

    [Fact]
    public async Task Every_page_and_endpoint_answers_every_role_as_the_table_says()
    {
        var actors = await ActorsAsync();
        var (wrong, asked) = (new List<string>(), 0);
        foreach (var endpoint in Endpoints)
        {
            var methods = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"];
            foreach (var (actor, own) in actors.SelectMany(a => a.Yard is null ? new[] { (a, false) } : [(a, true), (a, false)]))
            {
                var about = own ? actor : actors.First(a => a.Yard is not null && a != actor);
                if (methods.Contains("GET"))
                {
                    asked++;
                    Compare(wrong, endpoint, actor, own, await actor.Browser.GetAsync(Path(endpoint, about)), get: true);
                }

                // Signing out would end what the rest of the walk needs: it stands in a test of its own.
                if (methods.Contains("POST") && endpoint.RoutePattern.RawText != "/sign-out")
                {
                    asked++;
                    using var form = new FormUrlEncodedContent(
                        [new("__RequestVerificationToken", Site.Token(await actor.Browser.GetStringAsync("/more"))), new("value", "light"),
                            new("id", "1"), new("name", "a phone"), new("back", "/")]);
                    Compare(wrong, endpoint, actor, own, await actor.Browser.PostAsync(Path(endpoint, about), form), get: false);
                }
            }
        }

        asked.ShouldBeGreaterThan(400);
        wrong.ShouldBeEmpty();
    }

    // RFC 9110, section 9.2.1: GET is safe. ASVS 5.0, 3.5.3.
    [Fact]
    public async Task No_page_and_no_file_that_is_got_writes_anything_for_any_role()
    {
        var actors = await ActorsAsync();
        var database = site.Services.GetRequiredService<Web.Hosting.SiteOptions>().Storage;
        var before = await Operations.TableRows.OfAsync(database);
        var written = new List<string>();
        foreach (var endpoint in Endpoints.Where(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") != false))
        {
            foreach (var actor in actors)
            {
                (await actor.Browser.GetAsync(Path(endpoint, actor.Yard is null ? actors[1] : actor))).Dispose();
            }

            var after = await Operations.TableRows.OfAsync(database);
            written.AddRange(after.Where(t => !t.Value.SequenceEqual(before[t.Key]))
                .Select(t => $"{endpoint.RoutePattern.RawText} wrote {t.Key}"));
            before = after;
        }

        written.ShouldBeEmpty();
    }

    private static void Compare(List<string> wrong, RouteEndpoint endpoint, Actor actor, bool own, HttpResponseMessage answer, bool get)
    {
        using var _ = answer;
        var act = endpoint.Metadata.GetMetadata<RequiresAttribute>()!.Permission;
        var isPage = endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null;
        var reach = AccessTable.Of(act, actor.Role);
        // Without a yard in its address a page shows one's own.
        var allowed = reach == Scope.All || (reach == Scope.Own && (own || !IsAboutAYard(endpoint)));
        var status = answer.StatusCode;
        var toSignIn = status == HttpStatusCode.Found && answer.Headers.Location!.OriginalString.StartsWith("/sign-in?back=",
            StringComparison.Ordinal);
        var right = allowed ? status is not (HttpStatusCode.Forbidden or HttpStatusCode.InternalServerError) && !toSignIn
            && (status != HttpStatusCode.NotFound || endpoint.RoutePattern.RawText!.TrimStart('/') is "not-found"
            or "plans/preview/{page:guid}")
            : get && isPage && actor.Role == Role.Visitor ? toSignIn
            : status == (reach == Scope.None || isPage ? HttpStatusCode.Forbidden : HttpStatusCode.NotFound);
        if (!right)
        {
            wrong.Add($"{(get ? "GET" : "POST")} {endpoint.RoutePattern.RawText} ({act}) as {actor.Role}, {(own ? "own" : "another's")} "
                + $"yard: {(int)status}");
        }
    }

    private async Task<List<Actor>> ActorsAsync()
    {
        var actors = new List<Actor> { new(Role.Visitor, site.Browser(), null, 0, 0, 0, "") };
        foreach (var role in new[] { Role.Member, Role.Organiser, Role.Administrator })
        {
            var who = await site.JoinAsync(role);
            var currentUser = await site.ViewerAsync(who.Email);
            var yard = await site.RegisterAsync(currentUser);
            var block = await site.InfestAsync(yard, currentUser);
            actors.Add(new(role, who.Browser, yard, await site.KeepPlanAsync(yard, currentUser),
                await site.AddPhotoAsync(yard, currentUser), await site.SightingAsync(yard, currentUser),
                await site.TourAsync(yard, currentUser))
            { Block = block });
        }

        return actors;
    }

    private static bool IsAboutAYard(RouteEndpoint endpoint) =>
        endpoint.RoutePattern.Parameters.Any(p => p.Name.ToLowerInvariant() is "code" or "plan" or "id");

    private static string Path(RouteEndpoint endpoint, Actor about)
    {
        var path = "/" + endpoint.RoutePattern.RawText!.TrimStart('/');
        foreach (var parameter in endpoint.RoutePattern.Parameters)
        {
            var value = parameter.Name.ToLowerInvariant() switch
            {
                "code" => about.Yard!.Code,
                "plan" or "id" => about.Plan.ToString(System.Globalization.CultureInfo.InvariantCulture),
                "photo" => about.Photo.ToString(System.Globalization.CultureInfo.InvariantCulture),
                "sighting" => about.Sighting.ToString(System.Globalization.CultureInfo.InvariantCulture),
                "block" => about.Block.ToString(System.Globalization.CultureInfo.InvariantCulture),
                "slug" => "monarda-fistulosa",
                "name" => "theme",
                "picture" => "likeness",
                "format" => "csv",
                "key" => about.Tour,
                "path" => "",
                "page" => Guid.NewGuid().ToString(),
                var other => throw new InvalidOperationException($"Say what {other} of {path} stands for."),
            };
            path = System.Text.RegularExpressions.Regex.Replace(path, "\\{\\**" + parameter.Name + "[^}]*\\}", value);
        }

        return path;
    }

    private static bool IsPlumbing(Endpoint endpoint) => endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null
        || (endpoint is RouteEndpoint route && ("/" + route.RoutePattern.RawText!.TrimStart('/')) is var path
        && (path.StartsWith("/_blazor", StringComparison.Ordinal) || path.StartsWith("/_framework", StringComparison.Ordinal)));
}
