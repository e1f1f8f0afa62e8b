using System.Text;
using System.Text.RegularExpressions;

namespace CommonGround.Web.Tests;

/// <summary>A line break and what stands before the next word is one blank in a page, as for whoever reads it.</summary>
internal sealed partial class WordsOfPages : DelegatingHandler
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var answer = await base.SendAsync(request, cancellationToken);
        if (answer.Content.Headers.ContentType is { MediaType: "text/html" } type && answer.Content.Headers.ContentEncoding.Count == 0)
        {
            var words = LineBreak().Replace(await answer.Content.ReadAsStringAsync(cancellationToken), " ");
            answer.Content.Dispose();
            answer.Content = new StringContent(words, Encoding.UTF8, type.MediaType);
        }

        return answer;
    }

    [GeneratedRegex(@"\r?\n\s*")]
    private static partial Regex LineBreak();
}
