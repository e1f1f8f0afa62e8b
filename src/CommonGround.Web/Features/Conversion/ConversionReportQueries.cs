using CommonGround.Planning.Conversion;
using CommonGround.Reports.ConversionReports;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Conversion;

/// <summary>Gathers what the printed report of a plan says: the same figures the plan's page shows.</summary>
public sealed class ConversionReportQueries(PlanQueries plans, SavedPlans saved, CurrentNeighbourhood neighbourhood, GroupClock clock,
    Plants.Likenesses likenesses, Photos.PhotoFolder photos)
{
    /// <summary>Longer side of the stored copy that a printed photo is taken from, px.</summary>
    private const int PhotoSide = 960;

    /// <summary>The report of a kept plan; null when there is none that the reader may see.</summary>
    /// <exception cref="PlanRefusedException">The kept limits no longer have a plan; the message says why.</exception>
    public async Task<ConversionReport?> OfPlanAsync(long planId, CurrentUser currentUser, string address,
        CancellationToken cancel = default)
    {
        if (await saved.GetAsync(planId, currentUser, cancel) is not { } kept
            || await plans.GroundAsync(kept.Yard, currentUser, cancel) is not { } ground)
        {
            return null;
        }

        return Of(ground, kept.Request, kept.Amounts, kept.MadeOn, currentUser, address);
    }

    /// <summary>A kept plan without the curve, which a shopping list has no use for; null as above.</summary>
    /// <exception cref="PlanRefusedException">The kept limits no longer have a plan; the message says why.</exception>
    public async Task<ConversionPlan?> PlanAsync(long planId, CurrentUser currentUser, CancellationToken cancel = default) =>
        await saved.GetAsync(planId, currentUser, cancel) is { } kept
            && await plans.GroundAsync(kept.Yard, currentUser, cancel) is { } ground
            ? Made(plans.Make(ground, kept.Request, curve: false, kept.Amounts, cancel: cancel))
            : null;

    /// <summary>The report of a yard: of its newest kept plan, else of the plan that its record proposes.</summary>
    /// <exception cref="PlanRefusedException">There is no plan for it; the message says why.</exception>
    public async Task<ConversionReport?> OfYardAsync(string code, CurrentUser currentUser, string address,
        CancellationToken cancel = default)
    {
        if (await plans.GroundAsync(code, currentUser, cancel) is not { } ground)
        {
            return null;
        }

        var kept = await saved.NewestAsync(code, cancel);
        return Of(ground, kept?.Request ?? Proposed(ground), kept?.Amounts, kept?.MadeOn ?? clock.Today, currentUser, kept is null
            || address.Length == 0 ? "" : $"{address}/plans/{kept.Id}");
    }

    /// <summary>The report of a yard for a request of its own, made anew.</summary>
    /// <param name="ground">Where.</param>
    /// <param name="request">What is asked for; a budget that is too small is answered with less ground.</param>
    /// <param name="currentUser">Whose units the report has.</param>
    /// <returns>The report, and what had to be said of less ground; empty when all of it is planted.</returns>
    /// <exception cref="PlanRefusedException">There is no plan for it; the message says why.</exception>
    public (ConversionReport Report, IReadOnlyList<string> Advice) OfRequest(PlanGround ground, ConversionRequest request,
        CurrentUser currentUser)
    {
        var answer = plans.Make(ground, request, curve: true);
        IReadOnlyList<string> advice = [];
        if (answer is { None: { Request: { } less } none } && less.SquareMetres < request.SquareMetres)
        {
            advice = [.. none.Conflict, .. none.Relaxed];
            answer = plans.Make(ground, less, curve: true);
        }

        return (Report(ground, Made(answer), answer.WeatherProblems, clock.Today, currentUser, ""), advice);
    }

    /// <summary>What a yard's record proposes.</summary>
    /// <exception cref="PlanRefusedException">The record leaves light, moisture or soil open.</exception>
    public static ConversionRequest Proposed(PlanGround ground)
    {
        var draft = PlanDraft.For(ground.Facts);
        return draft.Missing() is { Count: > 0 } missing ? throw new PlanRefusedException(string.Join(" ", missing.Select(m => m.Message)))
            : draft.ToRequest(ground.Figures.Season);
    }

    private ConversionReport Of(PlanGround ground, ConversionRequest request, IReadOnlyDictionary<string, PlantedAmount>? amounts,
        DateOnly asOf, CurrentUser currentUser, string address)
    {
        var answer = plans.Make(ground, request, curve: true, amounts);
        return Report(ground, Made(answer), answer.WeatherProblems, asOf, currentUser, address);
    }

    private static ConversionPlan Made(PlanAnswer answer) =>
        answer.Plan ?? throw new PlanRefusedException(string.Join(" ", answer.Problems.Select(p => p.Message).Concat(answer.None?.Conflict
            ?? [])));

    /// <summary>The report of a plan that is not kept yet; it has no page that a code could lead to.</summary>
    public ConversionReport OfDraft(PlanGround ground, ConversionPlan plan, IReadOnlyList<string> weatherProblems,
        CurrentUser currentUser) => Report(ground, plan, weatherProblems, clock.Today, currentUser, "");

    private ConversionReport Report(PlanGround ground, ConversionPlan plan, IReadOnlyList<string> weatherProblems, DateOnly asOf,
        CurrentUser currentUser, string address)
    {
        return new ConversionReport
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            YardCode = ground.Facts.Code,
            Street = ground.Facts.Street,
            AsOf = asOf,
            BloomDates = Regions.BloomWords.Sentence(neighbourhood, ground.Figures.Dates),
            Units = currentUser.Customary ? Reports.YardReports.Units.UsCustomary : Reports.YardReports.Units.Metric,
            YardSquareMetres = ground.Facts.AreaSquareMetres,
            Plan = currentUser.Customary ? plan with
            {
                Calendar = Planning.Conversion.ConversionCalendar.For(plan.Request, plan.Mix,
                customary: true)
            } : plan,
            WaterProblems = weatherProblems,
            PlanAddress = address,
            Local = ground.Local,
            Photo = Photo(ground.Picture),
            Visitors = ComingVisitor.Of(ground.Surroundings.Forage, plan.Mix),
            WalkHeightMetres = PlanScene.WalkHeightMetres(plan.Request, plan.Mix, likenesses.Of),
            Scenes = PlanScene.ForPaper(plan.Request, plan.Mix, likenesses.Of,
                new Drawings.Scenes.SceneLengths(currentUser.Customary, currentUser.Units.LengthWords)),
        };
    }

    /// <summary>Null where the yard has none, or its file is gone: the report goes without.</summary>
    private ReportPhoto? Photo(YardPicture? picture)
    {
        if (picture is null || photos.Open(picture.FileName, PhotoSide) is not { } file) return null;
        using (file)
        using (var bytes = new MemoryStream())
        {
            file.CopyTo(bytes);
            return new ReportPhoto(bytes.ToArray(), picture.TakenOn, picture.Caption);
        }
    }
}

/// <summary>There is no plan under these limits; the message says which stand in the way.</summary>
public sealed class PlanRefusedException : Exception
{
    public PlanRefusedException(string message) : base(message) { }

    public PlanRefusedException(string message, Exception inner) : base(message, inner) { }

    public PlanRefusedException() { }
}
