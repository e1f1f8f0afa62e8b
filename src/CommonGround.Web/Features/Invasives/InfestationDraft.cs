using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Invasives;

/// <summary>What somebody saw of an unwanted plant.</summary>
public sealed record InfestationDraft
{
    public const int LongestRemarks = 4000;

    public DateOnly? SeenOn { get; set; }

    /// <summary>Ground it stands on, m²; 0 where it was looked for and not found.</summary>
    public double? AreaSquareMetres { get; set; }

    /// <summary>Share of that ground it covers, 0–100 %.</summary>
    public double? CoverPercent { get; set; } = 50;
    public int? GrowthStage { get; set; }
    public Certainty Certainty { get; set; }
    public string Remarks { get; set; } = "";

    /// <summary>What is wrong, by field; pure.</summary>
    /// <param name="today">The group's day.</param>
    /// <param name="mostSquareMetres">Ground of the yard; null on a block, whose ground is not measured.</param>
    /// <param name="mostWords">The same in the reader's unit.</param>
    public IReadOnlyList<Problem> Check(DateOnly today, double? mostSquareMetres, string mostWords)
    {
        var problems = new List<Problem>();
        if (SeenOn is not { } day || day.Year < 1990)
        {
            problems.Add(new(nameof(SeenOn), "Give the day it was seen."));
        }
        else if (day > today)
        {
            problems.Add(new(nameof(SeenOn), "This day is still to come. Give the day it was seen."));
        }

        if (AreaSquareMetres is not { } area || !double.IsFinite(area) || area < 0)
        {
            problems.Add(new(nameof(AreaSquareMetres), "Give the ground it stands on: a figure of 0 or more; 0 means looked for and not "
                + "found."));
        }
        else if (area > (mostSquareMetres ?? 1_000_000))
        {
            problems.Add(new(nameof(AreaSquareMetres), mostSquareMetres is null ? "That is more than a square kilometre. Give the ground "
                + "on this block." : $"That is more than the yard, which is {mostWords}. Give the ground it stands on in this yard."));
        }

        if (CoverPercent is not (>= 0 and <= 100))
        {
            problems.Add(new(nameof(CoverPercent), "Cover is a share of that ground: 0 to 100 %."));
        }

        if (GrowthStage is < 0 or > 9)
        {
            problems.Add(new(nameof(GrowthStage), "A growth stage is 0 to 9."));
        }

        if (Remarks.Length > LongestRemarks)
        {
            problems.Add(new(nameof(Remarks), $"The remark has {Remarks.Length} letters; shorten it to {LongestRemarks}."));
        }

        return problems;
    }
}
