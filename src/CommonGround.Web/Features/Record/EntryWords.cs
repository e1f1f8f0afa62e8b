using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>A line in words, with what stays as it was known.</summary>
public static class EntryWords
{
    public static KnownPlanting? Of(PlantingLine? known) => known is null ? null
        : new(known.CoverSquareMetres, known.Count, known.CoverDerived, known.Origin, known.Certainty, known.Qualifier, known.VerifiedBy);

    public static string Cover(PlantingDraft line, PlantingLine? known, Units units) =>
        line.Unclear.Length > 0 ? $"{line.Unclear}?"
        : line.Finding != Finding.Growing ? PlantWords.Of(line.Finding)
        : line.Cover is { } cover ? units.AreaWords(cover) + (line.CoverDerived ? $" from {line.Count}" : line.CoverPercent is { } percent
        ? $", {percent:0.#} % of the bed" : "")
        : line.KeepsCover && known is not null ? $"{units.AreaWords(known.CoverSquareMetres)} as before" : "not given";

    public static string Sure(PlantingDraft line, PlantingLine? known)
    {
        var (certainty, qualifier) = (KnownPlanting.CertaintyOf(line, Of(known)), KnownPlanting.QualifierOf(line, Of(known)));
        var words = PlantWords.Of(certainty) + (qualifier.Length > 0 ? ", " + qualifier : "");
        return line.Certainty is null && known is not null && certainty != Certainty.Certain ? words + " as before" : words;
    }

    public static string Origin(PlantingDraft line, PlantingLine? known) => PlantWords.Of(KnownPlanting.OriginOf(line, Of(known)))
        + (line.Origin is null && known is not null ? " as before" : "");

    /// <summary>What choosing a name that the catalogue does not list records.</summary>
    public static string AsWritten(CatalogueTaxon taxon) => taxon.Rank switch
    {
        RecordedRank.Genus => $"Record {taxon.ScientificName} sp.: only the genus is known",
        RecordedRank.Aggregate => $"Record {taxon.ScientificName}: one of a group hard to tell apart",
        _ => $"Record “{taxon.ScientificName}” as written; the catalogue does not list it",
    };

    /// <summary>The name that fits, where it is not the one shown.</summary>
    public static string Why(NameOffer offer) => offer.Kind == NameKind.Synonym
        || (offer.Kind == NameKind.Common && offer.Matched != offer.Taxon.DisplayName) ? $"also {offer.Matched}" : "";
}
