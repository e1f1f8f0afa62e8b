using System.Net;
using CommonGround.Web.Features.Community;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Layout;

/// <summary>Whoever comes while the figures are still being read waits a moment and gets the page.</summary>
[Collection(SiteTests.Name)]
public class FirstVisitTests(DemoSite demo)
{
    [Fact]
    public async Task Visitors_who_come_together_before_the_matrix_is_read_all_get_the_page()
    {
        demo.Services.GetRequiredService<LiveCommunity>().Forget();
        using var browser = demo.Browser();
        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => browser.GetAsync("/")));
        answers.ShouldAllBe(a => a.StatusCode == HttpStatusCode.OK);
        foreach (var answer in answers)
        {
            (await answer.Content.ReadAsStringAsync()).ShouldContain("In flower");
        }
    }
}
