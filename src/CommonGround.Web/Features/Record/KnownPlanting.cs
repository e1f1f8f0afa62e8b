using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Record;

/// <summary>What is known of a planting before a line is recorded. A line that does not say otherwise leaves it so.</summary>
public sealed record KnownPlanting(double CoverSquareMetres, int? Count, bool CoverDerived, Origin Origin, Certainty Certainty,
    string Qualifier, string VerifiedBy)
{
    public static Origin OriginOf(PlantingDraft line, KnownPlanting? known) => line.Origin ?? known?.Origin ?? Origin.Planted;

    public static Certainty CertaintyOf(PlantingDraft line, KnownPlanting? known) => line.Certainty ?? known?.Certainty
        ?? Certainty.Certain;

    /// <summary>Who says that the plant is certain takes cf. away; who says nothing of it leaves it.</summary>
    public static string QualifierOf(PlantingDraft line, KnownPlanting? known) =>
        line.Qualifier.Length > 0 ? line.Qualifier : line.Certainty == Certainty.Certain ? "" : known?.Qualifier ?? "";

    /// <summary>A check of the name stands until somebody doubts it anew.</summary>
    public static string VerifiedByOf(PlantingDraft line, KnownPlanting? known) =>
        line.Qualifier.Length > 0 || line.Certainty is Certainty.Tentative or Certainty.Probable ? "" : known?.VerifiedBy ?? "";
}
