using Bunit;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Tests.Features.Record;

public class EntryTableTests
{
    [Fact]
    public async Task A_problem_stands_beside_its_line_and_the_offered_figure_mends_it()
    {
        await using var screen = new Screen();
        var (sheet, changes) = (SheetWith(Garden.Line(Flora.Smooth, 15), Garden.Line(Flora.Bergamot, 2)), 0);
        var shown = Show(screen, sheet, () => changes++);
        var rows = shown.FindAll("tbody tr");
        rows.Count.ShouldBe(3);
        Screen.Read(rows[0]).ShouldContain("smooth blue aster");
        Screen.Read(rows[1]).ShouldStartWith("15 m² is more than the bed, which is 10 m². Did you mean 1.5?");
        Screen.Read(rows[2]).ShouldContain("wild bergamot");
        await Screen.Button(shown, "Use 1.5 m²").ClickAsync();
        sheet.Lines[0].CoverSquareMetres.ShouldBe(1.5);
        changes.ShouldBe(1);
        shown.Render();
        shown.FindAll("[role=alert]").ShouldBeEmpty();
        Screen.Read(shown.FindAll("tbody tr")[0]).ShouldContain("1.5 m²");
    }

    [Fact]
    public async Task What_was_typed_and_not_found_is_shown_as_typed()
    {
        await using var screen = new Screen();
        var shown = Show(screen, SheetWith(Garden.Line("<i>Planta</i> ignota", 1)));
        Screen.Read(shown.FindAll("tbody tr")[0]).ShouldContain("“<i>Planta</i> ignota”");
        Screen.Read(shown.Find("[role=alert]")).ShouldStartWith("The catalogue has no plant called “<i>Planta</i> ignota”.");
    }

    [Fact]
    public async Task A_line_can_be_removed_and_edited_by_name()
    {
        await using var screen = new Screen();
        var sheet = SheetWith(Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Bergamot, 2));
        var edited = -1;
        var shown = screen.Render<EntryTable>(p => p.Add(c => c.Sheet, sheet).Add(c => c.Check, Check).Add(c => c.OnEdit, at => edited = at));
        await Screen.Button(shown, "Edit wild bergamot").ClickAsync();
        edited.ShouldBe(1);
        await Screen.Button(shown, "Remove smooth blue aster").ClickAsync();
        sheet.Lines.ShouldHaveSingleItem().Taxon!.ScientificName.ShouldBe(Flora.Bergamot);
    }

    [Fact]
    public async Task Doubt_stage_and_a_cover_from_a_count_are_said_in_words()
    {
        await using var screen = new Screen();
        var shown = Show(screen, SheetWith(Garden.Line(Flora.Smooth, null, 4) with { GrowthStage = 5, Certainty = Certainty.Tentative, Qualifier = "cf.", Origin = Origin.SelfSown }));
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
        Show(screen, SheetWith()).Markup.ShouldContain("Type a plant and its cover");
    }

    private static EntrySheet SheetWith(params PlantingDraft[] lines)
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.Restore(lines);
        return sheet;
    }

    private static IReadOnlyList<Problem> Check(PlantingDraft line) => line.Check(Garden.Today, Garden.Today, 10, 100);

    private static IRenderedComponent<EntryTable> Show(Screen screen, EntrySheet sheet, Action? onChanged = null) =>
        screen.Render<EntryTable>(p => p.Add(c => c.Sheet, sheet).Add(c => c.Check, Check).Add(c => c.RoomSquareMetres, 10).Add(c => c.OnChanged, onChanged ?? (() => { })));
}
