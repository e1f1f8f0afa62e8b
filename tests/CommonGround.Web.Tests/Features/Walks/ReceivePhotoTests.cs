using System.Net;
using System.Text.Json;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Tests.Access;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Walks;

/// <summary>Photos of a walk over HTTP, as a phone sends them, and answers to what is no walk.</summary>
public sealed class ReceivePhotoTests(FreshSite site) : IClassFixture<FreshSite>
{
    [Fact]
    public async Task A_photo_of_a_plant_is_stored_once_with_its_day_and_shown_in_the_plantings_history()
    {
        using var who = await site.JoinAsync(Role.Member);
        var by = await site.ViewerAsync(who.Email);
        var yard = await site.RegisterAsync(by);
        var id = await site.SightingAsync(yard, by);
        var sighting = await site.AskAsync(db => db.Sightings.AsNoTracking().SingleAsync(s => s.Id == id));
        var note = Note(by.MemberId, yard.Code) with { LastSightingId = sighting.Id, Photo = new(new(2026, 7, 3), "smooth blue aster") };
        (await SendAsync(who.Browser, note, Neighbours.Picture)).State.ShouldBe(ReceiptState.Stored);
        (await SendAsync(who.Browser, note, Neighbours.Picture)).State.ShouldBe(ReceiptState.StoredBefore);
        var photo = await site.AskAsync(db => db.Photos.SingleAsync(p => p.YardId == yard.Id));
        (photo.TakenOn, photo.BedId, photo.TaxonId).ShouldBe((new(2026, 7, 3), sighting.BedId, sighting.TaxonId));
        await using var scope = site.Stand();
        (await scope.Get<PhotoQueries>().OfPlantingAsync(yard.Id, sighting.BedId, sighting.TaxonId, "", by)).Single().Id.ShouldBe(photo.Id);
        (await scope.Get<PhotoQueries>().OfPlantingAsync(yard.Id, sighting.BedId, sighting.TaxonId, "", by with { MemberId = 1 }))
            .ShouldBeEmpty();
    }

    [Fact]
    public async Task What_is_no_photo_is_refused_in_words_and_stays_on_the_phone()
    {
        using var who = await site.JoinAsync(Role.Member);
        var by = await site.ViewerAsync(who.Email);
        var yard = await site.RegisterAsync(by);
        var receipt = await SendAsync(who.Browser, Note(by.MemberId, yard.Code), "<svg/>"u8.ToArray());
        (receipt.State, receipt.Message).ShouldBe((ReceiptState.Refused,
            "This is no JPEG, PNG or WebP picture, whatever its name says. Phones that save HEIC can share a photo as JPEG: bring that."));
        (await SendAsync(who.Browser, Note(by.MemberId, yard.Code), new byte[11 * 1024 * 1024])).Message.ShouldContain("up to 10 MB");
        (await SendAsync(who.Browser, Note(by.MemberId, "GONE-1"), Neighbours.Picture)).State.ShouldBe(ReceiptState.Refused);
        (await site.AskAsync(db => db.Photos.CountAsync(p => p.YardId == yard.Id))).ShouldBe(0);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{\"sentAtUtc\":\"2026-08-19T12:00:00Z\",\"notes\":[null]}")]
    [InlineData("{\"sentAtUtc\":\"2026-08-19T12:00:00Z\",\"notes\":[{\"kind\":\"Dance\"}]}")]
    [InlineData("{\"sentAtUtc\":\"never\",\"notes\":[]}")]
    public async Task What_is_no_walk_is_answered_in_words(string body)
    {
        using var who = await site.JoinAsync(Role.Member);
        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        content.Headers.Add("RequestVerificationToken", await who.Browser.GetStringAsync("/walk/data/proof"));
        using var answer = await who.Browser.PostAsync("/walk/data/notes", content);
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await answer.Content.ReadAsStringAsync()).ShouldContain("Nothing was stored");
    }

    private static WalkNote Note(long? member, string yard) =>
        new(Guid.NewGuid(), Guid.NewGuid(), WalkNoteKind.Photo, member, 1, DateTime.UtcNow, DateTime.UtcNow,
            yard)
        { Photo = new(new(2026, 8, 1), "") };

    private static async Task<WalkReceipt> SendAsync(HttpClient browser, WalkNote note, byte[] picture)
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent(JsonSerializer.Serialize(new WalkBatch(DateTime.UtcNow, [note]), WalkJson.Default.WalkBatch)), "batch" },
            { new ByteArrayContent(picture), "photo", "photo.jpg" },
        };
        using var ask = new HttpRequestMessage(HttpMethod.Post, "/walk/data/photos") { Content = form };
        ask.Headers.Add("RequestVerificationToken", await browser.GetStringAsync("/walk/data/proof"));
        using var answer = await browser.SendAsync(ask);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        return JsonSerializer.Deserialize(await answer.Content.ReadAsStringAsync(), WalkJson.Default.WalkAnswer)!.Receipts.Single();
    }
}
