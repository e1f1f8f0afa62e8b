using CommonGround.Ecology.Invasives;
using CommonGround.Web.Features.Invasives;

namespace CommonGround.Web.Tests.Features.Invasives;

public class InvasiveWordsTests
{
    private static CaseStanding Of(string plant, DateOnly today) => CaseCourse.Of(new([new(new(2026, 8, 19), 4)], [], null, false, 0),
        ControlCalendar.Of(plant), today);

    // Windows: seed-data/unwanted/control.csv.
    [Theory]
    [InlineData("Lonicera maackii", "Pull or (to Sep 15) cut", "Aug 19–Nov 30, 2026")]
    [InlineData("Reynoutria japonica", "Smother or (to Sep 15) cut", "Aug 19–Oct 31, 2026")]
    [InlineData("Phragmites australis", "Have it named", "Aug 19–Aug 31, 2026")]
    public void The_first_step_names_each_method_inside_its_own_days(string plant, string next, string due)
    {
        var standing = Of(plant, new(2026, 8, 19));
        InvasiveWords.Next(standing).ShouldBe(next);
        InvasiveWords.Due(standing).ShouldBe(due);
    }
}
