namespace CommonGround.Web.Tests;

/// <summary>A clock that stands still until a test moves it.</summary>
public sealed class TestClock(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    /// <summary>Noon in UTC, the same day everywhere in the Americas and Europe.</summary>
    public static TestClock On(int year, int month, int day) => new(new DateTimeOffset(year, month, day, 12, 0, 0, TimeSpan.Zero));

    public override DateTimeOffset GetUtcNow() => Now;
}
