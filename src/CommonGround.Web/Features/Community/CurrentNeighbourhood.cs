using CommonGround.Ecology.Regions;
using CommonGround.Web.Features.Regions;

namespace CommonGround.Web.Features.Community;

/// <summary>The neighbourhood a request or page is about.</summary>
public sealed record CurrentNeighbourhood(int Id, string Name, bool IsDemo)
{
    /// <summary>What people call the place; empty where nobody said.</summary>
    public string PlaceName { get; init; } = "";

    /// <summary>Where it grows its plants; null where nobody said.</summary>
    public Locality? Locality { get; init; }

    /// <summary>Where the dates of bloom hold, for a line beside them: "northern Illinois", or "Springfield, Missouri: worked
    /// out".</summary>
    public string BloomPlace => RegionWords.BloomPlace(this);
}

/// <summary>Where one request, one open page or one command stands. Set once, at the start; until then only a lone neighbourhood is
/// certain.</summary>
public sealed class NeighbourhoodContext(Neighbourhoods all)
{
    private Place? place;

    public Place Current => place ?? all.Lone
        ?? throw new InvalidOperationException("It is not known yet which neighbourhood this is about.");

    public void Use(int neighbourhoodId) => place = Of(neighbourhoodId);

    /// <summary>Another neighbourhood of the same site.</summary>
    public Place Of(int neighbourhoodId) => all.Find(neighbourhoodId)
        ?? throw new InvalidOperationException($"There is no neighbourhood {neighbourhoodId}.");
}
