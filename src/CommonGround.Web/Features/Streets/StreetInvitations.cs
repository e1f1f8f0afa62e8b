using CommonGround.Drawings.Scenes;
using CommonGround.Reports.Charts;
using CommonGround.Reports.StreetInvitations;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>Invitations to a street. Whoever prints one, it is made of what everybody may see: it is handed round.</summary>
public sealed class StreetInvitations(StreetQueries streets, LateSeasonQueries late, Likenesses likenesses,
    CurrentNeighbourhood neighbourhood)
{
    /// <summary>Letters of whom to ask, as typed.</summary>
    public const int LongestAsk = 120;

    private const double DrawingPixels = 130, ChartWidth = 820;

    /// <summary>The invitation; null where there is no such street.</summary>
    /// <param name="street">Its name; empty takes the first.</param>
    /// <param name="ask">Whom to ask.</param>
    /// <param name="page">The street's public page.</param>
    public async Task<StreetInvitation?> GetAsync(string street, string ask, Func<string, string> page, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(page);
        var everybody = new CurrentUser(Role.Visitor, null, "everybody", false) { NeighbourhoodId = neighbourhood.Id };
        var figures = await streets.FiguresAsync(everybody, cancel);
        var at = figures.Matrix.Streets.Index().Where(s => street.Length == 0 || s.Item.Name == street).Select(s => (int?)s.Index)
            .FirstOrDefault();
        if (at is not { } found)
        {
            return null;
        }

        var (name, site) = (figures.Matrix.Streets[found].Name, figures.Streets[found]);
        var typed = ask.Trim();
        var invitation = new StreetInvitation
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            Street = name,
            AsOf = figures.Matrix.AsOf,
            Headline = $"Who begins on {name}?",
            Lead = $"Neighbours in {neighbourhood.Name} turn pieces of lawn into native plantings. Once three yards of your block take "
                + "part, its own picture stands here: which weeks it flowers, and when bees find nothing.",
            Ask = typed.Length <= LongestAsk ? typed : typed[..LongestAsk],
            Address = page(name),
        };
        if (site.Yards < Figures.YardsToShow)
        {
            return invitation;
        }

        var blocks = (await late.BlocksAsync(figures, everybody, cancel)).Where(b => figures.Matrix.Blocks[b.Block].Street == found)
            .ToList();
        var plants = blocks.SelectMany(b => b.Plants).GroupBy(p => p.Taxon).OrderByDescending(g => g.Count())
            .ThenBy(g => g.Key.DisplayName, StringComparer.Ordinal).Select(g => g.Key).Take(StreetInvitation.MostPlants).ToList();
        return invitation with
        {
            Headline = Headline(figures, name, blocks),
            Lead = Lead(figures, blocks, plants.Count),
            Year = StreetsYearChart.Draw([(name, Figures.InFlower(site))], figures.Season, null, ChartWidth),
            Map = LateMapChart.Of(figures, await streets.ShapesAsync(cancel), found),
            Plants = [.. plants.Select(t => (t.DisplayName, HalfMonthWords.RunShort(t.Bloom!.Value.Start, t.Bloom.Value.End),
                Portrait.Small(likenesses.Of(t), DrawingPixels)))],
        };
    }

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/streets/invitation.pdf", async (string? street, string? ask,
        string? paper, HttpContext http, StreetInvitations invitations) =>
    {
        if (YardReportFile.Paper(paper ?? "letter") is not { } size)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        string Page(string name) => $"{http.Request.Scheme}://{http.Request.Host}{StreetsWords.StreetAddress(name)}";
        if (await invitations.GetAsync(street ?? "", ask ?? "", Page, http.RequestAborted) is not { } invitation)
        {
            return Results.NotFound();
        }

        using var pdf = new MemoryStream();
        invitation.Write(size, pdf);
        return Results.File(pdf.ToArray(), "application/pdf");
    }).InTurn().For(Permission.SeePublic);

    private static string Headline(Figures figures, string street, List<LateBlock> blocks)
    {
        var open = blocks.Where(b => b.Covered < figures.LateHalves).ToList();
        return open.Count == 0 ? $"{street} flowers to {HalfMonthWords.LastDay(figures.Season.Last)}"
            : open.Count == blocks.Count ? $"{street} runs out of flowers late in the year"
            : $"{Words.Spelled(open.Count)} of {Words.Spelled(blocks.Count).ToLowerInvariant()} blocks of {street} run out of flowers "
                + "late in the year";
    }

    private static string Lead(Figures figures, List<LateBlock> blocks, int plants)
    {
        var norm = Words.Spelled(figures.Season.Norm).ToLowerInvariant();
        var (now, after, all) = (blocks.Sum(b => b.Covered), blocks.Sum(b => b.After), blocks.Count * figures.LateHalves);
        return $"From {HalfMonthWords.FirstDay(figures.Season.LateFrom)} we count a block as flowering while {norm} native kinds are "
            + $"in flower on it. Today the street’s blocks are in {now} of {all} half-months. " + (after == now || plants == 0
            ? "More of what grows here keeps it so."
            : $"With a few kinds such as those below in one yard of each block, it would be {after} once they are grown.");
    }
}
