using System.Text.Json;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Antiforgery;

namespace CommonGround.Web.Features.Walks;

/// <summary>What the walk on a phone asks the site for and sends to it. Its own files are served with all others.</summary>
public static class WalkAddresses
{
    private const string Proof = "RequestVerificationToken";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/walk/data/pack", async (HttpContext http, CurrentUserQueries viewers, WalkQueries walks) =>
            Results.Json(await walks.PackAsync(await viewers.ForAsync(http), http.RequestAborted), WalkJson.Default.WalkPack))
                .For(Permission.RecordInYard);
        app.MapGet("/walk/data/yards", async (HttpContext http, CurrentUserQueries viewers, WalkQueries walks) =>
            Results.Text(await walks.YardLinesAsync(await viewers.ForAsync(http), http.RequestAborted))).For(Permission.RecordInYard);
        app.MapGet("/walk/data/catalogue", async (HttpContext http, WalkQueries walks) =>
            Results.Json(await walks.NamesAsync(http.RequestAborted), WalkJson.Default.ListWalkTaxon)).For(Permission.SeePublic);
        // Fetched anew before each sending: it holds for who is signed in then, and a walk may lie days back.
        app.MapGet("/walk/data/proof", (HttpContext http, IAntiforgery antiforgery) =>
            Results.Text(antiforgery.GetAndStoreTokens(http).RequestToken)).For(Permission.RecordInYard);
        app.MapPost("/walk/data/notes", ReceiveAsync).DisableAntiforgery().For(Permission.RecordInYard);
        app.MapPost("/walk/data/photos", ReceivePhotoAsync).DisableAntiforgery().For(Permission.RecordInYard);
        // Every address of the walk is the same page; the phone knows which yard it shows. Without the last stroke its service worker
        // would not reach it.
        app.MapGet("/walk/{**path:nonfile}", (HttpContext http, IWebHostEnvironment host) => http.Request.Path == "/walk"
            ? Results.LocalRedirect("/walk/")
            : Results.Stream(host.WebRootFileProvider.GetFileInfo("walk/index.html").CreateReadStream(), "text/html; charset=utf-8"))
                .For(Permission.SeePublic);
    }

    private static async Task<IResult> ReceiveAsync(HttpContext http, IAntiforgery antiforgery, CurrentUserQueries viewers,
        ReceiveWalk receive)
    {
        if (!await antiforgery.IsRequestValidAsync(http))
        {
            return Unproved();
        }

        WalkBatch? batch;
        try
        {
            batch = await http.Request.ReadFromJsonAsync(WalkJson.Default.WalkBatch, http.RequestAborted);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            batch = null;
        }

        return batch is not { Notes.Count: <= ReceiveWalk.Most } || batch.Notes.Any(n => n is null)
            ? Results.Text($"This is no walk of up to {ReceiveWalk.Most} notes. Nothing was stored; load the walk again with signal.",
                statusCode: StatusCodes.Status400BadRequest)
            : Results.Json(await receive.SaveAsync(batch, await viewers.ForAsync(http), http.RequestAborted), WalkJson.Default.WalkAnswer);
    }

    private static async Task<IResult> ReceivePhotoAsync(HttpContext http, IAntiforgery antiforgery, CurrentUserQueries viewers,
        ReceivePhoto receive)
    {
        if (!await antiforgery.IsRequestValidAsync(http))
        {
            return Unproved();
        }

        WalkBatch? batch = null;
        IFormFile? file = null;
        try
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted);
            batch = JsonSerializer.Deserialize(form["batch"].ToString(), WalkJson.Default.WalkBatch);
            file = form.Files["photo"];
        }
        catch (Exception e) when (e is JsonException or InvalidDataException or InvalidOperationException or BadHttpRequestException)
        {
            // Told below, like a form without a photo.
        }

        return batch is not { Notes: [{ } note] } || file is null
            ? Results.Text("This is no photo of a walk. Nothing was stored.", statusCode: StatusCodes.Status400BadRequest)
            : Results.Json(new WalkAnswer([await receive.SaveAsync(note, batch.SentAtUtc, file, await viewers.ForAsync(http),
                http.RequestAborted)], []), WalkJson.Default.WalkAnswer);
    }

    private static IResult Unproved() =>
        Results.Text($"The form proof in {Proof} is missing or no longer holds. Nothing was stored; load the walk again with signal.",
        statusCode: StatusCodes.Status400BadRequest);
}
