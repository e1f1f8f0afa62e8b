using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Infestations;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Invasives;

/// <summary>Cases, methods and their cautions in words.</summary>
public static class InvasiveWords
{
    public static string Of(ControlMethod method) => method switch
    {
        ControlMethod.CutBelowWater => "Cut below water",
        ControlMethod.Herbicide => "Herbicide on stump or leaf, by the label",
        ControlMethod.Burn => "Burn, by a trained crew",
        ControlMethod.LeaveAndWatch => "Leave and watch",
        ControlMethod.ReportFirst => "Report first, touch nothing",
        _ => method.ToString(),
    };

    /// <summary>The methods by hand that are named, the one that can be used longest first, each with its last day.</summary>
    public static IReadOnlyList<(ControlMethod Method, DateOnly To)> Named(CaseStanding standing) =>
        [.. standing.Methods.Zip(standing.Until, (method, to) => (Method: method, To: to))
            .Where(m => m.Method is not (ControlMethod.Herbicide or ControlMethod.Burn or ControlMethod.LeaveAndWatch
                or ControlMethod.ReportFirst)).OrderByDescending(m => m.To).Take(2)];

    /// <summary>Hours of one person as somebody would say them: to five minutes, then to half an hour.</summary>
    public static string Hours(double hours) => hours < 0.75 ? $"{Math.Max(1, Math.Round(hours * 12)) * 5:0} minutes"
        : hours < 1.25 ? "1 hour" : $"{Math.Round(hours * 2) / 2:0.#} hours";

    /// <summary>"pull", "pull or (to Sep 15) cut": each inside its own days.</summary>
    public static string Verb(CaseStanding standing)
    {
        if (standing.NameFirst.Length > 0)
        {
            return "have it named";
        }

        return Named(standing) switch
        {
            [] => standing.Methods.Contains(ControlMethod.ReportFirst) ? "report first" : "treat",
            [var one] => Word(one.Method),
            [var one, var other, ..] => other.To == one.To ? $"{Word(one.Method)} or {Word(other.Method)}"
                : $"{Word(one.Method)} or (to {Short(other.To)}) {Word(other.Method)}",
        };
    }

    /// <summary>"about 20 minutes each visit, at least three a season"; empty where nothing is treated.</summary>
    public static string Effort(CaseLine line) => line.AreaSquareMetres <= 0 || line.Standing.NameFirst.Length > 0
            || line.Standing.Methods.Contains(ControlMethod.ReportFirst) ? ""
        : line.Hours is not { } hours ? "time not known"
        : $"about {Hours(hours)}{(line.Visits.Length > 0 ? $" each visit, {line.Visits}" : "")}";

    /// <summary>What stands in the way of treatment; empty where nothing does.</summary>
    public static string NameFirst(string why) => why.Length == 0 ? "" : $"name it first: {why}";

    private static string Word(ControlMethod method) => Of(method).ToLowerInvariant();

    /// <summary>What a method asks for whoever does it; the same on screen and paper.</summary>
    public static IReadOnlyList<string> Cautions(ControlMethod method, string hazard) =>
        [.. new[]
        {
            method switch
            {
                ControlMethod.Herbicide => "The label is the law: read it, follow it, keep it at hand. On another’s land, for pay or near "
                    + "water a licence and permits may be needed: ask your state’s department of agriculture.",
                ControlMethod.Burn => "Only a trained crew burns, with a written plan, the owner’s consent, notice and permits. Ask your "
                    + "town and fire department.",
                ControlMethod.Dig => "Call 811 before you dig and wait for its answer, however small the hole. Wetlands, shores and "
                    + "parkways may need a permit.",
                ControlMethod.Mow => "Clear stones and people first. Clean the mower before it leaves the place.",
                ControlMethod.Girdle or ControlMethod.Cut => "Power saws, large trees and anything near wires are for professionals.",
                ControlMethod.CutBelowWater => "Nobody works alone at water. Work in wetlands and at shores may need a permit.",
                ControlMethod.ReportFirst => "Volunteers do not touch it. Tell your state or county first.",
                _ => "",
            },
            BurnsSkin(hazard) ?
                "Its sap burns skin in sunlight: cover all skin, use no string trimmer, wash with soap, stay out of the sun "
                + "for two days. See a doctor for blisters or eyes." : "",
        }.Where(c => c.Length > 0)];

    /// <summary>What every page and sheet says of waste and consent.</summary>
    public static string Waste => "Ask your town or hauler what may go in which bag: some states keep yard waste out of landfills.";

    public static string Consent => "Nobody works in a yard without its household’s consent, and a second person agrees what the plant is "
        + "before anything is pulled.";

    public static bool BurnsSkin(string hazard) => hazard.Contains("sun", StringComparison.OrdinalIgnoreCase)
        && hazard.Contains("sap", StringComparison.OrdinalIgnoreCase);

    /// <summary>"May 1–31, 2027".</summary>
    public static string Due(CaseStanding standing) => standing switch
    {
        { State: CaseState.Closed } => "closed",
        { DueFrom: { } from, DueTo: { } to } when from.Year == to.Year => $"{Short(from)}–{Short(to)}, {to.Year}",
        { DueFrom: { } from, DueTo: { } to } => $"{Short(from)}, {from.Year}–{Short(to)}, {to.Year}",
        _ => "no date in the calendar",
    };

    /// <summary>"Pull", "Look for it".</summary>
    public static string Next(CaseStanding standing) => standing.State == CaseState.Resting ? "Look for it"
        : Words.Capital(Verb(standing));

    /// <summary>How long one has to come back, both answers.</summary>
    public static string FollowUp(UnwantedTaxon? calendar, CaseStanding standing) => (standing.ManagersUntil, standing.SeedUntil) switch
    {
        ({ } managers, { } seed) =>
            $"Managers go on looking for {calendar!.ManagersYears} years after the last seed, to {managers}. By its "
            + $"published half-life the seed in the soil lasts longer or shorter: 5 % of it is left after {calendar.SeedYears} years, in "
            + $"{seed}. The two do not agree; both are shown.",
        ({ } managers, null) => $"Managers go on looking for {calendar!.ManagersYears} years after the last seed, to {managers}. How long "
            + "its seed lasts in the soil is not published where we read.",
        (null, { } seed) => $"By its published half-life 5 % of the seed in the soil is left after {calendar!.SeedYears} years, in {seed}.",
        _ => "The calendar does not hold this plant: ask somebody who has treated it.",
    };

    public static string Title(CaseEvent e, Units units) => e switch
    {
        { Look: { AreaSquareMetres: 0 } } => "Looked for, not found",
        { Look: { } look } => $"Seen: {units.AreaWords(look.AreaSquareMetres)}, {look.CoverPercent:0} % cover",
        { Treatment: { } done } => $"{Of(done.Method)}{(done.AreaSquareMetres is { } area ? $", {units.AreaWords(area)}" : "")}",
        { Step: { Kind: CaseStepKind.Moved, Until: { } until } } => $"Put off to {Words.Date(until)}",
        { Step.Kind: CaseStepKind.Closed } => "Case closed",
        _ => "Case opened again",
    };

    public static string Small(CaseEvent e) => string.Join("; ", new[]
    {
        e.Look is { Certainty: not Certainty.Certain } doubt ? $"{doubt.Certainty.ToString().ToLowerInvariant()} name" : "",
        e.Look is { GrowthStage: { } stage } ? Plants.PlantWords.Stage(stage) : "",
        e.Treatment?.PersonHours is { } hours ? $"{hours:0.##} person-hours" : "",
        e.Treatment?.Who ?? e.Step?.Who ?? "",
        e.Treatment is { Qualification.Length: > 0 } by ? $"by {by.Qualification}, label followed" : "",
        e.Look?.Remarks ?? e.Treatment?.Remarks ?? e.Step?.Reason ?? "",
    }.Where(w => w.Length > 0));

    private static string Short(DateOnly day) => Ecology.Phenology.DayWords.ShortDayMonth(day);
}
