namespace CommonGround.Ecology.Invasives;

/// <summary>What becomes of an infestation under one treatment plan, with the band of what is not known.</summary>
/// <param name="Low">Least growth, best treatment.</param>
/// <param name="Mid">As reckoned.</param>
/// <param name="High">Most growth, worst treatment.</param>
/// <param name="Hours">Person-hours of each treated year, as reckoned.</param>
public sealed record OutlookBand(IReadOnlyList<InfestationYear> Low, IReadOnlyList<InfestationYear> Mid,
    IReadOnlyList<InfestationYear> High,
    IReadOnlyList<double> Hours);

/// <summary>Forecasts with their doubt, and what waiting costs.</summary>
/// <remarks>A what-if over <see cref="InfestationForecast"/>; see docs/measures.md#infestation-forecast.</remarks>
public static class InfestationOutlooks
{
    /// <summary>Share of the seed bank's ground that comes up anew each year; our own convention.</summary>
    public const double Recruitment = 0.1;

    /// <summary>Growth where nothing is held of the plant, per year; our own convention, wide on purpose.</summary>
    public static Span UnknownGrowth { get; } = new(0.1, 0.3, 0.8);

    /// <summary>The band of one plan.</summary>
    /// <param name="areaSquareMetres">Infested now, m², 0 or more.</param>
    /// <param name="capacitySquareMetres">Ground it could fill, m²; taken as no less than the area.</param>
    /// <param name="spread">Growth and seed life; <c>null</c> where not held.</param>
    /// <param name="treated">For each year to come, whether it is treated.</param>
    /// <param name="efficacy">Share a treatment removes, 0–1.</param>
    /// <param name="hoursPerTenSquareMetres">Person-hours for 10 m² of dense patch.</param>
    /// <param name="cover">Share of the area covered, 0–1.</param>
    /// <remarks>See docs/measures.md#infestation-forecast.</remarks>
    public static OutlookBand Of(double areaSquareMetres, double capacitySquareMetres, SpreadFacts? spread, IReadOnlyList<bool> treated,
        Span efficacy, double hoursPerTenSquareMetres, double cover)
    {
        ArgumentNullException.ThrowIfNull(treated);
        var growth = spread?.GrowthPerYear ?? UnknownGrowth;
        var life = spread?.SeedHalfLifeYears;
        var mid = Run(growth.Mid, efficacy.Mid, life?.Mid);
        return new(Run(growth.Low, efficacy.High, life?.Low), mid, Run(growth.High, efficacy.Low, life?.High),
            [.. treated.Select((t, year) => t ? Hours(mid[year].AreaSquareMetres, cover, hoursPerTenSquareMetres) : 0)]);

        IReadOnlyList<InfestationYear> Run(double rate, double share, double? halfLife) => InfestationForecast.Of(
            new(areaSquareMetres, Math.Max(areaSquareMetres, capacitySquareMetres), rate, halfLife, halfLife is null ? 0 : Recruitment),
            [.. treated.Select(t => t ? share : 0)]);
    }

    /// <summary>Person-hours of a treatment: area by cover, at the hours of 10 m² of dense patch.</summary>
    public static double Hours(double areaSquareMetres, double cover, double hoursPerTenSquareMetres) =>
        areaSquareMetres * cover / 10 * hoursPerTenSquareMetres;

    /// <summary>The first year from now in which the untreated area, and with it the hours of a treatment, is twice today's.</summary>
    /// <returns>Whole years; <c>null</c> where it does not double in the forecast.</returns>
    public static int? YearsToTwice(IReadOnlyList<InfestationYear> untreated)
    {
        ArgumentNullException.ThrowIfNull(untreated);
        var twice = 2 * untreated[0].AreaSquareMetres;
        return untreated[0].AreaSquareMetres > 0 && untreated.Any(y => y.AreaSquareMetres >= twice)
            ? untreated.First(y => y.AreaSquareMetres >= twice).Year : null;
    }
}
