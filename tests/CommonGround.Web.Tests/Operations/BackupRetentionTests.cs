using CommonGround.Web.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Tests.Operations;

/// <summary>Which backups stay. Grandfather, father, son is common practice; the numbers are ours.</summary>
public class RetentionTests
{
    private static readonly DateTimeOffset Today = new(2026, 8, 19, 2, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_backup_every_night_for_two_years_leaves_seven_days_four_weeks_and_twelve_months()
    {
        var nights = Nights(730);
        var kept = nights.Except(BackupRetention.Default.Removable(nights)).Order().Select(m => m.ToString("yyyy-MM-dd")).ToList();
        // Worked out by hand on a calendar: August 19, 2026 is a Wednesday; Sundays end ISO weeks.
        kept.ShouldBe([
            "2025-09-30", "2025-10-31", "2025-11-30", "2025-12-31", "2026-01-31", "2026-02-28", "2026-03-31", "2026-04-30", "2026-05-31",
                "2026-06-30", "2026-07-31",
            "2026-08-02", "2026-08-09", "2026-08-13", "2026-08-14", "2026-08-15", "2026-08-16", "2026-08-17", "2026-08-18", "2026-08-19",
        ]);
    }

    [Fact]
    public void The_last_backup_of_a_day_stands_for_it()
    {
        var hours = Enumerable.Range(0, 48).Select(h => Today.AddHours(-h)).ToList();
        new BackupRetention(2, 0, 0).Removable(hours).ShouldNotContain(Today);
        hours.Except(new BackupRetention(2, 0, 0).Removable(hours)).ShouldBe([Today, new(2026, 8, 18, 23, 0, 0, TimeSpan.Zero)],
            ignoreOrder: true);
    }

    [Fact]
    public void A_site_that_stood_still_for_a_year_keeps_what_it_has()
    {
        var old = Enumerable.Range(0, 7).Select(d => Today.AddYears(-1).AddDays(-d)).ToList();
        BackupRetention.Default.Removable(old).ShouldBeEmpty();
        BackupRetention.Default.Removable([Today, .. old.Take(6)]).ShouldBeEmpty();
    }

    [Fact]
    public void The_newest_always_stays_and_nothing_else_need()
    {
        var nights = Nights(30);
        nights.Except(new BackupRetention(0, 0, 1).Removable(nights.Where(n => n.Month == 8))).Where(n => n.Month == 8).ShouldBe([Today]);
        new BackupRetention(1, 0, 0).Removable([Today]).ShouldBeEmpty();
        new BackupRetention(1, 0, 0).Removable([]).ShouldBeEmpty();
    }

    [Theory]
    [InlineData("7d 4w 12m", 7, 4, 12)]
    [InlineData("14d", 14, 0, 0)]
    [InlineData("3d,2m", 3, 0, 2)]
    [InlineData(null, 7, 4, 12)]
    [InlineData(" ", 7, 4, 12)]
    public void What_to_keep_is_written_simply(string? written, int days, int weeks, int months) =>
    BackupRetention.Parse(written).ShouldBe(new BackupRetention(days, weeks, months));

    [Theory]
    [InlineData("a week")]
    [InlineData("0d")]
    [InlineData("-7d")]
    [InlineData("7")]
    public void What_cannot_be_understood_is_refused_with_an_example(string written) =>
        Should.Throw<DataFolderException>(() => BackupRetention.Parse(written)).Message.ShouldContain("such as \"7d 4w 12m\"");

    private static List<DateTimeOffset> Nights(int count) => [.. Enumerable.Range(0, count).Select(n => Today.AddDays(-n))];
}
