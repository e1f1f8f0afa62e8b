namespace CommonGround.Web.Features.Community;

/// <summary>The one check of a group's time zone.</summary>
public static class TimeZones
{
    /// <summary>What is wrong with a name, in one sentence; null where the machine knows it.</summary>
    public static string? Fault(string name) =>
        TimeZoneInfo.TryFindSystemTimeZoneById(name, out _) ? null : $"“{name}” is not a time zone. Write it like America/Chicago.";
}
