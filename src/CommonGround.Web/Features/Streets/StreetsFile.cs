using CommonGround.Web.Access;
using CommonGround.Web.Commands;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Streets;

/// <summary>The streets' measures as a file, as far as the asker may see them.</summary>
public static class StreetsFile
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/streets.csv",
        async (HttpContext http, CurrentUserQueries viewers, StreetQueries streets, CurrentNeighbourhood neighbourhood) =>
    {
        var figures = await streets.FiguresAsync(await viewers.ForAsync(http), http.RequestAborted);
        var sites = figures.Matrix.Streets.Select((s, i) => new MeasuredSite("street", s.Name, figures.Streets[i]))
            .Where(s => s.Measures.Yards >= Figures.YardsToShow).ToList();
        return Results.Text(MeasuresText.Csv(sites, figures.Matrix.AsOf, MeasuresBasis.Of(neighbourhood, figures.Dates)),
            "text/csv; charset=utf-8");
    }).For(Permission.SeePublic);
}
