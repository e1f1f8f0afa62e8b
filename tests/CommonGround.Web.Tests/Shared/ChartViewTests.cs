using Bunit;
using CommonGround.Reports.Charts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Tests.Shared;

public class ChartViewTests
{
    [Fact]
    public async Task A_name_with_signs_of_HTML_in_it_is_shown_as_it_is_written_and_runs_nothing()
    {
        const string Name = "<script>alert('x')</script> & \"Aster\"";
        await using var screen = new Screen();
        var shown = screen.Render<ChartView>(p => p.Add(c => c.Chart,
            new Chart(100, 50, Name, [new TextMark("lab", 1, 2, Name), new PathMark("g-bar", [(1, 2), (3.456, 4)], true)])));
        shown.FindAll("script").ShouldBeEmpty();
        shown.Find("text").TextContent.ShouldBe(Name);
        shown.Find("svg").GetAttribute("aria-label").ShouldBe(Name);
        shown.Find("svg").GetAttribute("role").ShouldBe("img");
        shown.Find("path").GetAttribute("d").ShouldBe("M1 2L3.46 4Z");
    }

    [Fact]
    public async Task Every_kind_of_mark_is_drawn_in_order()
    {
        await using var screen = new Screen();
        var shown = screen.Render<ChartView>(p => p.Add(c => c.Chart,
            new Chart(100, 50, "A chart", [new RectMark("a", 1, 2, 3, 4, 5), new LineMark("b", 1, 2, 3, 4), new CircleMark("c", 1, 2, 3),
                new TextMark("d", 1, 2, "word", Anchor.End)])));
        shown.Find("svg").Children.Select(c => c.LocalName).ShouldBe(["rect", "line", "circle", "text"]);
        shown.Find("text").GetAttribute("text-anchor").ShouldBe("end");
        shown.Find("rect").GetAttribute("rx").ShouldBe("5");
    }
}
