using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Members;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Walks;

public sealed class ReceiveWalkTests
{
    [Fact]
    public async Task One_tap_confirms_a_planting_and_changes_nothing_else()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (walker, before) = (await garden.WalkerAsync("walker 1"), await garden.BergamotAsync());
        await garden.StoreAsync(walker, await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing }));
        var now = (await garden.SightingsAsync())[^1];
        (now.ObservedOn, now.CoverSquareMetres, now.Origin, now.Certainty, now.Qualifier)
            .ShouldBe((Garden.Today, before.CoverSquareMetres, before.Origin, before.Certainty, before.Qualifier));
        (now.GrowthStage, now.Observer, now.RecordedById).ShouldBe((null, "walker 1", walker.MemberId));
        (await garden.Yards.GetAsync("N-1", Garden.Organiser))!.Beds[0].Plantings.Single().ObservedOn.ShouldBe(Garden.Today);
    }

    [Fact]
    public async Task Everything_that_was_said_is_what_is_stored()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        await garden.StoreAsync(walker, await garden.LookAsync(walker, Flora.Bergamot, new()
        {
            Finding = Finding.Growing,
            CoverSquareMetres = 1.25,
            GrowthStage = 8,
            Certainty = Certainty.Certain,
            SeedCollectedGrams = 12.5,
            Place = "left end",
            Remark = "ripe",
        }));
        var now = (await garden.SightingsAsync())[^1];
        (now.CoverSquareMetres, now.GrowthStage, now.Certainty, now.Qualifier, now.SeedCollectedGrams, now.PlaceInBed, now.Remarks)
            .ShouldBe((1.25, 8, Certainty.Certain, "", 12.5, "left end", "ripe"));
    }

    [Fact]
    public async Task Not_found_is_kept_as_absence_and_ends_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        await garden.StoreAsync(walker, await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.NotFound }));
        (await garden.SightingsAsync())[^1].Finding.ShouldBe(Finding.NotFound);
        (await garden.Yards.GetAsync("N-1", Garden.Organiser))!.Beds[0].Plantings.Single().NotFoundOn.ShouldBe(Garden.Today);
    }

    [Fact]
    public async Task Sent_twice_is_stored_once_even_where_it_was_undone_in_between()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var note = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing });
        await garden.StoreAsync(walker, note);
        (await garden.SendAsync(walker, note, note)).Receipts.Single().State.ShouldBe(ReceiptState.StoredBefore);
        (await garden.SightingsAsync()).Count.ShouldBe(2);
        var change = await garden.AskAsync(db => db.Changes.MaxAsync(c => c.Id));
        (await garden.Undo.UndoAsync(change, Garden.Organiser)).ShouldBeEmpty();
        (await garden.SendAsync(walker, note)).Receipts.Single().State.ShouldBe(ReceiptState.StoredBefore);
        (await garden.SightingsAsync()).Count.ShouldBe(1);
    }

    [Fact]
    public async Task The_same_batch_four_times_at_once_is_stored_once()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        WalkNote[] notes = [await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing }),
            await garden.LookAsync(walker, Flora.Smooth, new() { Finding = Finding.Growing, CoverSquareMetres = 1 })];
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => garden.SendAsync(walker, notes))));
        answers.SelectMany(a => a.Receipts).Count(r => r.State == ReceiptState.Stored).ShouldBe(2);
        answers.SelectMany(a => a.Receipts).ShouldNotContain(r => r.State == ReceiptState.Refused);
        (await garden.SightingsAsync()).Count.ShouldBe(3);
    }

    [Fact]
    public async Task A_planting_that_was_renamed_meanwhile_gets_the_look_under_its_new_name()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (walker, before) = (await garden.WalkerAsync("walker 1"), await garden.BergamotAsync());
        var note = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing }) with { LastSightingId = before.Id };
        var bed = (await garden.BedAsync()).Bed;
        (await garden.Correct.SaveAsync(before.Id, bed.Version,
            CommonGround.Web.Features.Record.Correction.Of(before, Flora.Bergamot) with { Name = Flora.Goldenrod }, Garden.Organiser))
            .ShouldBeEmpty();
        await garden.StoreAsync(walker, note);
        (await garden.SightingsAsync()).Select(s => s.TaxonId).Distinct().Count().ShouldBe(1);
        (await garden.Yards.GetAsync("N-1", Garden.Organiser))!.Beds[0].Plantings.Single().Taxon.ScientificName.ShouldBe(Flora.Goldenrod);
    }

    [Fact]
    public async Task Two_people_who_differ_are_both_kept_and_the_walker_chooses()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (one, other) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("walker 2"));
        await garden.BergamotAsync();
        (await garden.StoreAsync(one, await garden.LookAsync(one, Flora.Bergamot, new() { Finding = Finding.Growing, GrowthStage = 6 })))
            .Disputes.ShouldBeEmpty();
        var dispute = (await garden.StoreAsync(other, await garden.LookAsync(other, Flora.Bergamot,
            new() { Finding = Finding.Growing, GrowthStage = 7 }, minutes: 5))).Disputes.ShouldHaveSingleItem();
        dispute.Sides.Select(s => (s.Who, s.Mine, s.Said.GrowthStage)).ShouldBe([("walker 1", false, 6), ("walker 2", true, 7)]);
        (await garden.SightingsAsync())[^1].GrowthStage.ShouldBe(7);
        var choice = await garden.LookAsync(other, Flora.Bergamot, dispute.Sides[0].Said,
            minutes: 9) with
        {
            LastSightingId = dispute.SightingId,
            Settles = [.. dispute.Sides.SelectMany(s => s.Ids)],
            Day = dispute.Day
        };
        (await garden.StoreAsync(other, choice)).Disputes.ShouldBeEmpty();
        (await garden.SightingsAsync())[^1].GrowthStage.ShouldBe(6);
    }

    [Fact]
    public async Task At_the_desk_too_somebody_chooses_between_two_records_of_a_day()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (one, other) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("walker 2"));
        await garden.BergamotAsync();
        await garden.StoreAsync(one, await garden.LookAsync(one, Flora.Bergamot, new() { Finding = Finding.Growing, GrowthStage = 6 }));
        var yardId = (await garden.SightingsAsync())[^1].YardId;
        (await garden.Disputes.OfYardAsync(yardId, Garden.Organiser)).ShouldBeEmpty();
        await garden.StoreAsync(other, await garden.LookAsync(other, Flora.Bergamot,
            new() { Finding = Finding.Growing, GrowthStage = 7 }, minutes: 5));
        (await garden.Disputes.OfYardAsync(yardId, Garden.Visitor)).ShouldBeEmpty();
        var dispute = (await garden.Disputes.OfYardAsync(yardId, Garden.Organiser)).ShouldHaveSingleItem();
        dispute.Sides.Select(s => (s.Who, s.Said.GrowthStage)).ShouldBe([("walker 1", 6), ("walker 2", 7)]);
        (await garden.Disputes.ChooseAsync(dispute, dispute.Sides[0], Garden.Visitor)).ShouldNotBeEmpty();
        (await garden.SightingsAsync())[^1].GrowthStage.ShouldBe(7);
        (await garden.Disputes.ChooseAsync(dispute, dispute.Sides[0], Garden.Organiser)).ShouldBeEmpty();
        (await garden.SightingsAsync())[^1].GrowthStage.ShouldBe(6);
        (await garden.Disputes.OfYardAsync(yardId, Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task An_edit_at_the_desk_ends_the_question_too()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (one, other) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("walker 2"));
        await garden.BergamotAsync();
        await garden.StoreAsync(one, await garden.LookAsync(one, Flora.Bergamot, new() { Finding = Finding.Growing, GrowthStage = 6 }));
        await garden.StoreAsync(other, await garden.LookAsync(other, Flora.Bergamot,
            new() { Finding = Finding.Growing, GrowthStage = 7 }, minutes: 5));
        var row = (await garden.SightingsAsync())[^1];
        var bed = (await garden.BedAsync()).Bed;
        (await garden.Correct.SaveAsync(row.Id, bed.Version,
            CommonGround.Web.Features.Record.Correction.Of(row, Flora.Bergamot) with { GrowthStage = 5 }, Garden.Organiser))
            .ShouldBeEmpty();
        (await garden.Disputes.OfYardAsync(row.YardId, Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task What_was_said_at_the_desk_on_the_same_day_stands_beside_the_walkers()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (walker, desk) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("somebody at the desk"));
        await garden.BergamotAsync();
        (await garden.SaveAsync(desk, Garden.Line(Flora.Bergamot, 3) with { GrowthStage = 7 })).Problems.ShouldBeEmpty();
        var dispute = (await garden.StoreAsync(walker, await garden.LookAsync(walker, Flora.Bergamot,
            new() { Finding = Finding.Growing, GrowthStage = 6, Place = "back" }))).Disputes.ShouldHaveSingleItem();
        dispute.Sides.Select(s => s.Said.GrowthStage).ShouldBe([6, 7], ignoreOrder: true);
        var now = (await garden.SightingsAsync())[^1];
        // What only one of them said holds in any case.
        (now.CoverSquareMetres, now.PlaceInBed).ShouldBe((3, "back"));
    }

    [Fact]
    public async Task A_note_taken_back_is_gone_even_where_the_taking_back_comes_first()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var note = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Ended });
        var back = Walking.Note(WalkNoteKind.Look, walker, 3) with { Over = [note.Id] };
        await garden.StoreAsync(walker, back);
        await garden.StoreAsync(walker, note);
        (await garden.SightingsAsync()).Count.ShouldBe(1);
        var again = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Ended }, minutes: 5);
        await garden.StoreAsync(walker, again);
        (await garden.SightingsAsync()).Count.ShouldBe(2);
        await garden.StoreAsync(walker, Walking.Note(WalkNoteKind.Look, walker, 6) with { Over = [again.Id] });
        (await garden.SightingsAsync()).Count.ShouldBe(1);
    }

    [Fact]
    public async Task Somebody_elses_notes_and_those_of_another_place_are_refused_and_say_so()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (one, other) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("walker 2"));
        await garden.BergamotAsync();
        var note = await garden.LookAsync(one, Flora.Bergamot, new() { Finding = Finding.Growing });
        (await garden.SendAsync(other, note)).Receipts.Single().Message.ShouldStartWith("Recorded by somebody else");
        (await garden.SendAsync(one, note with { NeighbourhoodId = 7 })).Receipts.Single()
            .Message.ShouldStartWith("Recorded in another neighbourhood");
        (await garden.SightingsAsync()).Count.ShouldBe(1);
    }

    [Fact]
    public async Task A_yard_that_is_gone_or_no_longer_theirs_refuses_its_notes_and_stores_the_others()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var here = await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing });
        var answer = await garden.SendAsync(walker, here with { Id = Guid.NewGuid(), Yard = "GONE-1" }, here);
        answer.Receipts.Select(r => r.State).ShouldBe([ReceiptState.Refused, ReceiptState.Stored], ignoreOrder: true);
        answer.Receipts.Single(r => r.State == ReceiptState.Refused).Message.ShouldContain("Nothing is lost");
        var neighbour = new CurrentUser(Role.Member, walker.MemberId, "a member", false);
        (await garden.SendAsync(neighbour, await garden.LookAsync(walker, Flora.Bergamot, new() { Finding = Finding.Growing }, 5)))
            .Receipts.Single().State.ShouldBe(ReceiptState.Refused);
    }

    [Theory]
    [InlineData("cover", "is more than the bed")]
    [InlineData("new", "Say how much ground")]
    [InlineData("name", "no plant called")]
    [InlineData("place", "at most 60 letters")]
    [InlineData("seed", "in grams")]
    public async Task What_cannot_be_is_refused_in_words_and_holds_nothing_else_up(string what, string words)
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var bad = await garden.LookAsync(walker, what == "name" ? "Planta nulla" : what == "new" ? Flora.Goldenrod : Flora.Bergamot,
            what switch
            {
                "cover" => new() { Finding = Finding.Growing, CoverSquareMetres = 250 },
                "place" => new() { Finding = Finding.Growing, Place = new string('x', 61) },
                "seed" => new() { Finding = Finding.Growing, SeedCollectedGrams = -1 },
                _ => new() { Finding = Finding.Growing },
            });
        var answer = await garden.SendAsync(walker, bad, await garden.LookAsync(walker, Flora.Bergamot,
            new() { Finding = Finding.Growing }, 5));
        answer.Receipts.Single(r => r.Id == bad.Id).Message.ShouldContain(words);
        answer.Receipts.Single(r => r.Id != bad.Id).State.ShouldBe(ReceiptState.Stored);
    }

    [Fact]
    public async Task A_name_the_catalogue_does_not_list_is_recorded_as_it_was_written()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.StoreAsync(walker, await garden.LookAsync(walker, "Monarda",
            new() { Finding = Finding.Growing, CoverSquareMetres = 0.5, Certainty = Certainty.Certain }) with
        { AsWritten = true });
        (await garden.Yards.GetAsync("N-1", Garden.Organiser))!.Beds[0].Plantings.Single().Taxon.Rank.ShouldBe(RecordedRank.Genus);
    }

    [Fact]
    public async Task Wildlife_unwanted_plants_and_the_walk_itself_are_stored_and_can_be_taken_back()
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var bee = Walking.Note(WalkNoteKind.Wildlife, walker) with
        {
            Taxon = Flora.Bergamot,
            BedId = (await garden.BedAsync()).Bed.Id,
            Wildlife = new(WildlifeKind.BumbleBee, CountClass.TwoToFive, "")
        };
        var weed = Walking.Note(WalkNoteKind.Unwanted, walker, 1) with
        {
            Taxon = Flora.Mustard,
            Unwanted = new(2, 50, 7, Certainty.Probable, "by the path")
        };
        var end = Walking.Note(WalkNoteKind.End, walker, 2) with { End = new(Walking.Noon.AddHours(-1), 41, 35) };
        await garden.StoreAsync(walker, bee, weed, end);
        var wildlife = await garden.AskAsync(db => db.Wildlife.SingleAsync());
        (wildlife.Kind, wildlife.CountClass, wildlife.ObservedOn, wildlife.TaxonId)
            .ShouldBe((WildlifeKind.BumbleBee, CountClass.TwoToFive, Garden.Today, (await garden.SightingsAsync())[0].TaxonId));
        var infestation = await garden.AskAsync(db => db.Infestations.SingleAsync());
        (infestation.AreaSquareMetres, infestation.CoverPercent, infestation.GrowthStage, infestation.Remarks)
            .ShouldBe((2, 50, 7, "probable name; by the path"));
        (await garden.AskAsync(db => db.Walks.SingleAsync())).Minutes.ShouldBe(41);
        (await garden.Yards.GetAsync("N-1", Garden.Organiser))!.Infestations.Count.ShouldBe(1);
        // A later word on the same plant and day takes the place of the first; then both are taken back.
        var more = Walking.Note(WalkNoteKind.Unwanted, walker, 5) with
        {
            Taxon = Flora.Mustard,
            Unwanted = new(10, 50, 8, Certainty.Certain, "")
        };
        await garden.StoreAsync(walker, more);
        (await garden.AskAsync(db => db.Infestations.SingleAsync())).AreaSquareMetres.ShouldBe(10);
        await garden.StoreAsync(walker, Walking.Note(WalkNoteKind.Wildlife, walker, 6) with { Over = [bee.Id] },
            Walking.Note(WalkNoteKind.Unwanted, walker, 7) with { Over = [weed.Id, more.Id] });
        (await garden.AskAsync(db => db.Wildlife.CountAsync())).ShouldBe(0);
        (await garden.AskAsync(db => db.Infestations.CountAsync())).ShouldBe(0);
    }
}
