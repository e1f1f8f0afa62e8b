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
        var line = Garden.Line(Flora.Smooth, null, 4) with
        {
            GrowthStage = 6,
            Origin = Origin.SelfSown,
            Certainty = Certainty.Tentative,
            Qualifier = "cf.",
            Remarks = "by the gate"
        };
        var result = await garden.SaveAsync(member, line);
        result.Problems.ShouldBeEmpty();
        var sighting = (await garden.SightingsAsync()).ShouldHaveSingleItem();
        // 4 plants at 0.5 m: 4 × 0.866 × 0.25 = 0.866 m².
        sighting.CoverSquareMetres.ShouldBe(0.866, 1e-12);
        (sighting.Count, sighting.CoverDerived, sighting.GrowthStage, sighting.Origin, sighting.Certainty, sighting.Qualifier,
            sighting.Remarks, sighting.Observer)
            .ShouldBe((4, true, 6, Origin.SelfSown, Certainty.Tentative, "cf.", "by the gate", "walker 1"));
        (sighting.RecordedById, sighting.ObservedOn, sighting.RecordedAtUtc).ShouldBe((member.MemberId, Garden.Today,
            garden.Time.Now.UtcDateTime));
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
        var result = await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today.AddDays(1), "",
            [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser);
        var problem = result.Problems.ShouldHaveSingleItem();
        problem.Field.ShouldBe("date");
        problem.Message.ShouldBe("August 20, 2026 is in the future. Give the day it was seen; today is August 19, 2026.");
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task Today_is_the_groups_day_not_the_servers()
    {
        using var garden = await Garden.WithOneYardAsync();
        garden.Time.Now = new DateTimeOffset(2026, 8, 20, 4, 30, 0, TimeSpan.Zero); // still the 19th in Chicago
        var (yard, bed) = await garden.BedAsync();
        (await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, new(2026, 8, 20), "", [Garden.Line(Flora.Smooth, 1)]),
            Garden.Organiser)).Problems.ShouldHaveSingleItem().Field.ShouldBe("date");
        garden.Time.Now = garden.Time.Now.AddMinutes(31);
        (await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, new(2026, 8, 20), "", [Garden.Line(Flora.Smooth, 1)]),
            Garden.Organiser)).Problems.ShouldBeEmpty();
    }

    [Fact]
    public async Task One_bad_line_and_no_line_is_saved()
    {
        using var garden = await Garden.WithOneYardAsync();
        var result = await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1), Garden.Line("Planta ignota", 1),
            Garden.Line(Flora.Bergamot, null), Garden.Line(Flora.Columbine, null, 3),
                Garden.Line(Flora.Aromatic, 1) with { GrowthStage = 10 });
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
        foreach (var sheet in new[] { new RecordSheet(5, bed.Id, bed.Version, Garden.Today, "", [Garden.Line(Flora.Smooth, 1)]),
            new RecordSheet(yard.Id, 5, bed.Version, Garden.Today, "", [Garden.Line(Flora.Smooth, 1)]) })
        {
            (await garden.Record.SaveAsync(sheet, Garden.Organiser)).Problems.ShouldHaveSingleItem(
                ).Message.ShouldContain("no longer in the record");
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
        second.Problems.ShouldHaveSingleItem(
            ).Message.ShouldBe($"Somebody else saved to this bed while you were typing (latest: {Flora.Smooth}). Your lines are kept: "
            + $"look at the bed below, then save again to add yours.");
        (await garden.Record.SaveAsync(Sheet(second.BedVersion, Flora.Bergamot), Garden.Organiser)).Problems.ShouldBeEmpty();
        (await garden.SightingsAsync()).Select(s => Flora.All[s.TaxonId - 1].ScientificName).ShouldBe([Flora.Smooth, Flora.Bergamot],
            ignoreOrder: true);
    }

    [Fact]
    public async Task Many_who_save_the_same_bed_at_once_all_get_an_answer_and_only_one_saves()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(i => Task.Run(() =>
            garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today, $"walker {i}",
                [Garden.Line(Flora.Smooth, i + 1)]), Garden.Organiser))));
        answers.Count(a => a.ChangeId is not null).ShouldBe(1);
        answers.Where(a => a.ChangeId is null).ShouldAllBe(a => a.Problems.Single().Message.StartsWith("Somebody else saved",
            StringComparison.Ordinal));
        (await garden.SightingsAsync()).ShouldHaveSingleItem();
    }

    [Fact]
    public async Task Who_types_while_a_file_brings_sightings_to_the_bed_is_told()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, bed) = await garden.BedAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,{Flora.Smooth},2026-08-19,7\n"));
        var result = await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, bed.Version, Garden.Today, "",
            [Garden.Line(Flora.Smooth, 1)]), Garden.Organiser);
        result.Problems.ShouldHaveSingleItem().Message.ShouldContain("Somebody else saved");
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(7);
    }

    [Fact]
    public async Task Two_lines_of_one_plant_are_refused_until_somebody_says_which_is_meant()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Smooth, 2))).Problems
            .ShouldHaveSingleItem().Field.ShouldBe("same");
        (await garden.SightingsAsync()).ShouldBeEmpty();
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1),
            Garden.Line(Flora.Smooth, 2) with { Patch = "gate" })).Problems.ShouldBeEmpty();
        (await garden.SightingsAsync()).Select(s => (s.Patch, s.CoverSquareMetres)).ShouldBe([("", 1), ("gate", 2)], ignoreOrder: true);
        (await garden.Live.NowAsync()).Yards[0].Presences.ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(3);
    }

    [Fact]
    public async Task A_line_that_was_held_back_never_goes_over_what_was_saved_before_it()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 2.5) with { GrowthStage = 6 });
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1))).Problems.ShouldHaveSingleItem().Field.ShouldBe("same");
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(s => s.CoverSquareMetres.ShouldBe(2.5),
            s => s.GrowthStage.ShouldBe(6));
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { SameDay = SameDay.Together })).Problems
            .ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(s => s.CoverSquareMetres.ShouldBe(3.5),
            s => s.GrowthStage.ShouldBe(6));
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1) with { SameDay = SameDay.InPlace })).Problems
            .ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(s => s.CoverSquareMetres.ShouldBe(1),
            s => s.GrowthStage.ShouldBe(6));
    }

    [Fact]
    public async Task A_planting_recorded_again_keeps_what_the_line_does_not_say()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2,origin,certainty,growth_stage,patch,verified_by\n"
                + $"N-1,front,Symphyotrichum cf. laeve,2026-06-01,2,self_sown,tentative,3,gate,A. Botanist\n"));
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, null) with { Patch = "gate", GrowthStage = 6 })).Problems
            .ShouldBeEmpty();
        var again = (await garden.SightingsAsync())[^1];
        (again.ObservedOn, again.CoverSquareMetres, again.GrowthStage).ShouldBe((Garden.Today, 2, 6));
        (again.Origin, again.Certainty, again.Qualifier, again.VerifiedBy,
            again.Patch).ShouldBe((Origin.SelfSown, Certainty.Tentative, "cf.", "A. Botanist", "gate"));
    }

    [Fact]
    public async Task Who_says_otherwise_changes_what_was_known_and_only_that()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,origin,certainty\nN-1,front,Symphyotrichum cf. "
                + "laeve,2026-06-01,2,self_sown,tentative\n"));
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 3) with { Certainty = Certainty.Certain })).Problems
            .ShouldBeEmpty();
        var again = (await garden.SightingsAsync())[^1];
        (again.CoverSquareMetres, again.Origin, again.Certainty, again.Qualifier).ShouldBe((3, Origin.SelfSown, Certainty.Certain, ""));
    }

    [Fact]
    public async Task Not_found_this_time_ends_nothing_while_dead_and_gone_do()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,{Flora.Smooth},2026-06-01,2\n"
                + $"N-1,front,{Flora.Bergamot},2026-06-01,2\nN-1,front,{Flora.Goldenrod},2026-06-01,2\n"));
        (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, null) with { Finding = Finding.NotFound },
            Garden.Line(Flora.Bergamot, null) with { Finding = Finding.Died }, Garden.Line(Flora.Goldenrod, 0))).Problems.ShouldBeEmpty();
        var community = await garden.Live.LoadedAsync();
        community.Matrix.Yards[0].Presences.ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(2);
        var view = await garden.Yards.GetAsync("N-1", Garden.Organiser);
        view!.Beds.Single().Plantings.ShouldHaveSingleItem().ShouldSatisfyAllConditions(p => p.Taxon.ScientificName.ShouldBe(Flora.Smooth),
            p => p.ObservedOn.ShouldBe(new DateOnly(2026, 6, 1)), p => p.NotFoundOn.ShouldBe(Garden.Today));
        (await garden.SightingsAsync()).Where(s => s.ObservedOn == Garden.Today).Select(s => s.Finding)
            .ShouldBe([Finding.NotFound, Finding.Died, Finding.Ended], ignoreOrder: true);
    }

    [Fact]
    public async Task A_refused_save_leaves_no_name_behind_that_the_catalogue_does_not_list()
    {
        using var garden = await Garden.WithOneYardAsync();
        var sheet = new EntrySheet((await garden.Live.LoadedAsync()).Names);
        var line = sheet.Draft("Monarda sp. 2000", null, false);
        (await garden.SaveAsync(Garden.Organiser, line)).Problems.ShouldContain(p => p.Message.Contains("more than the bed"));
        (await garden.SaveAsync(Garden.Visitor, line with { CoverSquareMetres = 2 })).Problems
            .ShouldContain(p => p.Message.Contains("Only the household"));
        var (yard, bed) = await garden.BedAsync();
        (await garden.Record.SaveAsync(new RecordSheet(yard.Id, bed.Id, Guid.NewGuid(), Garden.Today, "walker 1",
            [line with { CoverSquareMetres = 2 }]), Garden.Organiser)).Problems
                .ShouldContain(p => p.Message.Contains("Somebody else saved"));
        await using (var db = await garden.Database.CreateDbContextAsync())
        {
            (await db.Taxa.CountAsync(t => t.Unlisted)).ShouldBe(0);
        }

        (await garden.SaveAsync(Garden.Organiser, line with { CoverSquareMetres = 2 })).Problems.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_genus_is_recorded_as_a_genus_and_counts_only_until_a_species_is_named()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        var sheet = new EntrySheet((await garden.Live.LoadedAsync()).Names);
        var line = sheet.Draft("Monarda sp. 2", null, false);
        line.AsWritten.ShouldBeTrue();
        var saved = await garden.SaveAsync(member, line);
        saved.Problems.ShouldBeEmpty();
        var figures = await garden.Live.FiguresAsync(organiser: true);
        (figures.Neighbourhood.Richness, figures.Neighbourhood.NativeRichness, figures.Neighbourhood.WithoutC,
            figures.Neighbourhood.MeanC).ShouldBe((1, 0, 1, null));
        figures.Neighbourhood.Bloom.HalfMonths.ShouldAllBe(h => h.N == 0);
        (await garden.SaveAsync(member, Garden.Line(Flora.Bergamot, 1))).Problems.ShouldBeEmpty();
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.ShouldSatisfyAllConditions(n => n.Richness.ShouldBe(1),
            n => n.NativeMeanC.ShouldBe(4), n => n.WithoutC.ShouldBe(0));
        // The household that recorded it takes it back itself, and the name stays for others.
        (await garden.Undo.UndoAsync(saved.ChangeId!.Value, member)).ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldHaveSingleItem();
    }
}
