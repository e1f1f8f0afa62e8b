using System.Net;

namespace CommonGround.Web.Tests.Features.Yards;

/// <summary>Labels of a yard of the demo: for those who may see the yard, and without anything of it on them.</summary>
[Collection(SiteTests.Name)]
public sealed class YardLabelsTests(DemoSite site)
{
    [Theory]
    [InlineData("/yards/KI-05/labels.pdf")]
    [InlineData("/yards/KI-05/labels.pdf?stock=a4-stakes&plant=monarda-fistulosa")]
    [InlineData("/yards/KI-05/sign.pdf?paper=a4&ask=the+organisers")]
    public async Task Organisers_get_a_pdf_and_visitors_get_nothing(string path)
    {
        using var organiser = site.Browser("organiser");
        var bytes = await organiser.GetByteArrayAsync(path);
        System.Text.Encoding.ASCII.GetString(bytes, 0, 5).ShouldBe("%PDF-");
        System.Text.Encoding.Latin1.GetString(bytes).ShouldNotContain("KI-05");
        using var visitor = site.Browser("visitor");
        (await visitor.GetAsync(path)).StatusCode.ShouldNotBe(HttpStatusCode.OK);
    }

    [Theory]
    [InlineData("/yards/KI-05/labels.pdf?stock=letter-7", HttpStatusCode.BadRequest)]
    [InlineData("/yards/KI-05/labels.pdf?plant=no-such-plant", HttpStatusCode.NotFound)]
    [InlineData("/yards/KI-05/sign.pdf?paper=a3", HttpStatusCode.BadRequest)]
    [InlineData("/yards/XX-99/sign.pdf", HttpStatusCode.NotFound)]
    public async Task What_cannot_be_printed_is_refused(string path, HttpStatusCode status)
    {
        using var organiser = site.Browser("organiser");
        (await organiser.GetAsync(path)).StatusCode.ShouldBe(status);
    }
}
