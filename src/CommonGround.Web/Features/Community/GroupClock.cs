namespace CommonGround.Web.Features.Community;

/// <summary>What day it is for the group: its own time zone's today, or the demo's fixed day.</summary>
public sealed class GroupClock(TimeProvider time, string timeZone, DateOnly? demoToday)
{
    private volatile TimeZoneInfo zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);

    /// <summary>IANA name.</summary>
    public string TimeZone => zone.Id;

    /// <summary>The group moved its clock. Everybody who holds this one goes by the new zone from now on.</summary>
    public void MoveTo(string ianaName) => zone = TimeZoneInfo.FindSystemTimeZoneById(ianaName);

    public bool IsDemo => demoToday is not null;

    public DateOnly Today => demoToday ?? CalendarToday;

    /// <summary>The zone's calendar, demo or not: the command line asks this one.</summary>
    public DateOnly CalendarToday => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time.GetUtcNow(), zone).DateTime);

    /// <summary>What the group's clocks showed at a moment.</summary>
    public DateTime TimeOf(DateTime utc) => TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), zone);

    /// <summary>The group's day at a moment: in its zone, and in the demo as many days from its fixed day as the calendar says.</summary>
    public DateOnly DayOf(DateTime utc)
    {
        var day = DateOnly.FromDateTime(TimeOf(utc));
        return day.AddDays(Today.DayNumber - CalendarToday.DayNumber);
    }

    public DateTime UtcNow => time.GetUtcNow().UtcDateTime;
}
