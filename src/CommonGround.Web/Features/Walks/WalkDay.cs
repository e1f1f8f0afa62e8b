using CommonGround.Interchange.Walks;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Walks;

/// <summary>When something was really seen, told from two clocks: the phone's, which may be off, and the site's.</summary>
/// <param name="AtUtc">By the site's clock.</param>
/// <param name="Day">The group's day then.</param>
/// <param name="Message">What the walker should know where the phone's clock could not be believed; else empty.</param>
internal readonly record struct WalkDay(DateTime AtUtc, DateOnly Day, string Message)
{
    /// <summary>A clock as much off as this needs no correction.</summary>
    private static readonly TimeSpan Tolerance = TimeSpan.FromMinutes(2);

    /// <summary>Nothing waits on a phone for longer than this, or its clock is not believed.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromDays(400);

    /// <param name="sentUtc">The phone's clock when it sent.</param>
    public static WalkDay Of(WalkNote note, DateTime sentUtc, GroupClock clock)
    {
        var now = clock.UtcNow;
        var off = now - sentUtc;
        var said = off.Duration() > Tolerance ? Shifted(note.SaidAtUtc, off) : note.SaidAtUtc;
        // The list was taken along before the tap, and the tap was before now: a clock that was put right in between gives itself away.
        var earliest = note.AfterUtc >= now ? now : note.AfterUtc < now - Longest ? now - Longest : note.AfterUtc;
        var at = said > now ? now : said < earliest - Tolerance ? earliest : said;
        var day = note.Settles.Count > 0 && note.Day is { } about && about <= clock.Today ? about : clock.DayOf(at);
        return new(at, day, (at - said).Duration() <= Tolerance ? ""
            : $"The phone’s clock was off when this was seen, so it is stored for {Words.Date(day)}. If that is not the day, correct it "
            + $"on the planting’s page.");
    }

    private static DateTime Shifted(DateTime moment, TimeSpan by) =>
        by > TimeSpan.Zero && moment > DateTime.MaxValue - by ? DateTime.MaxValue : by < TimeSpan.Zero && moment < DateTime.MinValue - by
            ? DateTime.MinValue : moment + by;
}
