using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Planning.WorkDays;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Invasives;

/// <summary>A day, and who comes.</summary>
/// <param name="Licensed">A licensed applicator comes.</param>
public sealed record WorkDayWish(DateOnly On, int People, double Hours, bool Licensed)
{
    public const int MostPeople = 200, MostHours = 12;

    /// <summary>What is wrong, by field; pure.</summary>
    public IReadOnlyList<Problem> Check(DateOnly today) =>
        [.. new (bool Wrong, Problem Problem)[]
        {
            (On < today, new("on", $"{Words.Date(On)} is past. Give a day from {Words.Date(today)} on.")),
            (On > today.AddYears(1), new("on", "Give a day within a year.")),
            (People is < 1 or > MostPeople, new("people", $"A work day needs people: 1 to {MostPeople}.")),
            (!(Hours is > 0 and <= MostHours), new("hours", $"Hours are above 0 and at most {MostHours}.")),
        }.Where(p => p.Wrong).Select(p => p.Problem)];
}

/// <summary>A place to work at.</summary>
/// <param name="Advice">How; null for a look.</param>
/// <param name="PressureRemoved">By next year, m²-equivalents summed over the blocks.</param>
public sealed record WorkStop(CaseLine Case, ControlAdvice? Advice, double PersonHours, double PressureRemoved, bool IsRequired);

/// <summary>A day's choice, what was left out and why.</summary>
/// <param name="AllPressure">What all unwanted plants send to all blocks today, m²-equivalents.</param>
/// <param name="OneMoreAdds">What one more person would remove besides, m²-equivalents.</param>
public sealed record WorkDayPlan(WorkDayWish Wish, IReadOnlyList<WorkStop> Stops, IReadOnlyList<(CaseLine Case, string Reason)> LeftOut,
    WorkDayChoice Choice, double AllPressure, double OneMoreAdds);

/// <summary>Chooses what a group treats on a day.</summary>
public sealed class WorkDayQueries(CaseQueries cases, LiveCommunity live, StreetQueries streets)
{
    /// <summary>A look at a resting case; our own convention.</summary>
    private const double LookHours = 0.25;

    /// <summary>With more blocks ways are reckoned straight.</summary>
    private const int MostBlocksByStreet = 300;

    /// <summary>The plan; all of the group's cases, so for organisers only.</summary>
    public async Task<WorkDayPlan> PlanAsync(WorkDayWish wish, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(wish);
        ArgumentNullException.ThrowIfNull(currentUser);
        if (!currentUser.MayOrganise)
        {
            throw new InvalidOperationException("A work day is planned over everybody's cases: by organisers.");
        }

        var lines = await cases.ListAsync(currentUser, cancel);
        var loaded = await live.LoadedAsync(cancel);
        var (stops, leftOut) = Sorted(lines, loaded, wish);
        var all = InvasivePressure.OfAllBlocks(loaded.Matrix, loaded.Rules.Pressure).Sum();
        var asked = new WorkDayAsked(wish.People, wish.Hours,
            [.. stops.Select(s => new WorkCase(s.Case.Block, s.PersonHours, s.PressureRemoved, s.IsRequired))],
            await WaysAsync(loaded.Matrix, cancel));
        var choice = WorkDayPlanner.Solve(asked, cancel: cancel);
        var more = WorkDayPlanner.Solve(asked with { People = wish.People + 1 }, cancel: cancel);
        leftOut.AddRange(stops.Index().Where(s => !choice.Order.Contains(s.Index)).Select(s => (s.Item.Case, s.Item.IsRequired
            ? "a follow-up that is due does not fit into the hours" : $"does not fit into the hours: {InvasiveWords.Hours(s.Item.PersonHours)}")));
        return new(wish, [.. choice.Order.Select(i => stops[i])], leftOut, choice, all,
            Math.Max(0, more.PressureRemoved - choice.PressureRemoved));
    }

    private static (List<WorkStop> Stops, List<(CaseLine Case, string Reason)> LeftOut) Sorted(IReadOnlyList<CaseLine> lines,
        LoadedCommunity loaded, WorkDayWish wish)
    {
        var (stops, leftOut) = (new List<WorkStop>(), new List<(CaseLine Case, string Reason)>());
        // Half-months of an ordinary year: this one may be ahead or behind.
        var half = HalfMonth.Of(wish.On.AddDays(-(loaded.Dates.WarmthDays ?? 0)));
        foreach (var line in lines)
        {
            var standing = line.Standing;
            if (standing.State == CaseState.Resting)
            {
                if (line.Block >= 0 && standing.DueFrom <= wish.On)
                {
                    stops.Add(new(line, null, LookHours, 0, true));
                }

                continue;
            }

            var advice = Usable(line, half, wish.Licensed, out var reason);
            reason = line.Block < 0 ? "its block lies nowhere on the map" : line.Certainty == Ecology.Taxa.Certainty.Tentative
                ? "the name is tentative: a second person looks first" : standing.DueFrom > wish.On && line.WasTreated
                ? $"treated already; due again {InvasiveWords.Due(standing)}" : reason;
            if (advice is null || reason.Length > 0)
            {
                leftOut.Add((line, reason));
                continue;
            }

            var hours = Math.Max(0.1, InfestationOutlooks.Hours(line.AreaSquareMetres, line.CoverPercent / 100,
                advice.HoursPerTenSquareMetres.Mid));
            stops.Add(new(line, advice, hours, Removed(line, advice, loaded), line.WasTreated && standing.DueFrom <= wish.On));
        }

        return (stops, leftOut);
    }

    /// <summary>The method that does most in that half-month; by hand where that is possible at all.</summary>
    private static ControlAdvice? Usable(CaseLine line, int half, bool licensed, out string reason)
    {
        reason = "";
        if (ControlCalendar.Of(line.Taxon.ScientificName) is not { } calendar)
        {
            reason = "the control calendar does not hold this plant";
            return null;
        }

        if (calendar.Methods.Any(m => m is { Method: ControlMethod.ReportFirst, Advised: Advice.Yes }))
        {
            reason = "volunteers do not touch it: report it to the county or state";
            return null;
        }

        if (calendar.NameFirst.Length > 0)
        {
            reason = InvasiveWords.NameFirst(calendar.NameFirst);
            return null;
        }

        var open = calendar.Methods.Where(m => m.Advised == Advice.Yes && m.IsOpen(half) && m.HoursPerTenSquareMetres.Mid > 0
            && m.Method is not (ControlMethod.Burn or ControlMethod.LeaveAndWatch)).ToList();
        var byHand = open.Where(m => m.Method != ControlMethod.Herbicide)
            .MaxBy(m => ControlCalendar.Classes.Of(line.Taxon, m).Mid);
        var best = byHand ?? (licensed ? open.Find(m => m.Method == ControlMethod.Herbicide) : null);
        var next = calendar.Methods.Where(m => m.Advised == Advice.Yes && m.Method is not (ControlMethod.Burn or ControlMethod.Herbicide))
            .SelectMany(m => m.Windows).Select(w => (w.Start - half + HalfMonth.Count) % HalfMonth.Count).Where(d => d > 0)
            .DefaultIfEmpty(-1).Min();
        reason = best is not null ? "" : open.Count > 0 ? "only herbicide is in season, and no licensed applicator comes"
            : next < 0 ? "no method by hand is in the calendar"
            : $"its season opens {Reports.Charts.HalfMonthWords.FirstDay((half + next) % HalfMonth.Count)}";
        return best;
    }

    /// <summary>What next year's plants would send to all blocks, less what is left after this treatment sends.</summary>
    private static double Removed(CaseLine line, ControlAdvice advice, LoadedCommunity loaded)
    {
        var matrix = loaded.Matrix;
        var taxon = matrix.Taxa.Index().First(t => t.Item.ScientificName == line.Taxon.ScientificName).Index;
        if (matrix.Infestations.FirstOrDefault(i => i.Taxon == taxon && i.YardId == line.YardId
            && (line.YardId is not null || i.Block == line.Block)) is not { } here)
        {
            return 0;
        }

        var spread = ControlCalendar.Of(line.Taxon.ScientificName)?.Spread;
        var share = ControlCalendar.Classes.Of(line.Taxon, advice);
        double Next(bool treated) => InfestationOutlooks.Of(line.AreaSquareMetres, 4 * line.AreaSquareMetres, spread, [treated], share, 0,
            1)
            .Mid[1].AreaSquareMetres;
        // By next year it is in flower or seed: it counts in full.
        var gone = here with { AreaSquareMetres = Math.Max(0, Next(false) - Next(true)), GrowthStage = null };
        return InvasivePressure.OfAllBlocks(matrix with { Infestations = [gone] }, loaded.Rules.Pressure).Sum();
    }

    private async Task<IReadOnlyList<IReadOnlyList<double>>> WaysAsync(CommunityMatrix matrix, CancellationToken cancel)
    {
        var shapes = matrix.Blocks.Count > MostBlocksByStreet ? []
            : (await streets.ShapesAsync(cancel)).Where(s => !s.Closed).ToDictionary(s => s.Block);
        return StreetWays.Between([.. matrix.Blocks.Select((b, i) => (b.Latitude, b.Longitude,
            new StreetLine(shapes.TryGetValue(i, out var shape) ? shape.Points : [])))]);
    }
}
