using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.AspNetCore.Components.Server.Circuits;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;

namespace CommonGround.Web.Operations;

/// <summary>What a running site does to look after itself and to tell how it is.</summary>
internal static class OperationsSetup
{
    public static void Add(WebApplicationBuilder builder, Task<OpenedSite> opening, SiteOptions options)
    {
        Health.Add(builder.Services, opening, options);
        builder.Services.AddHostedService<BackupSchedule>().AddSingleton<CircuitHandler, CircuitMetrics>();
        if (builder.Configuration["Telemetry:Otlp"] is { Length: > 0 } endpoint)
        {
            AddTelemetry(builder.Services, endpoint);
        }
    }

    /// <summary>Before everything else: requests are numbered, and health is told even while the data is made ready.</summary>
    public static void Use(WebApplication app)
    {
        app.Use(RequestNumbers.NumberAsync);
        Health.Use(app);
    }

    private static void AddTelemetry(IServiceCollection services, string endpoint)
    {
        if (!Uri.TryCreate(endpoint, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
        {
            throw new DataFolderException($"Telemetry:Otlp '{endpoint}' is not an address: give that of a collector, such as "
                + $"http://localhost:4318.");
        }

        // OTLP over HTTP has its metrics at /v1/metrics: https://opentelemetry.io/docs/specs/otlp/
        var metrics = address.AbsolutePath == "/" ? new Uri(address, "v1/metrics") : address;
        services.AddOpenTelemetry().WithMetrics(meters => meters
            .AddMeter(Metrics.MeterName).AddAspNetCoreInstrumentation().AddRuntimeInstrumentation()
            .AddOtlpExporter(otlp =>
            {
                otlp.Protocol = OtlpExportProtocol.HttpProtobuf;
                otlp.Endpoint = metrics;
            }));
    }
}
