using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Regions;

/// <summary>The region in words.</summary>
public static class RegionWords
{
    /// <summary>"Springfield, Missouri"; "northern Illinois" where no place is given.</summary>
    public static string Place(CurrentNeighbourhood neighbourhood)
    {
        ArgumentNullException.ThrowIfNull(neighbourhood);
        if (neighbourhood.Locality is not { } place)
        {
            return "northern Illinois";
        }

        var state = StateRules.Find(place.State)?.Name ?? "outside the ten states";
        return neighbourhood.PlaceName.Length > 0 ? $"{neighbourhood.PlaceName}, {state}" : state;
    }

    /// <summary>Where dates of bloom hold, and what they rest on.</summary>
    public static string BloomPlace(CurrentNeighbourhood neighbourhood)
    {
        ArgumentNullException.ThrowIfNull(neighbourhood);
        return neighbourhood.Locality is { } place && SpringShift.HalfMonths(place.SpringDays) != 0
            ? $"{Place(neighbourhood)}, worked out from northern Illinois"
            : neighbourhood.Locality is null ? "northern Illinois" : $"{Place(neighbourhood)}, as in northern Illinois";
    }

    /// <summary>The regional table that C and nativity come from, as it is named beside every floristic figure.</summary>
    public static string Table(CurrentNeighbourhood neighbourhood)
    {
        ArgumentNullException.ThrowIfNull(neighbourhood);
        return neighbourhood.Locality is not { } place ? "Chicago region 2017"
            : StateRules.TablesOf(place) is not { } tables ? "none: no table is held for this place"
            : RegionalTables.NameOf(tables.First) + (tables.Second.Count > 0
            ? $", with values borrowed from {RegionalTables.NameOf(tables.Second[0])}" : "");
    }

    /// <summary>" Two values here are borrowed: common snowberry, wild hyacinth." Empty where each comes from the place's own
    /// table.</summary>
    public static string Borrowed(IEnumerable<CatalogueTaxon> taxa)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        var names = taxa.Where(t => t.C is not null && t.Regional is { IsBorrowed: true }).Select(t => t.DisplayName).Distinct()
            .Order(StringComparer.Ordinal).ToList();
        return names.Count == 0 ? ""
            : $" {Words.Spelled(names.Count)} {(names.Count == 1 ? "value here is" : "values here are")} borrowed from the second table: "
            + $"{Words.List([.. names.Take(6)])}{(names.Count > 6 ? " and others" : "")}.";
    }

    /// <summary>"15 days earlier", "9 days later", "at the same time".</summary>
    public static string Days(double days) => Math.Round(Math.Abs(days)) is var whole && whole < 1 ? "at the same time"
        : $"{whole:0} {(whole == 1 ? "day" : "days")} {(days < 0 ? "earlier" : "later")}";

    /// <summary>What bloom dates rest on, in full sentences.</summary>
    public static string BloomSentence(CurrentNeighbourhood neighbourhood)
    {
        ArgumentNullException.ThrowIfNull(neighbourhood);
        return neighbourhood.Locality is not { } place
            ? "Bloom dates are those of northern Illinois. Say where the group is, and they move."
            : SpringShift.HalfMonths(place.SpringDays) == 0
            ? $"Bloom dates are those of northern Illinois; at {Place(neighbourhood)} spring comes {Days(place.SpringDays)}, less than "
            + $"half a half-month. Expect them to be wrong by two weeks either way."
            : $"Bloom dates are worked out from northern Illinois, {Days(place.SpringDays)} for {Place(neighbourhood)}, fading out by "
            + $"August. Expect them to be wrong by two weeks either way, more in a dry year. Your own records are the better guide.";
    }

    /// <summary>Why a taxon stands as it does at the group's place.</summary>
    public static string Why(CatalogueTaxon taxon, CurrentNeighbourhood neighbourhood)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(neighbourhood);
        if (taxon.Regional is not { } status)
        {
            return "";
        }

        var state = StateRules.Find(neighbourhood.Locality?.State ?? "")?.Name ?? "this place";
        var table = RegionalTables.NameOf(status.Table);
        var under = status.NameInTable.Length > 0 ? $", as {status.NameInTable}" : "";
        return status.Basis switch
        {
            NativityBasis.OwnTable => $"{(taxon.Nativity == Nativity.Native ? "Native" : "Introduced")} by the table of {table}{under}.",
            NativityBasis.SecondTable => $"The place’s own table does not settle it; "
                + $"{(taxon.Nativity == Nativity.Native ? "native" : "introduced")} by the table of {table}{under}, from which its value "
                + $"is borrowed.",
            NativityBasis.AgencyListOnly => $"Said to be native in {state} by a federal list only, which is too weak a source to offer it.",
            NativityBasis.DependsOnVariety when taxon.Nativity == Nativity.Introduced => $"A native and an introduced kind go by this name "
                + $"in {state}. It is taken as the introduced one; have a plant named before it is treated.",
            NativityBasis.DependsOnVariety => $"Native or introduced in {state} depends on the variety. It is not offered until somebody "
                + $"says which one it is.",
            _ => status.IsPresent ? $"Recorded in {state}, and native there by no table that is held."
                : $"Not recorded in {state} in the lists that are held. A find is news, not an error.",
        };
    }
}
