using System.Text.Json;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Reports.ConversionReports;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Community;

/// <summary>What a group may set of the measures: its season and norm, the weights of invasive pressure, which are a convention, how long
/// an unseen plant still counts, and what moves the dates of bloom.</summary>
public sealed record GroupRules(Season Season, PressureConvention Pressure)
{
    /// <summary>After how many seasons without a sighting a plant no longer counts; the usual one where settings of an earlier version do
    /// not say.</summary>
    public PresenceRule Presence { get; init; } = PresenceRule.Default;

    /// <summary>The group's own records of flowering take over from the catalogue's dates where there are enough of them.</summary>
    public bool OwnBloom { get; init; }

    /// <summary>Temperatures by which a warm or cold year is known; null where nobody has given any.</summary>
    public Temperatures? Temperatures { get; init; }

    /// <summary>What holds in the group's own town, for printed reports.</summary>
    public LocalNotes Local { get; init; } = new();

    public static GroupRules Default { get; } = new(Season.Default, PressureConvention.Default);

    /// <summary>As the neighbourhood's row keeps them; empty means the defaults.</summary>
    public static GroupRules Read(string settings) => settings.Length == 0 ? Default
        : JsonSerializer.Deserialize<GroupRules>(settings) ?? Default;

    public string Write() => this == Default ? "" : JsonSerializer.Serialize(this);

    /// <summary>What is wrong, by field; pure.</summary>
    public IReadOnlyList<Problem> Check()
    {
        var problems = new List<Problem>();
        if (Season.First < 0 || Season.Last >= HalfMonth.Count || Season.First > Season.LateFrom || Season.LateFrom > Season.Last)
        {
            problems.Add(new("season",
                "The season begins before the late season, and the late season before the end: choose the half-months in that order."));
        }

        if (Season.Norm is < 1 or > 20)
        {
            problems.Add(new("norm", "The norm is 1 to 20 species."));
        }

        double[] weights = [Pressure.HighWeight, Pressure.MediumWeight, Pressure.LowWeight, Pressure.UnrankedWeight,
            Pressure.BeforeFullFactor];
        if (weights.Any(w => w is < 0 or > 1 || !double.IsFinite(w)))
        {
            problems.Add(new("weights", "A weight is 0 to 1."));
        }

        if (Pressure.DefaultDispersalMetres is <= 0 or > 10_000 || !double.IsFinite(Pressure.DefaultDispersalMetres))
        {
            problems.Add(new("dispersal", "The distance is above 0 and at most 10,000 m."));
        }

        if (Presence.AnnualSeasons is < 1 or > MostSeasons || Presence.PerennialSeasons is < 1 or > MostSeasons)
        {
            problems.Add(new("presence", $"A plant that nobody sees again counts for 1 to {MostSeasons} seasons."));
        }

        if (Temperatures is { IsSound: false })
        {
            problems.Add(
                new("temperatures", $"A mean temperature of a month lies between {Temperatures.Coldest:0} and {Temperatures.Warmest:0} "
                    + $"°C, and the usual year has all twelve."));
        }

        foreach (var (field, text, most) in new[] { ("ordinance", Local.Ordinance, MostWords),
            ("source", Local.OrdinanceSource, MostSource), ("growers", Local.WhereToGetPlants, MostWords) })
        {
            if (text.Length > most)
            {
                problems.Add(new(field, $"Keep it to {most:#,0} characters, so that it fits on the page; it has {text.Length:#,0}."));
            }
        }

        return problems;
    }

    /// <summary>Characters of what is printed of town and growers.</summary>
    public const int MostWords = 1200, MostSource = 200;

    private const int MostSeasons = 50;
}
