namespace CommonGround.Ecology.Taxa;

/// <summary>Whom a plant harms, and whether a yard with children or animals keeps it out.</summary>
/// <remarks>No class is a statement that a plant is harmless: it means that nothing is known to us.</remarks>
public static class ToxicityGrades
{
    /// <summary>What a yard with small children keeps out.</summary>
    public static IReadOnlyList<ToxicityClass> Children { get; } = [ToxicityClass.DeadlyToPeople, ToxicityClass.PoisonousIfEaten,
        ToxicityClass.HarmsSkinOrEyes];

    /// <summary>What a yard with children, pets or stock keeps out: every class.</summary>
    public static IReadOnlyList<ToxicityClass> ChildrenAndAnimals { get; } = Enum.GetValues<ToxicityClass>();

    /// <summary>The classes of a taxon, gravest first. A taxon with a note and no class counts as poisonous if eaten, the cautious
    /// reading.</summary>
    public static IReadOnlyList<ToxicityClass> Of(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        if (taxon.ToxicityClasses.Count > 0) return [.. taxon.ToxicityClasses.Distinct().Order()];
        return taxon.Toxicity.Length > 0 ? [ToxicityClass.PoisonousIfEaten] : [];
    }

    /// <summary>The gravest class of a taxon; <c>null</c> where none is known.</summary>
    public static ToxicityClass? Gravest(CatalogueTaxon taxon) => Of(taxon) is [var first, ..] ? first : null;

    /// <summary>Whether a taxon is of one of the classes to be kept out.</summary>
    /// <param name="taxon">A catalogue row.</param>
    /// <param name="classes">Kept out; empty keeps nothing out.</param>
    public static bool IsKeptOut(CatalogueTaxon taxon, IEnumerable<ToxicityClass> classes)
    {
        ArgumentNullException.ThrowIfNull(classes);
        return Of(taxon).Any(classes.Contains);
    }
}
