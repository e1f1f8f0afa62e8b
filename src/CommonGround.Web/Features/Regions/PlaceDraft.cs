using System.Globalization;
using CommonGround.Ecology.Regions;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Regions;

/// <summary>Where a group is, as typed.</summary>
public sealed class PlaceDraft
{
    /// <summary>Of a place in none of the ten states.</summary>
    public const string Elsewhere = "other";

    public string State { get; set => field = value ?? ""; } = "";
    public string PlaceName { get; set => field = value ?? ""; } = "";
    public string Latitude { get; set => field = value ?? ""; } = "";
    public string Longitude { get; set => field = value ?? ""; } = "";

    /// <summary>Height above the sea, feet.</summary>
    public string ElevationFeet { get; set => field = value ?? ""; } = "";
    public string Table { get; set => field = value ?? ""; } = "";

    /// <summary>Nothing is typed: the group says it later.</summary>
    public bool IsBlank => new[] { State, PlaceName, Latitude, Longitude, ElevationFeet }.All(string.IsNullOrWhiteSpace);

    public static PlaceDraft Of(Locality? place, string name) => place is null ? new() : new()
    {
        State = place.State.Length == 0 ? Elsewhere : place.State,
        PlaceName = name,
        Latitude = place.Latitude.ToString(CultureInfo.InvariantCulture),
        Longitude = place.Longitude.ToString(CultureInfo.InvariantCulture),
        ElevationFeet = place.ElevationMetres is { } metres ? Math.Round(metres / 0.3048).ToString(CultureInfo.InvariantCulture) : "",
        Table = place.Table,
    };

    /// <summary>The place, or what is wrong, by field; pure.</summary>
    public (Locality? Place, IReadOnlyList<Problem> Problems) Read()
    {
        var problems = new List<Problem>();
        var elsewhere = State.Trim().Equals(Elsewhere, StringComparison.OrdinalIgnoreCase);
        var state = StateRules.Find(State);
        if (state is null && !elsewhere)
        {
            problems.Add(
                new(nameof(State), $"Choose the state: {string.Join(", ", StateRules.All.Select(s => s.Name))}, or “another place”."));
        }

        if (PlaceName.Trim().Length > 200)
        {
            problems.Add(new(nameof(PlaceName), "The name of the place is 200 characters long at most."));
        }

        var latitude = Number(Latitude, nameof(Latitude), -90, 90, "Latitude is a number of degrees, such as 37.21.", problems);
        var longitude = Number(Longitude, nameof(Longitude), -180, 180,
            "Longitude is a number of degrees, below 0 in America, such as -93.29.", problems);
        double? feet = string.IsNullOrWhiteSpace(ElevationFeet) ? null : Number(ElevationFeet, nameof(ElevationFeet), -300, 15_000,
            "Height above the sea is a number of feet, such as 1,300; or leave it blank.", problems);
        if (problems.Count > 0)
        {
            return (null, problems);
        }

        if (Position(state, latitude, longitude) is { } wrong)
        {
            return (null, [wrong]);
        }

        return (new Locality(state?.Code ?? "", latitude, longitude, feet * 0.3048, Table.Trim()), []);
    }

    /// <summary>A slip that people make: the two numbers exchanged, the minus forgotten, another state's town.</summary>
    private static Problem? Position(StateOfRecord? state, double latitude, double longitude)
    {
        if (latitude < 0)
        {
            return StateRules.All.Any(s => s.MayHold(longitude, latitude))
                ? new(nameof(Latitude), "Latitude and longitude look exchanged: in America longitude is the number below 0.")
                : new(nameof(Latitude),
                "Bloom dates here are those of the northern half of the earth; a place south of the equator cannot be worked out.");
        }

        if (state is null || state.MayHold(latitude, longitude))
        {
            return null;
        }

        if (state.MayHold(latitude, -longitude))
        {
            return new(nameof(Longitude), $"In America longitude is below 0: write −{longitude.ToString(CultureInfo.InvariantCulture)}.");
        }

        if (state.MayHold(longitude, latitude) || state.MayHold(longitude, -latitude))
        {
            return new(nameof(Latitude), "Latitude and longitude look exchanged.");
        }

        var other = StateRules.All.FirstOrDefault(s => s.MayHold(latitude, longitude));
        return new(nameof(
            Latitude), $"This point does not lie in {state.Name}{(other is null ? "" : $"; it may lie in {other.Name}")}. Correct the "
                + $"numbers, or choose another state.");
    }

    private static double Number(string typed, string field, double least, double most, string words, List<Problem> problems)
    {
        var text = typed.Trim().Replace('−', '-').Replace(",", "", StringComparison.Ordinal);
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        problems.Add(new(field, field == nameof(Latitude) && number is >= -180 and <= 180 && number != 0
            ? $"{words} Are latitude and longitude exchanged?" : words));
        return 0;
    }
}
