using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Tests.Features.Walks;

/// <summary>
/// Two phones and one desk on a real database: whatever the order in which their saves arrive, in whatever batches and how often, the
/// record comes to the same. What is said at the desk is of the last day that is walked: as on every page, a line for an earlier day
/// changes no later record.
/// </summary>
public sealed class WalkMergeTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task Two_phones_and_one_desk_come_to_the_same_whatever_the_order(int seed)
    {
        var results = new List<string>();
        for (var order = 0; order < 5; order++)
        {
            results.Add(await PlayAsync(seed, new Random((seed * 1000) + order)));
        }

        results.Distinct(StringComparer.Ordinal).ShouldHaveSingleItem();
    }

    private static async Task<string> PlayAsync(int seed, Random order)
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.BergamotAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Symphyotrichum laeve,2025-08-01,1.5\n"));
        var (one, other, desk) = (await garden.WalkerAsync("walker 1"), await garden.WalkerAsync("walker 2"),
            await garden.WalkerAsync("the desk"));
        var plan = new Random(seed);
        var (first, second) = (await NotesAsync(garden, one, plan), await NotesAsync(garden, other, plan));
        var line = Garden.Line(Flora.Smooth, plan.Next(1, 9) / 4.0) with
        {
            GrowthStage = plan.Next(2) == 0 ? plan.Next(5, 9) : null,
            Certainty = plan.Next(2) == 0 ? Certainty.Probable : null
        };
        var waiting = new List<(CurrentUser By, List<WalkNote> Notes)> { (one, first), (other, second) };
        var deskDone = false;
        while (waiting.Exists(w => w.Notes.Count > 0) || !deskDone)
        {
            if (!deskDone && order.Next(4) == 0)
            {
                deskDone = true;
                (await garden.SaveAsync(desk, line with { SameDay = SameDay.InPlace })).Problems.ShouldBeEmpty();
                continue;
            }

            var (by, notes) = waiting[order.Next(2)];
            var batch = notes.OrderBy(_ => order.Next()).Take(1 + order.Next(3)).ToList();
            notes.RemoveAll(batch.Contains);
            await garden.SendAsync(by, [.. batch, .. batch.Take(order.Next(2))]);
            if (order.Next(4) == 0)
            {
                // The answer got lost: it is sent again.
                (await garden.SendAsync(by, [.. batch])).Receipts.ShouldAllBe(r => r.State == ReceiptState.StoredBefore);
            }
        }

        return string.Join('\n', (await garden.SightingsAsync()).OrderBy(s => s.ObservedOn).ThenBy(s => s.TaxonId).Select(s =>
            $"{s.ObservedOn:O} {s.TaxonId} {s.Finding} {s.CoverSquareMetres} {s.Count} {s.GrowthStage} {s.Origin} {s.Certainty} "
                + $"{s.Qualifier} {s.PlaceInBed} {s.Remarks} {s.SeedCollectedGrams}"));
    }

    /// <summary>Taps of one phone: bergamot on three days with everything that can be said, the aster on the last day.</summary>
    private static async Task<List<WalkNote>> NotesAsync(Garden garden, CurrentUser by, Random plan)
    {
        var notes = new List<WalkNote>();
        for (var i = 0; i < 5; i++)
        {
            var day = plan.Next(3);
            var note = await garden.LookAsync(by, Flora.Bergamot, Said(plan), plan.Next(-50, 50)) is var look
                ? look with { SaidAtUtc = look.SaidAtUtc.AddDays(-day) } : look;
            notes.Add(note with { Over = [.. notes.Where(_ => plan.Next(8) == 0).Select(n => n.Id)] });
        }

        notes.Add(await garden.LookAsync(by, Flora.Smooth, Said(plan) with { Finding = Finding.Growing }, plan.Next(-50, 50)));
        return notes;
    }

    private static LookSaid Said(Random plan) => new()
    {
        Finding = plan.Next(4) == 0 ? Finding.NotFound : Finding.Growing,
        GrowthStage = plan.Next(2) == 0 ? null : plan.Next(10),
        Certainty = plan.Next(3) == 0 ? (Certainty)plan.Next(3) : null,
        Place = plan.Next(3) == 0 ? "front" : null,
        SeedCollectedGrams = plan.Next(3) == 0 ? plan.Next(1, 20) : null,
        Remark = plan.Next(3) == 0 ? "seen " + plan.Next(3) : null,
    };
}
