using CommonGround.Ecology.Invasives;
using CommonGround.Storage.Infestations;

namespace CommonGround.Web.Features.Invasives;

/// <summary>What somebody did against an unwanted plant.</summary>
public sealed record TreatmentDraft
{
    public DateOnly? TreatedOn { get; set; }
    public ControlMethod Method { get; set; }
    public double? AreaSquareMetres { get; set; }
    public double? PersonHours { get; set; }
    public string Who { get; set; } = "";
    public bool LabelFollowed { get; set; }
    public string Qualification { get; set; } = "";
    public string Remarks { get; set; } = "";

    /// <summary>Ground still infested after it, m²; blank where nobody looked. Stored as a look of the same day.</summary>
    public double? LeftSquareMetres { get; set; }

    /// <summary>What is wrong, by field; pure.</summary>
    /// <param name="today">The group's day.</param>
    /// <param name="firstSeen">When the plant was first recorded here.</param>
    /// <param name="firstSeenWords">The same as it is read.</param>
    public IReadOnlyList<Problem> Check(DateOnly today, DateOnly firstSeen, string firstSeenWords)
    {
        var problems = new List<Problem>();
        if (TreatedOn is not { } day)
        {
            problems.Add(new(nameof(TreatedOn), "Give the day it was treated."));
        }
        else if (day > today)
        {
            problems.Add(new(nameof(TreatedOn), "This day is still to come. Write a treatment down once it is done."));
        }
        else if (day < firstSeen)
        {
            problems.Add(new(nameof(TreatedOn), $"The plant was first recorded here on {firstSeenWords}. Record the earlier look first, or "
                + "correct the day."));
        }

        if (AreaSquareMetres is < 0 || LeftSquareMetres is < 0)
        {
            problems.Add(new(AreaSquareMetres is < 0 ? nameof(AreaSquareMetres) : nameof(LeftSquareMetres),
                "Ground is 0 or more, or left blank."));
        }

        if (PersonHours is not null and not (>= 0 and <= 10_000))
        {
            problems.Add(new(nameof(PersonHours), "Hours are of all people together: 0 to 10,000, or left blank."));
        }

        if (Method == ControlMethod.Herbicide)
        {
            if (!LabelFollowed)
            {
                problems.Add(new(nameof(LabelFollowed), "The label is the law. Tick that it was read and followed, or do not write it down "
                    + "as done."));
            }

            if (Qualification.Trim().Length == 0)
            {
                problems.Add(new(nameof(Qualification), "Say who applied it and by what licence or training, in your own words."));
            }
        }

        foreach (var (field, text, most) in new[] { (nameof(Who), Who, Treatment.LongestWho),
            (nameof(Qualification), Qualification, Treatment.LongestQualification), (nameof(Remarks), Remarks, Treatment.LongestRemarks) })
        {
            if (text.Trim().Length > most)
            {
                problems.Add(new(field, $"That has {text.Trim().Length} letters; shorten it to {most}."));
            }
        }

        return problems;
    }
}
