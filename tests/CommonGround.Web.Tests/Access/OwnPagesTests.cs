using CommonGround.Storage.Members;

namespace CommonGround.Web.Tests.Access;

/// <summary>Pages of the menu that name no yard in their address.</summary>
public sealed class OwnPagesTests(FreshSite site) : IClassFixture<FreshSite>
{
    [Fact]
    public async Task A_member_with_several_yards_chooses_one_from_the_menus_pages()
    {
        using var who = await site.JoinAsync(Role.Member);
        var by = await site.ViewerAsync(who.Email);
        var (one, other) = (await site.RegisterAsync(by), await site.RegisterAsync(by));
        foreach (var path in new[] { "/record", "/plans" })
        {
            var page = await who.Browser.GetStringAsync(path);
            page.ShouldNotContain("This cannot be opened", customMessage: path);
            page.ShouldContain(one.Code, customMessage: path);
            page.ShouldContain(other.Code, customMessage: path);
        }
    }
}
