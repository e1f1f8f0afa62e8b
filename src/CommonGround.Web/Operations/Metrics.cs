using System.Diagnostics.Metrics;

namespace CommonGround.Web.Operations;

/// <summary>What the program counts about itself. Nobody listens unless Telemetry:Otlp is set; the figures name no person, yard or
/// place.</summary>
public static class Metrics
{
    public const string MeterName = "CommonGround";
    private static readonly Meter Meter = new(MeterName);

    public static Counter<long> Saves { get; } = Meter.CreateCounter<long>("commonground.saves", "{save}", "Plantings saved");

    public static Counter<long> SavesRefused { get; } = Meter.CreateCounter<long>("commonground.saves.refused", "{save}",
        "Saves that the database refused: disk full, busy, away");

    public static Counter<long> Imports { get; } = Meter.CreateCounter<long>("commonground.imports", "{import}", "Imports stored");

    public static Counter<long> Reports { get; } = Meter.CreateCounter<long>("commonground.reports", "{report}", "Reports printed");

    public static Histogram<double> BackupSeconds { get; } = Meter.CreateHistogram<double>("commonground.backups", "s",
        "Backups made and verified, and how long each took");

    public static Counter<long> BackupFailures { get; } = Meter.CreateCounter<long>("commonground.backups.failed", "{backup}",
        "Backups that failed");

    public static UpDownCounter<long> CircuitsOpen { get; } = Meter.CreateUpDownCounter<long>("commonground.circuits", "{circuit}",
        "Open pages that are connected");
}
