using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Walks;

/// <summary>What a note of a walk is about.</summary>
public enum WalkNoteKind { Look, Wildlife, Unwanted, Photo, End }

/// <summary>One thing tapped on a walk, as the phone keeps it until the site has said that it is stored.</summary>
/// <param name="Id">Made on the phone: the site stores each once, however often it comes.</param>
/// <param name="WalkId">The walk it was tapped on, made on the phone too.</param>
/// <param name="MemberId">Who tapped it; somebody else signed in on the same phone must not send it as theirs.</param>
/// <param name="NeighbourhoodId">Where it belongs.</param>
/// <param name="SaidAtUtc">When, by the phone's clock.</param>
/// <param name="AfterUtc">The site's clock when the phone last took the yard along: nothing can have been seen before.</param>
/// <param name="Yard">The yard's code.</param>
public sealed record WalkNote(Guid Id, Guid WalkId, WalkNoteKind Kind, long? MemberId, int NeighbourhoodId, DateTime SaidAtUtc,
    DateTime AfterUtc, string Yard)
{
    /// <summary>The bed, or 0 for the yard as a whole.</summary>
    public long BedId { get; init; }

    /// <summary>The plant's scientific name, or the name it is recorded under; empty where no plant is meant.</summary>
    public string Taxon { get; init; } = "";

    /// <summary>The name is recorded as it was typed, though the catalogue does not list it: a genus, an aggregate, a plain name.</summary>
    public bool AsWritten { get; init; }

    public string Patch { get; init; } = "";

    /// <summary>The sighting the walker's list was made from; null for a plant that is new.</summary>
    public long? LastSightingId { get; init; }

    /// <summary>What a look at a planting found.</summary>
    public LookSaid? Look { get; init; }

    public WildlifeSaid? Wildlife { get; init; }

    public UnwantedSaid? Unwanted { get; init; }

    public PhotoSaid? Photo { get; init; }

    public EndSaid? End { get; init; }

    /// <summary>The day it is about, where that is not the day it was tapped: of a choice between two records.</summary>
    public DateOnly? Day { get; init; }

    /// <summary>Notes that this one takes back: they count no more, and stay in the record of what was received.</summary>
    public IReadOnlyList<Guid> Over { get; init; } = [];

    /// <summary>Notes between which this one chooses: their difference is settled.</summary>
    public IReadOnlyList<Guid> Settles { get; init; } = [];
}

/// <summary>What a walker said of a planting. What is null was not said, and stays as it was known.</summary>
public sealed record LookSaid
{
    public Finding? Finding { get; init; }

    /// <summary>Ground covered, m².</summary>
    public double? CoverSquareMetres { get; init; }
    public int? Count { get; init; }

    /// <summary>BBCH principal growth stage, 0–9.</summary>
    public int? GrowthStage { get; init; }
    public Certainty? Certainty { get; init; }

    /// <summary>cf., aff., or empty to say that there is no such doubt.</summary>
    public string? Qualifier { get; init; }
    public Origin? Origin { get; init; }

    /// <summary>Where in the bed, in words.</summary>
    public string? Place { get; init; }
    public string? Remark { get; init; }

    /// <summary>Seed collected, g.</summary>
    public double? SeedCollectedGrams { get; init; }

    /// <summary>The stage was taken out; said at the desk only.</summary>
    public bool NoStage { get; init; }

    /// <summary>The seed was taken out; said at the desk only.</summary>
    public bool NoSeed { get; init; }

    /// <summary>Who checked the name; said at the desk only.</summary>
    public string? VerifiedBy { get; init; }

    /// <summary>The cover was worked out from the count; said at the desk only.</summary>
    public bool? CoverDerived { get; init; }
}

/// <summary>Animals seen on a plant.</summary>
/// <param name="Name">A name of the walker's own, such as "monarch"; may be empty.</param>
public sealed record WildlifeSaid(WildlifeKind Kind, CountClass Count, string Name);

/// <param name="AreaSquareMetres">Ground on which it stands.</param>
/// <param name="CoverPercent">Share of that ground it covers, 0–100.</param>
/// <param name="GrowthStage">BBCH principal growth stage, 0–9; null where nobody looked.</param>
public sealed record UnwantedSaid(double AreaSquareMetres, double CoverPercent, int? GrowthStage, Certainty Certainty, string Remark);

/// <param name="TakenOn">The day the camera gave it, else the day of the walk.</param>
public sealed record PhotoSaid(DateOnly TakenOn, string Caption);

/// <summary>A walk that came to its end.</summary>
/// <param name="Minutes">How long it took, 1 or more.</param>
/// <param name="Looked">Plantings that were looked at.</param>
public sealed record EndSaid(DateTime StartedAtUtc, int Minutes, int Looked);
