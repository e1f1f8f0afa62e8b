using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Record;

public class CorrectSightingTests
{
    [Fact]
    public async Task A_wrong_name_is_renamed_in_the_whole_planting_and_nothing_else_changes()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        (await CorrectAsync(garden, before[1], c => c with { Name = Flora.Aromatic })).ShouldBeEmpty();
        var after = await garden.SightingsAsync();
        after.ShouldAllBe(s => s.TaxonId == TaxonId(Flora.Aromatic));
        after.Select(s => (s.Id, s.ObservedOn, s.CoverSquareMetres, s.GrowthStage, s.Origin, s.Certainty, s.Qualifier, s.Observer,
            s.Remarks, s.RecordedAtUtc, s.RecordedById, s.Finding))
            .ShouldBe(before.Select(s => (s.Id, s.ObservedOn, s.CoverSquareMetres, s.GrowthStage, s.Origin, s.Certainty, s.Qualifier,
            s.Observer, s.Remarks, s.RecordedAtUtc, s.RecordedById, s.Finding)));
        (await garden.Live.LoadedAsync()).Matrix.Yards[0].Presences.ShouldHaveSingleItem();
    }

    [Fact]
    public async Task One_sighting_alone_can_be_another_plant()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        (await CorrectAsync(garden, before[1], c => c with { Name = Flora.Aromatic, OnlyThis = true })).ShouldBeEmpty();
        (await garden.SightingsAsync()).Select(s => s.TaxonId).ShouldBe([TaxonId(Flora.Smooth), TaxonId(Flora.Aromatic)]);
    }

    [Fact]
    public async Task Date_stage_cover_certainty_and_remark_are_mended_in_the_one_sighting_and_can_be_taken_back()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        (await CorrectAsync(garden, before[1], c => c with
        {
            ObservedOn = new(2026, 6, 2),
            CoverSquareMetres = 0.5,
            GrowthStage = 3,
            Certainty = Certainty.Probable,
            Qualifier = "",
            Remarks = "seen from the gate",
            VerifiedBy = "A. Botanist"
        })).ShouldBeEmpty();
        var after = await garden.SightingsAsync();
        after[0].ShouldBeEquivalentTo(before[0]);
        (after[1].ObservedOn, after[1].CoverSquareMetres, after[1].GrowthStage, after[1].Certainty, after[1].Qualifier, after[1].Remarks,
            after[1].VerifiedBy).ShouldBe((new DateOnly(2026, 6, 2), 0.5, 3, Certainty.Probable, "", "seen from the gate", "A. Botanist"));
        await using var db = await garden.Database.CreateDbContextAsync();
        var change = await db.Changes.OrderByDescending(c => c.Id).FirstAsync();
        change.What.ShouldBe("corrected a sighting of smooth blue aster in N-1, front");
        (await garden.Undo.UndoAsync(change.Id, Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync())[1].ShouldBeEquivalentTo(before[1]);
    }

    [Fact]
    public async Task A_correction_never_goes_over_another_record()
    {
        using var garden = await WithTwoSeasonsAsync();
        await garden.StoreAsync(
            ("sightings.csv", $"yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,{Flora.Aromatic},2025-06-01,3\n"));
        var before = await garden.SightingsAsync();
        var mine = before.Last(s => s.TaxonId == TaxonId(Flora.Smooth));
        var problem = (await CorrectAsync(garden, mine, c => c with { Name = Flora.Aromatic })).ShouldHaveSingleItem();
        problem.Message.ShouldStartWith("aromatic aster is recorded in front on June 1, 2025 already.");
        (await CorrectAsync(garden, mine, c => c with { ObservedOn = new(2025, 6, 1) })).ShouldHaveSingleItem(
            ).Message.ShouldContain("already");
        (await garden.SightingsAsync()).ShouldBeEquivalentTo(before);
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_said_and_a_stranger_is_told_nothing_of_it()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        var stranger = await garden.MemberOfAsync();
        (await CorrectAsync(garden, before[1], c => c with { ObservedOn = Garden.Today.AddDays(1) })).ShouldHaveSingleItem(
            ).Field.ShouldBe("date");
        (await CorrectAsync(garden, before[1], c => c with { CoverSquareMetres = 11 })).ShouldHaveSingleItem().Field.ShouldBe("cover");
        (await CorrectAsync(garden, before[1], c => c with { Finding = Finding.Died })).ShouldHaveSingleItem(
            ).Message.ShouldContain("covers nothing");
        (await CorrectAsync(garden, before[1], c => c with { Certainty = Certainty.Certain })).ShouldHaveSingleItem(
            ).Message.ShouldContain("cannot be certain");
        (await CorrectAsync(garden, before[1], c => c with { Name = "Planta ignota" })).ShouldHaveSingleItem().Field.ShouldBe("name");
        (await CorrectAsync(garden, before[1], c => c with { BedId = 5 })).ShouldHaveSingleItem().Field.ShouldBe("bed");
        (await CorrectAsync(garden, before[1], c => c, stranger)).ShouldHaveSingleItem(
            ).Message.ShouldStartWith("There is no such sighting");
        var (_, bed) = await garden.BedAsync();
        (await garden.Correct.SaveAsync(before[1].Id, Guid.NewGuid(), Correction.Of(before[1], Flora.Smooth),
            Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("Somebody else saved");
        (await garden.Correct.NeverWasAsync(before[1].Id, bed.Version, true, stranger)).ShouldHaveSingleItem();
        (await garden.SightingsAsync()).ShouldBeEquivalentTo(before);
    }

    [Fact]
    public async Task A_planting_that_never_was_is_taken_out_whole_and_comes_back_by_undo()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        var (_, bed) = await garden.BedAsync();
        (await garden.Correct.NeverWasAsync(before[1].Id, bed.Version, wholePlanting: true, Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldBeEmpty();
        (await garden.Live.LoadedAsync()).Matrix.Yards[0].Presences.ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await garden.Undo.UndoAsync(await db.Changes.MaxAsync(c => c.Id), Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync()).Select(s => (s.Id, s.TaxonId, s.ObservedOn, s.CoverSquareMetres, s.GrowthStage, s.Qualifier,
            s.Remarks)).ShouldBe(before.Select(s => (s.Id, s.TaxonId, s.ObservedOn, s.CoverSquareMetres, s.GrowthStage, s.Qualifier,
                s.Remarks)));
    }

    [Fact]
    public async Task A_species_that_was_claimed_too_boldly_becomes_its_genus()
    {
        using var garden = await WithTwoSeasonsAsync();
        var before = await garden.SightingsAsync();
        var names = (await garden.Live.LoadedAsync()).Names;
        var was = Correction.Of(before[1], Flora.Smooth);
        var (correction, problems) = CorrectionText.Read(CorrectionText.Of(was, new Units(true)) with { Name = "Symphyotrichum sp." }, was,
            names, new Units(true));
        problems.ShouldBeEmpty();
        correction.CoverSquareMetres.ShouldBe(was.CoverSquareMetres);
        var (_, bed) = await garden.BedAsync();
        (await garden.Correct.SaveAsync(before[1].Id, bed.Version, correction, Garden.Organiser)).ShouldBeEmpty();
        (await garden.Plantings.GetAsync("N-1", before[1].Id, Garden.Organiser))!.ShouldSatisfyAllConditions(v => v.Taxon.DisplayName
            .ShouldBe("Symphyotrichum sp."), v => v.Sightings.Count.ShouldBe(2), v => v.LastConfirmed.ShouldBe(new DateOnly(2026, 6, 1)));
        (await garden.Plantings.GetAsync("N-1", before[1].Id, await garden.MemberOfAsync())).ShouldBeNull();
    }

    private static async Task<Garden> WithTwoSeasonsAsync()
    {
        var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,origin,certainty,growth_stage,observer,remarks\n"
            + "N-1,front,Symphyotrichum cf. laeve,2025-06-01,1,self_sown,tentative,3,walker 1,first\nN-1,front,Symphyotrichum cf. "
            + "laeve,2026-06-01,2,self_sown,tentative,6,walker 2,second\n"));
        return garden;
    }

    private static async Task<IReadOnlyList<Problem>> CorrectAsync(Garden garden, Sighting sighting, Func<Correction, Correction> change,
        CommonGround.Web.Layout.CurrentUser? by = null)
    {
        var (_, bed) = await garden.BedAsync();
        return await garden.Correct.SaveAsync(sighting.Id, bed.Version,
            change(Correction.Of(sighting, Flora.All[sighting.TaxonId - 1].ScientificName)), by ?? Garden.Organiser);
    }

    private static int TaxonId(string name) => Flora.All.Index().Single(t => t.Item.ScientificName == name).Index + 1;
}
