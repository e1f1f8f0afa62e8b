using System.Globalization;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Regions;

/// <summary>What moves the dates of bloom, as typed.</summary>
public sealed class DatesDraft
{
    public bool UseOwn { get; set; }

    /// <summary>"F" where the temperatures are typed in degrees Fahrenheit, else "C".</summary>
    public string Scale { get; set => field = value ?? "C"; } = "C";

    public string Year { get; set => field = value ?? ""; } = "";

    /// <summary>Twelve usual means; all blank for none.</summary>
    public List<string> Usual { get; set => field = value ?? []; } = [];

    /// <summary>Twelve means of the year; blank where a month is not known.</summary>
    public List<string> OfYear { get; set => field = value ?? []; } = [];

    private static string[] Months => CultureInfo.InvariantCulture.DateTimeFormat.MonthNames;

    public static DatesDraft Of(GroupRules rules, int year, bool fahrenheit)
    {
        ArgumentNullException.ThrowIfNull(rules);
        string Shown(double? celsius) => celsius is not { } c ? ""
            : (fahrenheit ? (c * 9 / 5) + 32 : c).ToString("0.0#", CultureInfo.InvariantCulture);
        var given = rules.Temperatures;
        return new()
        {
            UseOwn = rules.OwnBloom,
            Scale = fahrenheit ? "F" : "C",
            Year = year.ToString(CultureInfo.InvariantCulture),
            Usual = [.. Enumerable.Range(0, 12).Select(m => Shown(given?.Usual[m]))],
            OfYear = [.. Enumerable.Range(0, 12).Select(m => Shown(given?.Years.GetValueOrDefault(year)?[m]))],
        };
    }

    /// <summary>The rules with what was typed, or what is wrong, by field; pure. Years that are not typed here stay.</summary>
    public (GroupRules? Rules, IReadOnlyList<Problem> Problems) Read(GroupRules before, int thisYear)
    {
        ArgumentNullException.ThrowIfNull(before);
        var problems = new List<Problem>();
        if (!int.TryParse(Year, CultureInfo.InvariantCulture, out var year) || year < 1900 || year > thisYear)
        {
            problems.Add(new(nameof(Year), $"The year is a number up to {thisYear}."));
        }

        var usual = Numbers(Usual, "the usual year", nameof(Usual), problems);
        var ofYear = Numbers(OfYear, Year, nameof(OfYear), problems);
        if (usual.Any(c => c is not null) && usual.Index().Where(c => c.Item is null).Select(c => Months[c.Index])
            .ToList() is { Count: > 0 } missing)
        {
            problems.Add(
                new(nameof(Usual), $"The usual year needs all twelve months; {Words.List(missing)} {(missing.Count == 1 ? "is" : "are")} "
                    + $"missing. A weather office publishes them as monthly normals."));
        }
        else if (usual.All(c => c is null) && ofYear.Any(c => c is not null))
        {
            problems.Add(new(nameof(Usual),
                "Give the usual temperatures too: without them nobody can tell whether the year is warm or cold."));
        }

        if (problems.Count > 0)
        {
            return (null, problems);
        }

        var years = (before.Temperatures?.Years ?? new Dictionary<int, IReadOnlyList<double?>>()).Where(y => y.Key != year)
            .ToDictionary(y => y.Key, y => y.Value);
        if (ofYear.Any(c => c is not null))
        {
            years[year] = ofYear;
        }

        return (before with
        {
            OwnBloom = UseOwn,
            Temperatures = usual.All(c => c is null) ? null
            : new Temperatures([.. usual.Select(c => c!.Value)]) { Years = years }
        }, []);
    }

    private double?[] Numbers(List<string> typed, string what, string field, List<Problem> problems)
    {
        var read = new double?[12];
        for (var month = 0; month < 12; month++)
        {
            var text = (month < typed.Count ? typed[month] ?? "" : "").Trim().Replace('−', '-');
            if (text.Length == 0)
            {
                continue;
            }

            // Half of Europe writes 3,5.
            if (double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
                && Temperatures.Holds(Scale == "F" ? (number - 32) * 5 / 9 : number))
            {
                read[month] = Scale == "F" ? (number - 32) * 5 / 9 : number;
            }
            else
            {
                problems.Add(
                    new(field, $"{Months[month]} of {what}: “{text}” is not a mean temperature in °{Scale}. Write it as "
                        + $"{(Scale == "F" ? "48.5" : "9.2")}, or leave it blank."));
            }
        }

        return read;
    }
}
