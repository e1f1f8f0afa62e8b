using System.Globalization;
using CommonGround.Ecology.Invasives;
using CommonGround.Reports.CrewSheets;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Invasives;

/// <summary>The crew sheet of a work day.</summary>
public static class WorkDayFile
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/unwanted/crew-sheet.pdf",
        async (string? on, string? people, string? hours, string? licensed, string? paper, HttpContext http, CurrentUserQueries viewers,
            WorkDayQueries days, LiveCommunity live, StreetQueries streets, CurrentNeighbourhood neighbourhood, GroupClock clock) =>
        {
            if (YardReportFile.Paper(paper ?? "letter") is not { } size || Read(on, people, hours, licensed) is not { } wish
                || wish.Check(clock.Today).Count > 0)
            {
                return Results.StatusCode(StatusCodes.Status400BadRequest);
            }

            var currentUser = await viewers.ForAsync(http);
            var plan = await days.PlanAsync(wish, currentUser, http.RequestAborted);
            var map = CrewMap.Draw(await live.NowAsync(http.RequestAborted), await streets.ShapesAsync(http.RequestAborted), plan.Stops,
                640, 260);
            using var pdf = new MemoryStream();
            CrewSheetDocument.Write(Sheet(plan, map, neighbourhood, currentUser), size, pdf);
            return Results.File(pdf.ToArray(), "application/pdf");
        }).InTurn().For(Permission.Organise);

    /// <summary>What an address asks for; null where it is not to be read.</summary>
    internal static WorkDayWish? Read(string? on, string? people, string? hours, string? licensed) =>
        DateOnly.TryParseExact(on, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
        && int.TryParse(people, NumberStyles.None, CultureInfo.InvariantCulture, out var hands)
        && double.TryParse(hours, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var each)
            ? new(day, hands, each, licensed == "true") : null;

    internal static CrewSheet Sheet(WorkDayPlan plan, Reports.Charts.Chart? map, CurrentNeighbourhood neighbourhood,
        CurrentUser currentUser)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var units = currentUser.Units;
        return new CrewSheet
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            On = plan.Wish.On,
            People = plan.Wish.People,
            Hours = plan.Wish.Hours,
            AreaUnit = units.AreaUnit,
            Walk = units.DistanceWords(plan.Choice.WalkMetres),
            Map = map,
            Stops = [.. plan.Stops.Select(s => new CrewStop(s.Case.Place, s.Case.At.Yard.Length > 0 ? s.Case.BlockName : "",
                s.Case.Taxon.DisplayName, s.Advice is null ? "Look for it" : InvasiveWords.Of(s.Advice.Method),
                s.Case.AreaSquareMetres > 0 ? $"{units.AreaWords(s.Case.AreaSquareMetres)}, {s.Case.CoverPercent:0} % cover"
                    : "was here before", s.PersonHours, s.IsRequired))],
            Plants = [.. plan.Stops.GroupBy(s => s.Case.Taxon.ScientificName).Select(g => Plant(g.First(),
                [.. g.Select(s => s.Advice).OfType<ControlAdvice>().Distinct()], plan.Wish.On))],
            Consent = InvasiveWords.Consent,
            Waste = InvasiveWords.Waste,
        };
    }

    private static CrewPlant Plant(WorkStop stop, IReadOnlyList<ControlAdvice> methods, DateOnly on)
    {
        var calendar = ControlCalendar.Of(stop.Case.Taxon.ScientificName);
        var half = Ecology.Phenology.HalfMonth.Of(on);
        return new(stop.Case.Taxon.DisplayName, stop.Case.Taxon.ScientificName, calendar?.Marks is { } marks
                ? $"{Words.Capital(marks.Young)}. In flower: {marks.Flower}. In seed: {marks.Seed}." : "",
            [.. (calendar?.LookAlikes ?? []).Select(l => new CrewLookAlike($"{l.CommonName} ({l.Role})", l.MarksOfOther.Length > 0
                ? l.MarksOfOther : $"the unwanted one: {l.MarksOfThis}"))],
            [.. methods.Select(m => m.MustNot).Where(m => m.Length > 0).Select(Words.Capital)],
            [.. methods.SelectMany(m => new[]
            {
                m.BagsIn(half) ? "Seed ripens: bag every head before you move the plant." : "",
                Words.Capital(m.Disposal), "Wear " + m.Protection, Words.Capital(m.Hazard),
            }.Concat(InvasiveWords.Cautions(m.Method, m.Hazard))).Where(w => w.Length > 0).Distinct(),
                .. stop.Case.Taxon.Caution.Length > 0 ? new[] { stop.Case.Taxon.Caution } : []]);
    }
}
