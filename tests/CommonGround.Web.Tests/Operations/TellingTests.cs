using System.Diagnostics.Metrics;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using CommonGround.Storage;
using CommonGround.Web.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Yards;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using OpenTelemetry.Metrics;

namespace CommonGround.Web.Tests.Operations;

/// <summary>What a running site tells of itself: health, log, figures. Each test damages a site of its own.</summary>
public sealed class TellingTests
{
    [Fact]
    public async Task A_well_site_says_so_and_a_site_without_its_catalogue_or_backups_says_what_is_missing()
    {
        await using var site = await OwnSite.StartAsync();
        using var browser = site.Browser();
        (await browser.GetStringAsync("/health/live")).ShouldContain("\"status\":\"well\"");
        using (var well = JsonDocument.Parse(await browser.GetStringAsync("/health/ready")))
        {
            well.RootElement.GetProperty("checks").EnumerateObject().Select(c => c.Name)
                .ShouldBe(["database", "catalogue", "disk", "backup"]);
            well.RootElement.GetRawText().ShouldNotContain(site.Folder);
        }

        Directory.CreateDirectory(Path.Combine(site.Folder, "backups"));
        await File.WriteAllTextAsync(Path.Combine(site.Folder, "backups", BackupFolder.NameOf(DateTimeOffset.UtcNow.AddHours(-49))), "");
        await site.DoAsync("DELETE FROM \"Taxa\"");
        using var answer = await browser.GetAsync("/health/ready");
        answer.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable);
        var text = await answer.Content.ReadAsStringAsync();
        text.ShouldContain("\"catalogue\":{\"what\":\"catalogue\",\"well\":false,\"says\":\"is empty\"}");
        text.ShouldContain("\"well\":false,\"says\":\"the last one is 49 hours old\"");
        (await browser.GetStringAsync("/health/live")).ShouldContain("\"status\":\"well\"");
    }

    [Fact]
    public async Task The_reference_on_a_page_that_failed_is_in_the_log_with_the_failure()
    {
        await using var site = await OwnSite.StartAsync();
        using var browser = site.Browser("organiser");
        (await browser.GetAsync("/yards")).EnsureSuccessStatusCode();
        await site.DoAsync("ALTER TABLE \"Sightings\" RENAME TO \"Away\"");
        // A file that cannot be made leads to the trouble page, a page that cannot be made shows the trouble in its place.
        foreach (var address in new[] { "/yards/LA-07/report.pdf", "/yards/LA-07" })
        {
            using var answer = await browser.GetAsync(address);
            var page = await answer.Content.ReadAsStringAsync();
            page.ShouldContain("This page could not be made", Case.Sensitive, address);
            var reference = Regex.Match(page, "Reference ([0-9A-Z]{8})").Groups[1].Value;
            reference.Length.ShouldBe(8, address);
            site.Log().Split('\n').ShouldContain(l => l.Contains($"\"Reference\":\"{reference}\"") && l.Contains("no such table"), address);
        }
    }

    [Fact]
    public async Task No_name_no_address_and_no_e_mail_comes_into_the_log()
    {
        await using var site = await OwnSite.StartAsync();
        await site.DoAsync(
            "UPDATE \"Yards\" SET \"Household\" = 'Familie Unverwechselbar', \"Latitude\" = 41.987654321; UPDATE \"Members\" SET \"Name\" "
                + "= 'Ottilie Einmalig'; UPDATE \"Sightings\" SET \"Observer\" = 'Walburga Zweimal', \"Remarks\" = 'ring at no. 17, "
                + "ottilie@example.org'");
        using var browser = site.Browser("organiser");
        foreach (var address in new[] { "/", "/yards", "/yards/LA-07", "/yards/LA-07/report.pdf", "/streets",
            "/nowhere?mail=ottilie@example.org", "/record", "/more" })
        {
            using var whole = await browser.GetAsync(address);
        }

        await site.DoAsync("ALTER TABLE \"Sightings\" RENAME TO \"Away\"");
        foreach (var address in new[] { "/yards/LA-07", "/yards/LA-07/report.pdf?mail=ottilie@example.org" })
        {
            using var broken = await browser.GetAsync(address);
        }

        var log = site.Log();
        log.ShouldContain("no such table");
        foreach (var personal in new[] { "Unverwechselbar", "Einmalig", "Walburga", "no. 17", "example.org", "41.98765",
            site.Browser().BaseAddress!.Host + ":" + site.Browser().BaseAddress!.Port + "/yards" })
        {
            log.ShouldNotContain(personal);
        }
    }

    [Fact]
    public void An_e_mail_address_in_a_message_of_another_is_taken_out_of_the_log()
    {
        using var text = new StringWriter();
        using (var log = new Serilog.LoggerConfiguration().WriteTo.Sink(new Formatted(text)).CreateLogger())
        {
            log.Error(new InvalidOperationException("cannot send to jörg.o'neil+cg@mail.example.co.uk"), "Mail to {To} failed",
                "zoë@example.org");
        }

        text.ToString().ShouldContain("Mail to {To} failed");
        text.ToString().ShouldNotContain("example");
        using var line = JsonDocument.Parse(text.ToString());
        line.RootElement.GetProperty("To").GetString().ShouldBe("(e-mail)");
    }

    [Fact]
    public async Task Saves_refused_saves_and_imports_are_counted()
    {
        using var garden = await Garden.WithOneYardAsync();
        var counts = new Dictionary<string, long>(StringComparer.Ordinal);
        using var listener = new MeterListener
        {
            InstrumentPublished = (instrument, l) =>
            {
                if (instrument.Meter.Name == Metrics.MeterName)
                {
                    l.EnableMeasurementEvents(instrument);
                }
            },
        };
        listener.SetMeasurementEventCallback<long>((instrument, value, _, _) =>
        {
            lock (counts)
            {
                counts[instrument.Name] = counts.GetValueOrDefault(instrument.Name) + value;
            }
        });
        listener.Start();
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Bergamot, 1));
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2\nNorth,A to B,N-2,41.5,-88.5,100\n"));
        lock (counts)
        {
            // Other tests of this process may save at the same time.
            counts["commonground.saves"].ShouldBeGreaterThanOrEqualTo(1);
            counts["commonground.imports"].ShouldBeGreaterThanOrEqualTo(1);
        }
    }

    [Fact]
    public async Task Figures_go_to_a_collector_where_one_is_named_and_nowhere_else()
    {
        using var collector = new HttpListener();
        var address = $"http://127.0.0.1:{FreePort()}/";
        collector.Prefixes.Add(address);
        collector.Start();
        var asked = collector.GetContextAsync();
        await using var site = await OwnSite.StartAsync(("Telemetry:Otlp", address));
        Metrics.Saves.Add(1);
        using var browser = site.Browser();
        await browser.GetStringAsync("/");
        var flushed = Task.Run(() => site.Services.GetRequiredService<MeterProvider>().ForceFlush());
        var sent = await asked;
        using var body = new MemoryStream();
        await sent.Request.InputStream.CopyToAsync(body);
        sent.Response.StatusCode = 200;
        sent.Response.Close();
        (await flushed).ShouldBeTrue();
        // The path of OTLP over HTTP: https://opentelemetry.io/docs/specs/otlp/#otlphttp-request
        sent.Request.Url!.AbsolutePath.ShouldBe("/v1/metrics");
        sent.Request.ContentType.ShouldBe("application/x-protobuf");
        var text = Encoding.UTF8.GetString(body.ToArray());
        text.ShouldContain("commonground.saves");
        text.ShouldNotContain(site.Folder);
        await using var silent = await OwnSite.StartAsync();
        silent.Services.GetService<MeterProvider>().ShouldBeNull();
    }

    private static int FreePort()
    {
        using var listener = new System.Net.Sockets.TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private sealed class Formatted(TextWriter to) : Serilog.Core.ILogEventSink
    {
        public void Emit(Serilog.Events.LogEvent logEvent) => new LogJson().Format(logEvent, to);
    }

    /// <summary>A site with the demo that a test may damage.</summary>
    private sealed class OwnSite : Site
    {
        private readonly (string Key, string Value)[] settings;

        private OwnSite((string Key, string Value)[] settings)
            : base(demo: true) => this.settings = settings;

        public string Folder => Services.GetRequiredService<SiteOptions>().DataFolder;

        public static async Task<OwnSite> StartAsync(params (string Key, string Value)[] settings)
        {
            var site = new OwnSite(settings);
            await site.InitializeAsync();
            using var browser = site.Browser();
            (await browser.GetAsync("/")).EnsureSuccessStatusCode();
            return site;
        }

        public async Task DoAsync(string sql)
        {
            await using var db = await StorageRegistration.Open(Services.GetRequiredService<SiteOptions>().Storage).In(1)
                .CreateDbContextAsync();
            await db.Database.OpenConnectionAsync();
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = sql.StartsWith("DELETE", StringComparison.Ordinal)
                ? $"PRAGMA foreign_keys = OFF; {sql}; PRAGMA foreign_keys = ON" : sql;
            await command.ExecuteNonQueryAsync();
        }

        public string Log() => string.Concat(Directory.GetFiles(Path.Combine(Folder, "logs")).Select(f =>
        {
            using var stream = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var reader = new StreamReader(stream);
            return reader.ReadToEnd();
        }));

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            base.ConfigureWebHost(builder);
            foreach (var (key, value) in settings)
            {
                builder.UseSetting(key, value);
            }
        }
    }
}
