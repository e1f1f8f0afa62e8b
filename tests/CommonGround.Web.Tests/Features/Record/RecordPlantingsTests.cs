using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Record;

public class RecordPlantingsTests
{
    [Fact]
    public async Task A_line_is_saved_with_all_it_says()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        var line = Garden.Line(Flora.Smooth, null, 4) with { GrowthStage = 6, Origin = Origin.SelfSown, Certainty = Certainty.Tentative, Qualifier = "cf.", Remarks = "by the gate" };
        var result = await garden.SaveAsync(member, line);
        result.Problems.ShouldBeEmpty();
        var sighting = (await garden.SightingsAsync()).ShouldHaveSingleItem();
        // 4 plants at 0.5 m: 4 × 0.866 × 0.25 = 0.866 m².
        sighting.CoverSquareMetres.ShouldBe(0.866, 1e-12);
        (sighting.Count, sighting.CoverDerived, sighting.GrowthStage, sighting.Origin, sighting.Certainty, sighting.Qualifier, sighting.Remarks, sighting.Observer)
            .ShouldBe((4, true, 6, Origin.SelfSown, Certainty.Tentative, "cf.", "by the gate", "walker 1"));
        (sighting.RecordedById, sighting.ObservedOn, sighting.RecordedAtUtc).ShouldBe((member.MemberId, Garden.Today, garden.Time.Now.UtcDateTime));
        var (_, bed) = await garden.BedAsync();
        result.BedVersion.ShouldBe(bed.Version);
    }

    [Theory]
    [InlineData(-1.0, "less than nothing")]
    [InlineData(10.5, "more than the bed")]
    [InlineData(double.NaN, "cover")]
    [InlineData(double.PositiveInfinity, "cover")]
    public async Task Cover_that_cannot_be_is_refused(double cover, string said)
    {
        using var garden = await Garden.WithOneYardAsync();
        var problem = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, cover))).Problems.ShouldHaveSingleItem();
        problem.Field.ShouldBe("cover");
        problem.Message.ShouldContain(said, Case.Insensitive);
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_planting_in_the_future_is_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        var result = await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today.AddDays(1), "", [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser);
        var problem = result.Problems.ShouldHaveSingleItem();
        problem.Field.ShouldBe("date");
        problem.Message.ShouldBe("20 August 2026 is in the future. Give the day it was seen; today is 19 August 2026.");
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Today_is_the_groups_day_not_the_servers()
    {
        using var garden = await Garden.WithOneYardAsync();
        garden.Time.Now = new DateTimeOffset(2026, 8, 20, 4, 30, 0, TimeSpan.Zero); // still the 19th in Chicago
        var (yard, bed) = await garden.BedAsync();
        (await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, new(2026, 8, 20), "", [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser)).Problems.ShouldHaveSingleItem().Field.ShouldBe("date");
        garden.Time.Now = garden.Time.Now.AddMinutes(31);
        (await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, new(2026, 8, 20), "", [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser)).Problems.ShouldBeEmpty();
    }

    [Fact]
    public async Task One_bad_line_and_no_line_is_saved()
    {
        using var garden = await Garden.WithOneYardAsync();
        var result = await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1), Garden.Line("Planta ignota", 1), Garden.Line(Flora.Bergamot, null), Garden.Line(Flora.Columbine, null, 3), Garden.Line(Flora.Aromatic, 1) with { GrowthStage = 10 });
        result.Problems.Select(p => p.Field).ShouldBe(["name", "cover", "cover", "stage"]);
        result.Problems[0].Message.ShouldContain("“Planta ignota”");
        result.Problems[2].Message.ShouldContain("no spacing for wild columbine");
        result.ChangeId.ShouldBeNull();
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Who_may_not_record_here_is_told_so_and_nothing_is_saved()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.MemberOfAsync("N-1");
        var other = await garden.MemberOfAsync();
        foreach (var stranger in new[] { Garden.Visitor, other, new CurrentUser(Role.Member, null, "nobody", false) })
        {
            var problem = (await garden.SaveAsync(stranger, Garden.Line(Flora.Smooth, 1))).Problems.ShouldHaveSingleItem();
            problem.Message.ShouldBe("Only the household and organisers record in this yard. Ask an organiser.");
        }

        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_yard_that_is_gone_is_told_and_the_lines_can_go_elsewhere()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        foreach (var sheet in new[] { new RecordSheet(5, bed.Id, bed.Version, Garden.Today, "", [Garden.Line(Flora.Smooth, 1)]), new RecordSheet(yard.Id, 5, bed.Version, Garden.Today, "", [Garden.Line(Flora.Smooth, 1)]) })
        {
            (await garden.Record.SaveAsync(sheet, Garden.Organiser)).Problems.ShouldHaveSingleItem().Message.ShouldContain("no longer in the record");
        }
    }

    [Fact]
    public async Task Of_two_people_in_one_bed_the_second_is_told_and_saves_again_and_nothing_is_lost()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        RecordSheet Sheet(Guid version, string name) => new(yard.Id, bed.Id, version, Garden.Today, "", [Garden.Line(name, 1)]);
        (await garden.Record.SaveAsync(Sheet(bed.Version, Flora.Smooth), Garden.Organiser)).Problems.ShouldBeEmpty();
        var second = await garden.Record.SaveAsync(Sheet(bed.Version, Flora.Bergamot), Garden.Organiser);
        second.ChangeId.ShouldBeNull();
        second.Problems.ShouldHaveSingleItem().Message.ShouldBe($"Somebody else saved to this bed while you were typing (latest: {Flora.Smooth}). Your lines are kept: look at the bed below, then save again to add yours.");
        (await garden.Record.SaveAsync(Sheet(second.BedVersion, Flora.Bergamot), Garden.Organiser)).Problems.ShouldBeEmpty();
        (await garden.SightingsAsync()).Select(s => Flora.All[s.TaxonId - 1].ScientificName).ShouldBe([Flora.Smooth, Flora.Bergamot], ignoreOrder: true);
    }

    [Fact]
    public async Task Many_who_save_the_same_bed_at_once_all_get_an_answer_and_only_one_saves()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(i => Task.Run(() =>
            garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today, $"walker {i}", [Garden.Line(Flora.Smooth, i + 1)]), Garden.Organiser))));
        answers.Count(a => a.ChangeId is not null).ShouldBe(1);
        answers.Where(a => a.ChangeId is null).ShouldAllBe(a => a.Problems.Single().Message.StartsWith("Somebody else saved", StringComparison.Ordinal));
        (await garden.SightingsAsync()).ShouldHaveSingleItem();
    }

    [Fact]
    public async Task Who_types_while_a_file_brings_sightings_to_the_bed_is_told()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        await garden.StoreAsync(("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,{Flora.Smooth},2026-08-19,7\n"));
        var result = await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today, "", [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser);
        result.Problems.ShouldHaveSingleItem().Message.ShouldContain("Somebody else saved");
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(7);
    }

    [Fact]
    public async Task Undoing_a_save_takes_new_rows_out_and_puts_replaced_ones_back()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { Remarks = "first" });
        var before = (await garden.SightingsAsync()).Single();
        garden.Time.Now = garden.Time.Now.AddHours(1);
        var receipt = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 9) with { Remarks = "second" }, Garden.Line(Flora.Bergamot, 1))).ChangeId!.Value;
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
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 5));
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

    [Fact]
    public async Task A_second_line_of_the_same_plant_holds_over_the_first()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Smooth, 2))).Problems.ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(2);
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Beds.CountAsync()).ShouldBe(1);
    }
}
