using CommonGround.Reports.CrewSheets;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.YardReports;

namespace CommonGround.Reports.Tests.CrewSheets;

public sealed class CrewSheetTests
{
    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void Each_stop_has_its_place_what_to_do_and_its_plant_with_what_it_is_taken_for(PaperSize paper)
    {
        using var stream = new MemoryStream();
        CrewSheetDocument.Write(Sheet(), paper, stream);
        var read = ReadBack.Of(stream.ToArray());
        read.Text.ShouldContain("Saturday, September 26, 2026");
        read.Text.ShouldContain("Nine people, 3 hours, two stops");
        read.Text.ShouldContain("LA-07");
        read.Text.ShouldContain("Pull: garlic mustard.");
        read.Text.ShouldContain("follow-up that is due");
        read.Text.ShouldContain("Is it garlic mustard?");
        read.Text.ShouldContain("Not white avens (native): no garlic smell.");
        read.Text.ShouldContain("Mind: Do not leave flowering plants on the ground.");
        read.Text.ShouldContain("Call 811 before any digging");
        read.Text.ShouldContain("the label is the law");
        read.Pages.ShouldAllBe(p => p.Contains("Crew sheet · September 26, 2026"));
    }

    private static CrewSheet Sheet() => new()
    {
        Neighbourhood = "Quarry Bend",
        On = new(2026, 9, 26),
        People = 9,
        Hours = 3,
        AreaUnit = "m²",
        Walk = "290 m",
        Stops = [new("LA-07", "Lathe Street, Kiln to Sawyer", "garlic mustard", "Pull", "4.0 m², 50 % cover", 0.3, false),
            new("CO-01", "Coopers Row, Millrace to Wheelwright", "garlic mustard", "Pull", "2.0 m², 20 % cover", 0.1, true)],
        Plants = [new("garlic mustard", "Alliaria petiolata", "Low rosette.", [new("white avens (native)", "no garlic smell")],
            ["Do not leave flowering plants on the ground."], ["Wear gloves"])],
        Consent = "Nobody works in a yard without its household’s consent.",
        Waste = "Ask your town or hauler what may go in which bag.",
    };
}
