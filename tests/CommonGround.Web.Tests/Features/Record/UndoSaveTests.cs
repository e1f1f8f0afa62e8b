using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Record;

public class UndoSaveTests
{
    [Fact]
    public async Task Undoing_a_save_takes_new_rows_out_and_puts_replaced_ones_back()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { Remarks = "first" });
        var before = (await garden.SightingsAsync()).Single();
        garden.Time.Now = garden.Time.Now.AddHours(1);
        var receipt = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 9) with
        {
            Remarks = "second",
            SameDay = SameDay.InPlace
        }, Garden.Line(Flora.Bergamot, 1))).ChangeId!.Value;
        (await garden.SightingsAsync()).Count.ShouldBe(2);
        (await garden.Undo.UndoAsync(receipt, Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldBeEquivalentTo(before);
        (await garden.Live.NowAsync()).Yards[0].Presences.ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(1);
    }

    [Fact]
    public async Task Undoing_never_takes_away_what_somebody_else_saved_since()
    {
        using var garden = await Garden.WithOneYardAsync();
        var receipt = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1))).ChangeId!.Value;
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 5) with { SameDay = SameDay.InPlace });
        (await garden.Undo.UndoAsync(receipt, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("can no longer be undone");
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(5);
    }

    [Fact]
    public async Task A_stranger_cannot_undo_a_save()
    {
        using var garden = await Garden.WithOneYardAsync();
        var receipt = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1))).ChangeId!.Value;
        (await garden.Undo.UndoAsync(receipt, Garden.Visitor)).ShouldHaveSingleItem();
        (await garden.SightingsAsync()).ShouldHaveSingleItem();
    }
}
