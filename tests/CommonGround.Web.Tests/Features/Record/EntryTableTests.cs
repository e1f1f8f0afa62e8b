using Bunit;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Tests.Features.Record;

public class EntryTableTests
{
    [Fact]
    public async Task A_problem_stands_beside_its_line_and_the_offered_figure_mends_it()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden, Garden.Line(Flora.Smooth, 15), Garden.Line(Flora.Bergamot, 2));
        var rows = shown.FindAll("tbody tr");
        rows.Count.ShouldBe(3);
        Screen.Read(rows[0]).ShouldContain("smooth blue aster");
        Screen.Read(rows[1]).ShouldStartWith("15 m² is more than the bed, which is 10 m². Did you mean 1.5?");
        Screen.Read(rows[2]).ShouldContain("wild bergamot");
        await Screen.Button(shown, "Use 1.5 m²").ClickAsync();
        session.Sheet.Lines[0].CoverSquareMetres.ShouldBe(1.5);
        shown.Render();
        shown.FindAll("[role=alert]").ShouldBeEmpty();
        Screen.Read(shown.FindAll("tbody tr")[0]).ShouldContain("1.5 m²");
    }

    [Fact]
    public async Task What_was_typed_and_not_found_is_shown_as_typed()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (_, shown) = await ShowAsync(screen, garden, Garden.Line("<i>Planta</i> ignota", 1));
        Screen.Read(shown.FindAll("tbody tr")[0]).ShouldContain("“<i>Planta</i> ignota”");
        Screen.Read(shown.Find("[role=alert]")).ShouldStartWith("The catalogue has no plant called “<i>Planta</i> ignota”.");
    }

    [Fact]
    public async Task A_line_can_be_removed_and_edited_by_name()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, _) = await ShowAsync(screen, garden, Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Bergamot, 2));
        var edited = -1;
        var shown = screen.Render<EntryTable>(p => p.Add(c => c.Session, session).Add(c => c.OnEdit, at => edited = at));
        await Screen.Button(shown, "Edit wild bergamot").ClickAsync();
        edited.ShouldBe(1);
        await Screen.Button(shown, "Remove smooth blue aster").ClickAsync();
        session.Sheet.Lines.ShouldHaveSingleItem().Taxon!.ScientificName.ShouldBe(Flora.Bergamot);
    }

    [Fact]
    public async Task Doubt_stage_and_a_cover_from_a_count_are_said_in_words()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (_, shown) = await ShowAsync(screen, garden, Garden.Line(Flora.Smooth, null, 4) with
        {
            GrowthStage = 5,
            Certainty = Certainty.Tentative,
            Qualifier = "cf.",
            Origin = Origin.SelfSown
        });
        var row = Screen.Read(shown.FindAll("tbody tr")[0]);
        foreach (var words in new[] { "Symphyotrichum cf. laeve", "0.9 m²", "from 4", "in bud", "self-sown", "tentative" })
        {
            row.ShouldContain(words);
        }
    }

    [Fact]
    public async Task Without_lines_it_says_how_to_begin()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        (await ShowAsync(screen, garden)).Shown.Markup.ShouldContain("Type a plant and its cover");
    }

    [Fact]
    public async Task Two_lines_of_one_plant_are_asked_about_where_they_stand()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden, Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Smooth, 2));
        Screen.Read(shown.Find("[role=alert]"))
            .ShouldStartWith("smooth blue aster already stands above. Are the two one planting, or two patches?");
        await Screen.Button(shown, "Two patches").ClickAsync();
        session.Sheet.Lines.Select(l => l.Patch).ShouldBe(["", "2"]);
        shown.Render();
        shown.FindAll("[role=alert]").ShouldBeEmpty();
    }

    private static async Task<(RecordSession Session, IRenderedComponent<EntryTable> Shown)> ShowAsync(Screen screen, Garden garden,
        params PlantingDraft[] lines)
    {
        var session = await garden.SessionAsync();
        session.Sheet.Restore(lines);
        return (session, screen.Render<EntryTable>(p => p.Add(c => c.Session, session)));
    }
}
