namespace CommonGround.Ecology.Invasives;

/// <summary>What a forecast of an infestation assumes. All values but the areas are guesses to try out, not measurements.</summary>
/// <param name="AreaSquareMetres">Infested area now, m², 0 or more.</param>
/// <param name="CapacitySquareMetres">Ground it could fill, m², above 0 and at least the area.</param>
/// <param name="GrowthPerYear">Logistic growth rate r, per year, 0 or more; ln 2 = 0.69 doubles a small patch in a year.</param>
/// <param name="SeedBankHalfLifeYears">Half-life of seed in the soil, years, above 0, or <c>null</c> for no seed bank.</param>
/// <param name="RecruitmentPerYear">Share of the seed bank's ground that comes up anew each year where there is room, 0–1.</param>
/// <remarks>See docs/measures.md#infestation-forecast.</remarks>
public sealed record InfestationOutlook(
    double AreaSquareMetres,
    double CapacitySquareMetres,
    double GrowthPerYear,
    double? SeedBankHalfLifeYears,
    double RecruitmentPerYear);

/// <summary>One year of a forecast.</summary>
/// <param name="Year">0 is now.</param>
/// <param name="AreaSquareMetres">Infested area at the start of that year, before treatment, m².</param>
/// <param name="SeedBankSquareMetres">Seed in the soil, as m² of infested ground that would keep it up, m².</param>
public readonly record struct InfestationYear(int Year, double AreaSquareMetres, double SeedBankSquareMetres);

/// <summary>What becomes of an infestation with and without treatment.</summary>
/// <remarks>
/// Logistic growth is Verhulst's (1838); the seed bank and how it feeds back are our own convention. A treatment multiplies the area
/// by (1 − efficacy) and leaves the seed bank alone, which is why one treatment is rarely enough. See
/// docs/measures.md#infestation-forecast.
/// </remarks>
public static class InfestationForecast
{
    /// <summary>Area and seed bank year by year.</summary>
    /// <param name="outlook">Where it starts and what it does.</param>
    /// <param name="efficacies">One entry per year from now: share of the area a treatment removes, 0 (none) to 1.</param>
    /// <returns>One entry more than years: year 0 is now.</returns>
    /// <remarks>
    /// With A′ = A(1−efficacy): A(next) = min(K, logistic(A′) + φ·B·(1−A′/K)), logistic(A′) = K A′ eʳ/(K + A′(eʳ−1));
    /// B(next) = σB + (1−σ)A′, σ = 2^(−1/h), B(0) = A(0); without a seed bank B = 0. See docs/measures.md#infestation-forecast.
    /// </remarks>
    public static IReadOnlyList<InfestationYear> Of(InfestationOutlook outlook, IReadOnlyList<double> efficacies)
    {
        RequireSound(outlook);
        ArgumentNullException.ThrowIfNull(efficacies);
        var capacity = outlook.CapacitySquareMetres;
        double? survival = outlook.SeedBankHalfLifeYears is { } halfLife ? SeedBank.AnnualSurvival(halfLife) : null;
        var area = outlook.AreaSquareMetres;
        var bank = survival is null ? 0 : area;
        var years = new List<InfestationYear> { new(0, area, bank) };
        foreach (var efficacy in efficacies)
        {
            RequireShare(efficacy, nameof(efficacies));
            var left = area * (1 - efficacy);
            area = Math.Min(capacity, Logistic(left, capacity, outlook.GrowthPerYear)
                + (outlook.RecruitmentPerYear * bank * (1 - (left / capacity))));
            bank = survival is { } alive ? (alive * bank) + ((1 - alive) * left) : 0;
            years.Add(new(years.Count, area, bank));
        }

        return years;
    }

    private static double Logistic(double area, double capacity, double rate) =>
        capacity * area / (area + ((capacity - area) * Math.Exp(-rate)));

    private static void RequireSound(InfestationOutlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var (area, capacity, rate, _, recruitment) = outlook;
        if (!double.IsFinite(capacity) || capacity <= 0 || !(area >= 0) || area > capacity || !double.IsFinite(rate) || rate < 0)
        {
            throw new ArgumentException(
                "An infestation has an area of 0 up to its capacity, a capacity above 0 m² and a growth rate of 0 or more.",
                    nameof(outlook));
        }

        RequireShare(recruitment, nameof(outlook));
    }

    private static void RequireShare(double share, string name)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(name, share, "A share is 0 to 1.");
        }
    }
}
