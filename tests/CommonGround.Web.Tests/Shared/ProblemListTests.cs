using Bunit;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Tests.Shared;

public class FaultsTests
{
    [Fact]
    public async Task A_field_shows_its_own_problems_once_each_as_an_alert()
    {
        await using var screen = new Screen();
        Problem[] problems = [new("name", "Type <b>the</b> name."), new("cover", "Another field."), new("name", "Type <b>the</b> name."),
            new("name", "And spell it.")];
        var shown = screen.Render<ProblemList>(p => p.Add(c => c.Of, problems).Add(c => c.Field, "name"));
        shown.FindAll("[role=alert]").Select(Screen.Read).ShouldBe(["Type <b>the</b> name.", "And spell it."]);
        shown.FindAll("b").ShouldBeEmpty();
    }

    [Fact]
    public async Task A_field_without_a_problem_shows_nothing()
    {
        await using var screen = new Screen();
        screen.Render<ProblemList>(p => p.Add(c => c.Of, [new Problem("cover", "Another field.")]).Add(c => c.Field, "name")).Markup.Trim()
            .ShouldBeEmpty();
    }
}
