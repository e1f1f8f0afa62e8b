using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>The walk in a real browser, with the network cut at every step. What was tapped is what is stored, once.</summary>
[Collection(WalkCollection.Name)]
public sealed class WalkTests(WalkedSite site, ITestOutputHelper output)
{
    [Fact]
    public async Task A_walk_without_signal_is_kept_through_a_closed_tab_and_stored_once_when_there_is_signal()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("CO-01");
        await phone.CutAsync();
        await phone.ReopenAsync("CO-01");
        await Expect(phone.Net).ToContainTextAsync("No signal");
        await phone.AsExpectedAsync();
        await phone.AsExpectedAsync();
        await phone.TapAsync("Not found this time");
        await phone.WaitingAsync(3);

        // The tab is closed in the middle, and opened again without signal.
        await phone.ReopenAsync("CO-01");
        await phone.WaitingAsync(3);
        await phone.TapAsync("Change");
        await phone.TapAsync("seed ripe");
        await phone.Page.GetByLabel("How much ground").FillAsync("0,5");
        await phone.Page.GetByLabel("Seed collected").FillAsync("12");
        await phone.TapAsync("not sure");
        await phone.TapAsync("left end");
        await phone.Page.GetByLabel("Remark").FillAsync("by the downspout");
        await phone.TapAsync("Keep and next plant");
        await phone.WaitingAsync(4);

        await phone.TapAsync("Wildlife");
        var bees = phone.Page.GetByRole(AriaRole.Button, new() { Name = "Bumble bee" });
        await bees.ClickAsync();
        await Expect(bees).ToContainTextAsync("one");
        await bees.ClickAsync();
        await Expect(bees).ToContainTextAsync("2 to 5");
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Back to the plants" }).ClickAsync();
        await phone.WaitingAsync(5);

        await phone.TapAsync("Weed");
        await phone.Page.GetByLabel("Another one").FillAsync("garlic mus");
        var mustard = phone.Page.GetByRole(AriaRole.Button, new() { Name = "garlic mustard" });
        // Its danger and what it is taken for stand there before the tap that keeps it.
        await Expect(mustard.Locator("small").First).ToBeVisibleAsync();
        await mustard.ClickAsync();
        await phone.TapAsync("a door, 2 m²");
        await phone.TapAsync("ripe seed");
        await phone.TapAsync("Back to the plants");
        await phone.WaitingAsync(6);

        await phone.TapAsync("New");
        await phone.Page.GetByLabel("Its name").FillAsync("butterflyweed");
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Asclepias tuberosa" }).ClickAsync();
        await phone.Page.GetByLabel("Or how many plants?").FillAsync("3");
        await phone.TapAsync("by itself");
        await phone.TapAsync("Keep");
        await phone.WaitingAsync(7);

        await phone.TapAsync("Photo");
        await phone.Page.GetByLabel("Or choose one").SetInputFilesAsync(new FilePayload
        {
            Name = "no.jpg",
            MimeType = "image/jpeg",
            Buffer = "<svg/>"u8.ToArray()
        });
        await Expect(phone.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("not a picture that the phone can read");
        await phone.Page.GetByLabel("Or choose one").SetInputFilesAsync(new FilePayload
        {
            Name = "it.jpg",
            MimeType = "image/jpeg",
            Buffer = Photograph.WithPlaceAndDay
        });
        await Expect(phone.Page.Locator("[data-photos='1']")).ToContainTextAsync("taken on July 3, 2026");
        await phone.TapAsync("Back to the plants");
        await phone.WaitingAsync(8);
        await phone.ReopenAsync("CO-01");
        await phone.WaitingAsync(8);
        (await site.SeenTodayAsync("CO-01")).ShouldBe(0);

        await phone.TapAsync("Stop");
        await Expect(phone.Page.GetByText("garlic mustard")).ToBeVisibleAsync();
        await phone.SignalAsync();
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Done" }).ClickAsync();
        await phone.WaitingAsync(0);
        await CheckAsync();
        phone.Errors.Where(e => !e.Contains("ERR_INTERNET_DISCONNECTED", StringComparison.Ordinal)).ShouldBeEmpty();
        await phone.CloseAsync();
    }

    private async Task CheckAsync()
    {
        var yard = await site.AskAsync(db => db.Yards.SingleAsync(y => y.Code == "CO-01"));
        var seen = await site.AskAsync(db => db.Sightings.Where(s => s.YardId == yard.Id && s.ObservedOn == new DateOnly(2026, 8, 19))
            .ToListAsync());
        seen.Count.ShouldBe(5);
        seen.Count(s => s.Finding == Finding.NotFound).ShouldBe(1);
        var changed = seen.Single(s => s.SeedCollectedGrams is not null);
        (changed.CoverSquareMetres, changed.GrowthStage, changed.Certainty, changed.PlaceInBed, changed.Remarks)
            .ShouldBe((0.5, 8, Certainty.Tentative, "left end", "by the downspout"));
        var fresh = seen.Single(s => s.Count == 3);
        (fresh.Origin, fresh.CoverDerived).ShouldBe((Origin.SelfSown, true));
        var wildlife = await site.AskAsync(db => db.Wildlife.SingleAsync(w => w.YardId == yard.Id));
        (wildlife.Kind, wildlife.CountClass, wildlife.TaxonId is not null).ShouldBe((WildlifeKind.BumbleBee, CountClass.TwoToFive, true));
        var weed = await site.AskAsync(db => db.Infestations.SingleAsync(i => i.YardId == yard.Id
            && i.ObservedOn == new DateOnly(2026, 8, 19)));
        (weed.AreaSquareMetres, weed.GrowthStage).ShouldBe((2, 8));
        var photo = await site.AskAsync(db => db.Photos.SingleAsync(p => p.YardId == yard.Id));
        (photo.TakenOn, photo.TaxonId is not null, photo.BedId is not null).ShouldBe((new(2026, 7, 3), true, true));
        (await site.AskAsync(db => db.Walks.SingleAsync(w => w.YardId == yard.Id))).Looked.ShouldBe(5);
    }

    [Fact]
    public async Task An_answer_that_is_lost_on_the_way_and_a_second_tab_store_nothing_twice()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("CO-04");
        await phone.CutAsync();
        await phone.AsExpectedAsync();
        await phone.AsExpectedAsync();
        await phone.WaitingAsync(2);
        var lost = new TaskCompletionSource();
        await phone.Page.RouteAsync("**/walk/data/notes", async route =>
        {
            await route.FetchAsync();
            await route.AbortAsync();
            lost.TrySetResult();
        });
        await phone.SignalAsync();
        await lost.Task;
        (await site.SeenTodayAsync("CO-04")).ShouldBe(2);
        await phone.WaitingAsync(2);
        var second = await phone.Page.Context.NewPageAsync();
        await second.GotoAsync($"{site.Address}/walk/");
        await Expect(second.Locator(".net")).ToHaveAttributeAsync("data-waiting", "0");
        // The first tab hears of it from the second.
        await phone.WaitingAsync(0);
        (await site.SeenTodayAsync("CO-04")).ShouldBe(2);
        await phone.CloseAsync();
    }

    [Fact]
    public async Task Somebody_else_who_is_signed_in_on_the_same_phone_does_not_send_it_as_theirs()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("KI-05");
        await phone.CutAsync();
        await phone.AsExpectedAsync();
        await phone.WaitingAsync(1);
        await phone.Page.Context.AddCookiesAsync([new() { Name = "cg-act", Value = "member", Url = site.Address }]);
        await phone.SignalAsync();
        await phone.Page.ReloadAsync();
        await Expect(phone.Page.GetByText("wait for somebody else to sign in")).ToBeVisibleAsync();
        await phone.WaitingAsync(1);
        (await site.SeenTodayAsync("KI-05")).ShouldBe(0);

        // Nobody is signed in any more: it says so, and nothing is lost.
        await phone.Page.Context.AddCookiesAsync([new() { Name = "cg-act", Value = "visitor", Url = site.Address }]);
        await phone.Page.ReloadAsync();
        await phone.Page.WaitForSelectorAsync("[data-ready=yes]");
        await phone.WaitingAsync(1);

        await phone.Page.Context.AddCookiesAsync([new() { Name = "cg-act", Value = "organiser", Url = site.Address }]);
        await phone.Page.ReloadAsync();
        await phone.WaitingAsync(0);
        (await site.SeenTodayAsync("KI-05")).ShouldBe(1);
        await phone.CloseAsync();
    }

    [Fact]
    public async Task A_full_phone_says_so_keeps_what_it_has_and_goes_on_when_there_is_room()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("CO-05");
        await phone.CutAsync();
        await phone.AsExpectedAsync();
        await phone.WaitingAsync(1);
        // As a full disk does it: the write is taken, and its transaction ends in nothing.
        await phone.Page
            .EvaluateAsync(
            "() => { const put = IDBObjectStore.prototype.put; window.room = () => { IDBObjectStore.prototype.put = put; }; "
                + "IDBObjectStore.prototype.put = function (...entry) { const asked = put.apply(this, entry); this.transaction.abort(); "
                + "return asked; }; }");
        await phone.Page.Locator("[data-expected=yes]").ClickAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("did not keep the last tap");
        await phone.WaitingAsync(1);
        await phone.Page.EvaluateAsync("() => window.room()");
        await phone.AsExpectedAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Alert)).ToHaveCountAsync(0);
        await phone.WaitingAsync(2);
        await phone.SignalAsync();
        await phone.WaitingAsync(0);
        (await site.SeenTodayAsync("CO-05")).ShouldBe(2);
        await phone.CloseAsync();
    }

    [Fact]
    public async Task A_note_of_another_version_waits_for_it_and_holds_up_no_other()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("CO-07");
        await phone.CutAsync();
        await phone.AsExpectedAsync();
        await phone.WaitingAsync(1);
        await phone.Page.EvaluateAsync("""
            () => new Promise(done => {
                const asked = indexedDB.open('commonground-walk');
                asked.onsuccess = () => {
                    const t = asked.result.transaction('queue', 'readwrite');
                    t.objectStore('queue').put('{"kind":"SomethingNew","id":"none"}', 'later');
                    t.oncomplete = () => done();
                };
            })
            """);
        await phone.ReopenAsync("CO-07");
        await Expect(phone.Net).ToContainTextAsync("1 note of another version waits for it");
        await phone.SignalAsync();
        await phone.WaitingAsync(0);
        await Expect(phone.Net).ToContainTextAsync("1 note of another version waits for it");
        (await site.SeenTodayAsync("CO-07")).ShouldBe(1);
        await phone.CloseAsync();
    }

    [Fact]
    public async Task Two_people_who_differ_see_both_records_side_by_side_and_one_chooses()
    {
        var one = await Phone.OpenAsync(site);
        var other = await Phone.OpenAsync(site, "administrator");
        await one.TakeAlongAsync("CO-06");
        await other.TakeAlongAsync("CO-06");
        await one.CutAsync();
        await one.TapAsync("Gone for good");
        await one.WaitingAsync(1);
        await other.CutAsync();
        await other.TapAsync("Not found this time");
        await other.WaitingAsync(1);
        await other.SignalAsync();
        await other.WaitingAsync(0);
        await one.SignalAsync();
        var both = one.Page.GetByRole(AriaRole.Group, new() { Name = "Two records of" });
        await Expect(both.GetByRole(AriaRole.Button)).ToHaveCountAsync(2);
        await both.GetByRole(AriaRole.Button, new() { Name = "not found" }).ClickAsync();
        await Expect(both).ToHaveCountAsync(0);
        await one.WaitingAsync(0);
        (await site.AskAsync(db => db.Sightings.Where(s => s.ObservedOn == new DateOnly(2026, 8, 19)
            && db.Yards.Any(y => y.Id == s.YardId && y.Code == "CO-06")).Select(s => s.Finding).SingleAsync())).ShouldBe(Finding.NotFound);
        await one.CloseAsync();
        await other.CloseAsync();
    }

    [Fact]
    public async Task An_unchanged_yard_of_over_a_hundred_plants_takes_one_tap_each()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("LA-07");
        await phone.CutAsync();
        var count = int.Parse((await phone.Page.Locator(".cur .q").InnerTextAsync()).Split(' ')[2],
            System.Globalization.CultureInfo.InvariantCulture);
        count.ShouldBeGreaterThan(100);
        var clock = System.Diagnostics.Stopwatch.StartNew();
        for (var taps = 1; taps <= count; taps++)
        {
            await phone.Page.Locator("[data-expected=yes]").ClickAsync();
            await phone.WaitingAsync(taps);
        }

        // No limit here: docs/performance.md says what it came to.
        output.WriteLine($"{count} plants, {count} taps, {clock.Elapsed.TotalSeconds:0.0} s of acting");
        await Expect(phone.Page.GetByText("All looked at")).ToBeVisibleAsync();
        clock.Restart();
        await phone.SignalAsync();
        await phone.WaitingAsync(0);
        output.WriteLine($"sent in {clock.Elapsed.TotalSeconds:0.0} s");
        (await site.SeenTodayAsync("LA-07")).ShouldBe(count);
        await phone.CloseAsync();
    }
}
