using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Shared;

/// <summary>A plant's address: its scientific name in small letters with hyphens.</summary>
public static class PlantLink
{
    public static string To(CatalogueTaxon taxon) => "/plants/" + Slug(taxon.ScientificName);

    public static string Slug(string scientificName) =>
        string.Concat(scientificName.ToLowerInvariant().Select(c => char.IsLetterOrDigit(c) ? c : '-')).Trim('-');
}
