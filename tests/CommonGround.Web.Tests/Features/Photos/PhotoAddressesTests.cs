using System.IO.Compression;
using System.Net;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Photos;

/// <summary>Who is sent a photo, on the real server of a real group.</summary>
[Collection(SiteTests.Name)]
public class PhotoAddressesTests(GroupSite site)
{
    [Fact]
    public async Task A_photo_is_sent_to_its_household_and_organisers_and_to_everyone_only_while_the_household_agrees()
    {
        using var ben = await site.JoinAsync(Role.Member);
        using var other = await site.JoinAsync(Role.Member);
        using var ada = await site.AdministratorAsync();
        using var stranger = site.Browser();
        await using var scope = site.Services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<NeighbourhoodContext>().Use(1);
        var currentUser = await ViewerAsync(scope.ServiceProvider, ben.Email);
        var (yard, code) = await YardAsync(scope.ServiceProvider, currentUser);
        (await scope.ServiceProvider.GetRequiredService<YardPhotos>().AddAsync(yard,
            new PhotoDraft { Caption = "by the gate", TakenOn = new(2026, 8, 1) }, YardPhotosTests.Jpeg, currentUser)).ShouldBeEmpty();
        var id = (await scope.ServiceProvider.GetRequiredService<PhotoQueries>().OfYardAsync(yard, currentUser)).ShouldHaveSingleItem().Id;
        var (inner, open) = ($"/yards/{code}/photos/{id}", $"/photos/{id}");

        foreach (var one in new[] { ben.Browser, ada })
        {
            var answer = await one.GetAsync(inner);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK);
            (await answer.Content.ReadAsByteArrayAsync()).ShouldBe(YardPhotosTests.Stored(YardPhotosTests.Jpeg));
            (answer.Content.Headers.ContentType!.ToString(), answer.Content.Headers.ContentDisposition!.ToString(),
                answer.Headers.CacheControl!.ToString(), answer.Headers.GetValues("X-Content-Type-Options")
                    .Single()).ShouldBe(("image/jpeg", "inline", "no-store", "nosniff"));
            (await one.GetAsync(open)).StatusCode.ShouldBe(HttpStatusCode.NotFound);
        }

        (await other.Browser.GetAsync(inner)).StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await stranger.GetAsync(inner)).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        var keeping = scope.ServiceProvider.GetRequiredService<YardSettings>();
        (await keeping.ConsentAsync(yard, new Consents(false, false, true), currentUser)).ShouldBeEmpty();
        (await stranger.GetAsync(open)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await keeping.ConsentAsync(yard, new Consents(false, false, false), currentUser)).ShouldBeEmpty();
        (await stranger.GetAsync(open)).StatusCode.ShouldBe(HttpStatusCode.NotFound);

        using var zip = new ZipArchive(await ben.Browser.GetStreamAsync("/account/data.zip"));
        var taken = zip.Entries.Single(e => e.FullName.Contains("/photos/", StringComparison.Ordinal)
            && e.FullName.EndsWith(".jpg", StringComparison.Ordinal));
        using var copy = new MemoryStream();
        await (await taken.OpenAsync()).CopyToAsync(copy);
        copy.ToArray().ShouldBe(YardPhotosTests.Stored(YardPhotosTests.Jpeg));
    }

    private static async Task<CurrentUser> ViewerAsync(IServiceProvider services, string email)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1).CreateDbContextAsync();
        var account = (await db.Users.SingleAsync(a => a.Email == email)).Id;
        return await db.Members.Where(m => m.AccountId == account).Select(m => new CurrentUser(m.Role, m.Id, m.Name, false, "system"))
            .SingleAsync();
    }

    private static async Task<(long Id, string Code)> YardAsync(IServiceProvider services, CurrentUser by)
    {
        const string code = "PH-01";
        await using var db = await services.GetRequiredService<IDbContextFactory<CommonGroundDb>>().In(1).CreateDbContextAsync();
        var street = new Street { NeighbourhoodId = 1, Id = RowIds.Next(), Name = "Photo Street" };
        var block = new StreetBlock
        {
            NeighbourhoodId = 1,
            Id = RowIds.Next(),
            StreetId = street.Id,
            Name = "A to B",
            MiddleLatitude = 41.5,
            MiddleLongitude = -88.5
        };
        var yard = new Yard
        {
            NeighbourhoodId = 1,
            Id = RowIds.Next(),
            BlockId = block.Id,
            Code = code,
            Latitude = 41.5,
            Longitude = -88.5,
            AreaSquareMetres = 300,
            OwnerId = by.MemberId
        };
        db.AddRange(street, block, yard);
        await db.SaveAsync(by.Note("a test"));
        services.GetRequiredService<LiveCommunity>().Forget();
        return (yard.Id, code);
    }
}
