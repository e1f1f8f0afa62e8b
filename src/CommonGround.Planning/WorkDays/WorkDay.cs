namespace CommonGround.Planning.WorkDays;

/// <summary>A case that could be treated on a day.</summary>
/// <param name="Place">Index into the distances; cases of one place cost one way.</param>
/// <param name="PersonHours">Hours of one person, above 0.</param>
/// <param name="PressureRemoved">What treating it takes away by next year, m²-equivalents summed over the blocks, 0 or more.</param>
/// <param name="IsRequired">A follow-up that is due: it is reserved before anything else is chosen.</param>
public sealed record WorkCase(int Place, double PersonHours, double PressureRemoved, bool IsRequired);

/// <summary>What a work day has.</summary>
/// <param name="People">1 or more.</param>
/// <param name="Hours">Of each, above 0.</param>
/// <param name="MetresBetween">Way along the streets between places, m; symmetric, 0 from a place to itself.</param>
/// <param name="MetresPerHour">How fast the group walks, above 0; 3,000 with tools is our own convention.</param>
/// <param name="HoursPerStop">For everybody at each case: asking, showing the plant, tools out and in, h, 0 or more; 6 minutes is our own
/// convention.</param>
public sealed record WorkDayAsked(int People, double Hours, IReadOnlyList<WorkCase> Cases, IReadOnlyList<IReadOnlyList<double>>
    MetresBetween,
    double MetresPerHour = WorkDayAsked.WalkingMetresPerHour,
    double HoursPerStop = WorkDayAsked.SettingUpHours)
{
    /// <summary>A group with tools; our own convention.</summary>
    public const double WalkingMetresPerHour = 3000;

    /// <summary>Six minutes; our own convention.</summary>
    public const double SettingUpHours = 0.1;

    /// <summary>Person-hours that a case takes with its setting up, without the way.</summary>
    public double Takes(WorkCase one) => one.PersonHours + (People * HoursPerStop);
}

/// <summary>What to treat, in order.</summary>
/// <param name="Order">Indices of the chosen cases, in the order of the walk.</param>
/// <param name="PressureRemoved">Sum of the chosen, m²-equivalents.</param>
/// <param name="Bound">No choice removes more than this, given the reserved ones.</param>
/// <param name="WalkMetres">Way between the places, m, from the first to the last.</param>
/// <param name="PersonHoursUsed">Work, and the way for everybody.</param>
/// <param name="RequiredLeftOut">Required follow-ups that do not fit into the hours.</param>
/// <param name="IsProven">The bound is within 1 % of what is removed.</param>
public sealed record WorkDayChoice(IReadOnlyList<int> Order, double PressureRemoved, double Bound, double WalkMetres,
    double PersonHoursUsed,
    IReadOnlyList<int> RequiredLeftOut, bool IsProven);
