using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Labels;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>Labels, stakes and a sign for a yard's plants. They say what grows there and nothing of the yard: a label may stand at the
/// street.</summary>
public sealed class YardLabels(YardQueries yards, Likenesses likenesses, CurrentNeighbourhood neighbourhood)
{
    /// <summary>Of whom to ask, as typed.</summary>
    public const int LongestAsk = 120;

    private const double DrawingPixels = 130;
    private const int OnASign = 4;

    /// <summary>The plants of a yard that a label can name, by first bloom: those whose name is certain; null when there is no such yard or
    /// the reader may not see it.</summary>
    public async Task<IReadOnlyList<CatalogueTaxon>?> PlantsAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        return await yards.BedsAsync(code, currentUser, cancel) is { } beds
            ? [.. beds.SelectMany(b => b.Plantings).Where(p => p.Certainty == Certainty.Certain && p.Qualifier.Length == 0)
                .Select(p => p.Taxon).DistinctBy(t => t.ScientificName)] : null;
    }

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/yards/{code}/labels.pdf", async (string code, string? stock, string[]? plant, HttpContext http,
            CurrentUserQueries viewers, YardLabels labels) =>
        {
            if (LabelStock.All.FirstOrDefault(s => s.Id == (stock ?? LabelStock.All[0].Id)) is not { } sheet)
            {
                return Results.StatusCode(StatusCodes.Status400BadRequest);
            }

            var plants = await labels.PlantsAsync(code, await viewers.ForAsync(http), http.RequestAborted);
            // A form without a tick asks for all: an empty sheet helps nobody.
            var chosen = plant is { Length: > 0 } ? plants?.Where(t => plant.Contains(PlantLink.Slug(t.ScientificName))).ToList() : plants;
            if (chosen is not { Count: > 0 })
            {
                return Results.NotFound();
            }

            using var pdf = new MemoryStream();
            LabelDocument.Write([.. chosen.Select(t => labels.Of(t, Site(http)))], sheet, labels.Place, pdf);
            return Results.File(pdf.ToArray(), "application/pdf");
        }).InTurn().For(Permission.SeeYard);

        app.MapGet("/yards/{code}/sign.pdf", async (string code, string? paper, string? ask, HttpContext http, CurrentUserQueries viewers,
            YardLabels labels) =>
        {
            if (YardReportFile.Paper(paper ?? "letter") is not { } size)
            {
                return Results.StatusCode(StatusCodes.Status400BadRequest);
            }

            if (await labels.PlantsAsync(code, await viewers.ForAsync(http), http.RequestAborted) is not { } plants)
            {
                return Results.NotFound();
            }

            using var pdf = new MemoryStream();
            labels.Sign(plants, ask ?? "", Site(http)).Write(size, pdf);
            return Results.File(pdf.ToArray(), "application/pdf");
        }).InTurn().For(Permission.SeeYard);
    }

    private string Place => neighbourhood.Name;

    private PlantLabel Of(CatalogueTaxon taxon, string site) => new(taxon.DisplayName, taxon.ScientificName,
        Portrait.Small(likenesses.Of(taxon), DrawingPixels), taxon.Bloom,
        (taxon.Bloom is { } bloom ? $"flowers {HalfMonthWords.RunShort(bloom.Start, bloom.End)}"
            : taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge ? "a grass or sedge, pollinated by wind" : "")
            + (neighbourhood.IsDemo ? " · invented demo" : ""),
        taxon.Bloom is null ? "" : taxon.FlowerColour, site + PlantLink.To(taxon));

    /// <summary>With natives in flower at different times, as far as the yard has them.</summary>
    private EdgeSign Sign(IReadOnlyList<CatalogueTaxon> plants, string ask, string site)
    {
        var natives = plants.Where(t => t.Nativity == Nativity.Native && t.Bloom is not null).ToList();
        var shown = Enumerable.Range(0, Math.Min(OnASign, natives.Count))
            .Select(i => natives[i * natives.Count / Math.Min(OnASign, natives.Count)]).ToList();
        var typed = ask.Trim();
        return new EdgeSign(neighbourhood.Name, typed.Length <= LongestAsk ? typed : typed[..LongestAsk],
            [.. shown.Select(t => Portrait.Small(likenesses.Of(t), DrawingPixels))], [.. shown.Select(t => t.DisplayName)],
            site + "/streets")
        { Demo = neighbourhood.IsDemo };
    }

    private static string Site(HttpContext http) => $"{http.Request.Scheme}://{http.Request.Host}";
}
