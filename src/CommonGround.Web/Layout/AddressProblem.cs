using Microsoft.AspNetCore.WebUtilities;

namespace CommonGround.Web.Layout;

/// <summary>What is said of an address that leads nowhere: what it seems to ask for, and where that is found.</summary>
/// <param name="Title">The heading.</param>
/// <param name="Words">What is wrong, in a sentence or two.</param>
/// <param name="Links">Where to go instead.</param>
public sealed record AddressProblem(string Title, string Words, IReadOnlyList<(string Href, string Word)> Links)
{
    /// <summary>Reads an address; pure.</summary>
    /// <param name="path">Its path, beginning with a slash.</param>
    /// <param name="query">Its query with the question mark, or nothing.</param>
    public static AddressProblem Of(string path, string query)
    {
        ArgumentNullException.ThrowIfNull(path);
        var asked = QueryHelpers.ParseQuery(query);
        if (path.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase) && asked.TryGetValue("paper", out var paper)
            && paper.ToString() is not ("letter" or "a4"))
        {
            return new("There is no such paper", $"Reports are printed on letter or a4; the address asks for “{Short(paper.ToString())}”.",
                [(path, "The report on letter"), (path + "?paper=a4", "The report on A4")]);
        }

        return path.Split('/', StringSplitOptions.RemoveEmptyEntries) switch
        {
            ["streets"] when asked.TryGetValue("block", out var block) =>
                new("There is no such block", $"No block has the number “{Short(block.ToString())}”, or the public does not see it. It "
                    + $"may have been taken out of the record.", [("/streets", "All streets and blocks")]),
            ["yards", var code, .. ([] or ["keep" or "record" or "plan" or "report.pdf"])] =>
                new($"Yard {Short(Uri.UnescapeDataString(code))} cannot be opened",
                    "Either there is no yard of this code, or it is not yours to see: a yard is private to its household and organisers. "
                        + "Codes look like KI-12.", [("/yards", "The yards you can open")]),
            ["plants", _] => new("The catalogue has no plant at this address",
                "The name in the address may have a slip in it, or the plant is not in this group's catalogue.",
                    [("/plants", "Look through the plants")]),
            ["plans", _] or ["plans", _, "report.pdf" or "shopping.csv" or "shopping.xlsx"] => new("This plan cannot be opened",
                "Either there is no such plan, or it is not yours to see.", [("/plans", "Your plans")]),
            _ => new("There is no page at this address", "It may have moved, or the address may have a slip in it.", []),
        };
    }

    private static string Short(string text) => text.Length <= 40 ? text : text[..39] + "…";
}
