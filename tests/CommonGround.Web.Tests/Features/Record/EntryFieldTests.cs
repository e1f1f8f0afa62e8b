using Bunit;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Record;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Record;

public class EntryFieldTests
{
    [Fact]
    public async Task Enter_takes_no_plant_where_several_can_be_meant_and_says_so()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden);
        await TypeAsync(shown, "aster 2");
        await shown.Find("#entry").KeyDownAsync(new KeyboardEventArgs { Key = "Enter" });
        session.Sheet.Lines.ShouldBeEmpty();
        shown.Find("#entry").GetAttribute("value").ShouldBe("aster 2");
        Screen.Read(shown.Find("#entry-ask")).ShouldStartWith("More than one plant can be meant by “aster”.");
        await shown.Find("#entry").KeyDownAsync(new KeyboardEventArgs { Key = "ArrowDown" });
        await shown.Find("#entry").KeyDownAsync(new KeyboardEventArgs { Key = "Enter" });
        session.Sheet.Lines.ShouldHaveSingleItem().Taxon!.ScientificName.ShouldBe(Flora.Smooth);
    }

    [Fact]
    public async Task Enter_takes_the_only_plant_that_fits()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden);
        await TypeAsync(shown, "wild berg 2 fl");
        await shown.Find("#entry").KeyDownAsync(new KeyboardEventArgs { Key = "Enter" });
        session.Sheet.Lines.ShouldHaveSingleItem().Taxon!.ScientificName.ShouldBe(Flora.Bergamot);
    }

    [Fact]
    public async Task A_name_the_catalogue_does_not_list_is_recorded_as_written_when_chosen()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden);
        await TypeAsync(shown, "Planta ignota 2");
        await shown.Find("#entry").KeyDownAsync(new KeyboardEventArgs { Key = "Enter" });
        session.Sheet.Lines.ShouldBeEmpty();
        await shown.FindAll("[role=option]")[^1].ClickAsync(new MouseEventArgs());
        var line = session.Sheet.Lines.ShouldHaveSingleItem();
        (line.AsWritten, line.Taxon!.ScientificName, line.Taxon.Rank,
            line.Taxon.Nativity).ShouldBe((true, "Planta ignota", "species", Nativity.Unknown));
    }

    [Fact]
    public async Task Editing_a_line_never_throws_away_one_that_stands_in_the_field()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (session, shown) = await ShowAsync(screen, garden);
        await session.TypeAsync("Monarda fistulosa 2");
        await TypeAsync(shown, "smooth 3");
        await shown.InvokeAsync(() => shown.Instance.EditAsync(0));
        shown.Find("#entry").GetAttribute("value").ShouldBe("smooth 3");
        Screen.Read(shown.Find("#entry-ask")).ShouldStartWith("The field holds a line already.");
        session.Editing.ShouldBeNull();
    }

    [Fact]
    public async Task What_was_kept_never_goes_over_what_was_typed_while_it_was_read()
    {
        await using var screen = new Screen();
        using var garden = await Garden.WithOneYardAsync();
        var (_, shown) = await ShowAsync(screen, garden);
        await TypeAsync(shown, "wild berg 4 fl");
        await shown.InvokeAsync(() => shown.Instance.RestoreAsync(""));
        await shown.InvokeAsync(() => shown.Instance.RestoreAsync("smooth 3"));
        shown.Find("#entry").GetAttribute("value").ShouldBe("wild berg 4 fl");
        shown.FindAll("[role=option]").ShouldNotBeEmpty();
    }

    private static async Task<(RecordSession Session, IRenderedComponent<EntryField> Shown)> ShowAsync(Screen screen, Garden garden)
    {
        screen.Services.AddScoped(_ => new BrowserDrafts(new FakeBrowser()));
        var session = await garden.SessionAsync();
        return (session, screen.Render<EntryField>(p => p.Add(c => c.Session, session)));
    }

    private static Task TypeAsync(IRenderedComponent<EntryField> shown, string words) =>
        shown.Find("#entry").InputAsync(new Microsoft.AspNetCore.Components.ChangeEventArgs { Value = words });
}
