using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Tests.Features.Record;

public class RecordSessionTests
{
    [Fact]
    public async Task A_line_being_edited_stays_until_it_is_added_again_and_survives_a_reload()
    {
        using var garden = await Garden.WithOneYardAsync();
        var browser = new FakeBrowser();
        var session = await garden.SessionAsync(browser);
        await session.TypeAsync("Symphyotrichum laeve 1");
        await session.TypeAsync("Aster cf. laevis 2 fl self #gate");
        var words = session.Edit(1);
        await session.TypedAsync(words + " prob");

        // The page is loaded again in the middle of it.
        var again = await garden.SessionAsync(browser);
        again.Sheet.Lines.Count.ShouldBe(2);
        (again.Sheet.Lines[1].GrowthStage, again.Sheet.Lines[1].Origin, again.Sheet.Lines[1].Qualifier,
            again.Sheet.Lines[1].Patch).ShouldBe((6, Origin.SelfSown, "cf.", "gate"));
        again.Editing.ShouldBe(1);
        again.KeptEntry.ShouldBe(words + " prob");
        await again.TypeAsync(again.KeptEntry);
        again.Sheet.Lines.Count.ShouldBe(2);
        again.Sheet.Lines[1].Certainty.ShouldBe(Certainty.Probable);
        again.Sheet.Lines[0].Taxon!.ScientificName.ShouldBe(Flora.Smooth);
    }

    [Fact]
    public async Task A_line_added_while_the_kept_ones_are_read_stands_after_them_and_is_kept()
    {
        using var garden = await Garden.WithOneYardAsync();
        var browser = new FakeBrowser();
        await (await garden.SessionAsync(browser)).TypeAsync("Symphyotrichum laeve 1");
        var read = new TaskCompletionSource();
        browser.Reading = read.Task;
        var session = await garden.ShownAsync(browser);
        var opening = session.ReadKeptAsync();
        await session.TypeAsync("Monarda fistulosa 2");
        read.SetResult();
        await opening;
        session.Sheet.Lines.Select(l => l.Taxon!.ScientificName).ShouldBe([Flora.Smooth, Flora.Bergamot]);
        (await garden.SessionAsync(browser)).Sheet.Lines.Count.ShouldBe(2);
    }

    [Fact]
    public async Task Two_lines_of_one_plant_are_asked_about_once_and_added_up_or_kept_apart()
    {
        using var garden = await Garden.WithOneYardAsync();
        var session = await garden.SessionAsync();
        await session.TypeAsync("Symphyotrichum laeve 2.5 fl");
        await session.TypeAsync("Symphyotrichum laeve 1");
        session.Check(session.Sheet.Lines[0]).ShouldBeEmpty();
        session.Check(session.Sheet.Lines[1]).ShouldHaveSingleItem().Field.ShouldBe("same-line");
        await session.TogetherAsync(1);
        session.Sheet.Lines.ShouldHaveSingleItem().ShouldSatisfyAllConditions(l => l.Cover.ShouldBe(3.5), l => l.GrowthStage.ShouldBe(6));
        await session.UndoStepAsync();
        await session.ApartAsync(1);
        session.Sheet.Lines.Select(l => l.Patch).ShouldBe(["", "2"]);
        session.Sheet.Lines.ShouldAllBe(l => session.Check(l).Count == 0);
        await session.SaveAndReadAsync(garden);
        (await garden.SightingsAsync()).Select(s => (s.Patch, s.CoverSquareMetres, s.GrowthStage)).ShouldBe([("", 2.5, 6), ("2", 1, null)],
            ignoreOrder: true);
    }

    [Fact]
    public async Task A_line_held_back_is_asked_about_again_after_the_save_and_goes_over_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        var session = await garden.SessionAsync();
        await session.TypeAsync("Symphyotrichum laeve 2.5 fl");
        await session.TypeAsync("Symphyotrichum laeve 1");
        await session.SaveAndReadAsync(garden);
        var held = session.Sheet.Lines.ShouldHaveSingleItem();
        session.Check(held).ShouldHaveSingleItem().ShouldSatisfyAllConditions(p => p.Field.ShouldBe("same-day"),
            p => p.Message.ShouldContain("2.5 m², flowering"));
        await session.SaveAndReadAsync(garden);
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(s => s.CoverSquareMetres.ShouldBe(2.5),
            s => s.GrowthStage.ShouldBe(6));
        await session.TogetherAsync(0);
        await session.SaveAndReadAsync(garden);
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(s => s.CoverSquareMetres.ShouldBe(3.5),
            s => s.GrowthStage.ShouldBe(6));
    }

    [Fact]
    public async Task Where_a_plant_grows_in_patches_a_line_without_one_is_asked_which()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2,patch\nN-1,front,{Flora.Smooth},2026-06-01,2,gate\n"
                + $"N-1,front,{Flora.Smooth},2026-06-01,1,fence\n"));
        var session = await garden.SessionAsync();
        await session.TypeAsync("Symphyotrichum laeve fl 2");
        session.Check(session.Sheet.Lines[0]).ShouldHaveSingleItem().Message.ShouldContain("fence and gate");
        await session.ApartAsync(0, "gate");
        session.Check(session.Sheet.Lines[0]).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_share_of_the_bed_is_a_cover_only_where_the_bed_is_measured()
    {
        using var garden = await Garden.WithOneYardAsync();
        var session = await garden.SessionAsync();
        session.Sheet.Draft("Symphyotrichum laeve 25%", null, false).Cover.ShouldBe(2.5);
        session.Sheet.BedSquareMetres = null;
        session.Sheet.Draft("Symphyotrichum laeve 25%", null, false).Check(Garden.Today, Garden.Today, null, 100)
            .ShouldHaveSingleItem().Message.ShouldContain("Nobody has measured this bed");
    }
}
