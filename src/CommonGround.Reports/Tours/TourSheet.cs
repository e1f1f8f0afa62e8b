using CommonGround.Reports.YardReports;
using LikenessPicture = CommonGround.Drawings.Pens.Picture;

namespace CommonGround.Reports.Tours;

/// <summary>Everything that is said of a tour, on paper and on the page. It holds no household's name and no position.</summary>
public sealed record TourSheet
{
    public required string Neighbourhood { get; init; }

    /// <summary>The data are invented; every page says so.</summary>
    public bool Demo { get; init; }

    /// <summary>The street, or the block of the one yard.</summary>
    public required string Place { get; init; }
    public required DateOnly On { get; init; }

    /// <summary>Where and when guests meet, as the steward wrote it.</summary>
    public string Meet { get; init; } = "";

    /// <summary>The page for phones, for the code.</summary>
    public required string Address { get; init; }
    public required IReadOnlyList<TourStop> Stops { get; init; }
}

/// <summary>A yard where guests stop.</summary>
/// <param name="Number">From 1, in walking order.</param>
/// <param name="Block">The block it stands on.</param>
/// <param name="Directions">How to find it, as the household said; empty where it names no address.</param>
/// <param name="Line">What the steward says there.</param>
/// <param name="Plants">What there is to see then.</param>
/// <param name="LeaveAlone">Plants of the yard that harm, with how, gravest first.</param>
public sealed record TourStop(int Number, string Block, string Directions, string Line, IReadOnlyList<TourPlant> Plants,
    IReadOnlyList<string> LeaveAlone)
{
    /// <summary>What only the steward reads; null on anything that guests get.</summary>
    public StewardNote? Steward { get; init; }
}

/// <summary>A plant at a stop.</summary>
/// <param name="State">"in flower", "in fruit" or "worth a touch", with the day where somebody saw it so.</param>
/// <param name="Mark">Its telling mark; empty where nobody has described it.</param>
/// <param name="Visitors">Who visits it by the record; empty where nothing is written down.</param>
/// <param name="Touch">What is worth a touch; empty for everything else, and always for what harms.</param>
/// <param name="Caution">What to take care of; empty where nothing is known.</param>
public sealed record TourPlant(string Name, string Latin, LikenessPicture Likeness, string State, string Mark, string Visitors,
    string Touch, string Caution);

/// <summary>For the steward alone: which yard it is, and what to look at again.</summary>
/// <param name="Code">The yard's code.</param>
/// <param name="Household">The household's own label.</param>
/// <param name="LastSeen">When somebody last recorded there; null where nobody has.</param>
/// <param name="Doubtful">What was probable or tentative last time, each with its marks.</param>
/// <param name="Unwanted">Unwanted plants on record there.</param>
public sealed record StewardNote(string Code, string Household, DateOnly? LastSeen, IReadOnlyList<string> Doubtful,
    IReadOnlyList<string> Unwanted);

/// <summary>What every tour says beside its stops.</summary>
public static class TourWords
{
    /// <summary>Common practice on garden visits; it defers to nobody's judgement but the household's and the steward's.</summary>
    public static IReadOnlyList<string> Rules { get; } =
    [
        "Stay on the path or the mown edge, and ask before you enter.",
        "Touch only what this says is worth a touch. With sensitive skin, or where you are not sure, touch nothing.",
        "Eat and pick nothing. Nothing here says that a plant is safe to eat; some plants on the way are poisonous.",
        "Keep children and dogs beside you.",
        "Look for ticks afterwards.",
        "Who lives here lets you in as a favour: no photos of people or houses without asking.",
    ];

    public const string Dates = "What flowers is told by the usual dates and by what was seen in the last two weeks; a warm or cold year "
        + "moves it. Visitors are those written down at Carlinville, Illinois, 1884–1916.";

    internal static string Title(TourSheet tour) => $"Tour of {tour.Place}, {Wording.Date(tour.On)}";
}
