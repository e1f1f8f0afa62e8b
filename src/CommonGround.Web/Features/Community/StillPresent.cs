using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Community;

/// <summary>Which last sightings still count as of a day: the group's rule of presence, worked out once for every taxon. All readings ask
/// it.</summary>
internal sealed class StillPresent
{
    private readonly DateOnly[] countsFrom;
    private readonly DateOnly freshFrom;

    private StillPresent(DateOnly[] countsFrom, DateOnly freshFrom) => (this.countsFrom, this.freshFrom) = (countsFrom, freshFrom);

    public static StillPresent Of(IReadOnlyList<CatalogueTaxon> taxa, DateOnly asOf, GroupRules rules) =>
        new([.. taxa.Select(t => rules.Presence.CountsFrom(t, asOf, rules.Season))], PresenceRule.SeenSince(1, asOf, rules.Season));

    /// <param name="taxon">Index of the taxon.</param>
    /// <param name="lastSeen">When it was last seen growing.</param>
    public bool Counts(int taxon, DateOnly lastSeen) => lastSeen >= countsFrom[taxon];

    /// <summary>Nobody has seen it since before the last whole season.</summary>
    public bool IsOld(DateOnly lastSeen) => lastSeen < freshFrom;
}
