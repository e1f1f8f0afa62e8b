using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using CommonGround.Storage.Tests;
using CommonGround.Web.Tests.Access;

namespace CommonGround.Web.Tests.Operations;

/// <summary>The database goes away under a running site and comes back.</summary>
public sealed class DatabaseAwayTests
{
    [Fact]
    public async Task Pages_say_so_plainly_health_says_so_and_all_is_well_again_without_a_restart()
    {
        var cluster = new PostgresCluster(durable: true);
        await cluster.StartAsync();
        try
        {
            await using var site = await SetSite.StartAsync(("Database:Provider", "postgres"),
                ("Database:Connection", cluster.NewDatabase().Replace("Pooling=false", "Pooling=true", StringComparison.Ordinal)));
            using var administrator = await site.AdministratorAsync();
            (await administrator.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
            (await administrator.GetAsync("/health/ready")).StatusCode.ShouldBe(HttpStatusCode.OK);
            await cluster.KillAsync();

            foreach (var path in new[] { "/", "/account", "/streets.csv", "/sign-in", "/nothing/here" })
            {
                using var page = await administrator.GetAsync(path);
                page.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable, path);
                page.Headers.RetryAfter.ShouldNotBeNull();
                page.Content.Headers.ContentType!.MediaType.ShouldBe("text/html");
                (await page.Content.ReadAsStringAsync()).ShouldContain("Everything saved before is safe");
                page.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"]);
            }

            using (var health = await administrator.GetAsync("/health/ready"))
            {
                health.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable);
                (await health.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("checks").GetProperty("database").GetProperty("well")
                    .GetBoolean().ShouldBeFalse();
            }

            await cluster.RestartAsync();
            while ((await administrator.GetAsync("/account")).StatusCode != HttpStatusCode.OK)
            {
                await Task.Delay(50);
            }

            (await administrator.GetAsync("/health/ready")).StatusCode.ShouldBe(HttpStatusCode.OK);
        }
        finally
        {
            await cluster.StopAsync();
        }
    }
}
