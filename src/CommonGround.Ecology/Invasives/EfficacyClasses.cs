using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Invasives;

/// <summary>Wide shares to reckon with where nothing is published for a plant and method; the project's own convention.</summary>
/// <remarks>See docs/measures.md#control-calendar.</remarks>
public sealed class EfficacyClasses(IReadOnlyDictionary<(string Method, string Group), Span> rows)
{
    /// <summary>The share a treatment removes, 0–1: the published one where there is one, else the class of method and plant.</summary>
    /// <param name="taxon">Its form and duration choose the class.</param>
    /// <param name="advice">Method, and what is published of it.</param>
    public Span Of(CatalogueTaxon taxon, ControlAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return advice.Efficacy ?? Of(taxon, advice.Method);
    }

    /// <summary>The class of a method and plant; nothing where no class holds it.</summary>
    public Span Of(CatalogueTaxon taxon, ControlMethod method)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var woody = taxon.LifeForm is LifeForm.Shrub or LifeForm.Tree;
        var shortLived = !woody && !taxon.Duration.Contains("perennial", StringComparison.Ordinal) && taxon.Duration.Length > 0;
        var (word, group) = method switch
        {
            ControlMethod.Pull => ("pull", woody ? "woody seedling" : shortLived ? "annual or biennial"
                : "runner, root-sprout or bulb plant"),
            ControlMethod.Dig => ("dig", woody || shortLived ? "taproot" : "runner, bulb or tuber plant"),
            ControlMethod.Cut => ("cut", woody ? "woody, no stump treatment" : shortLived ? "biennial at flowering"
                : "runner or root-sprout plant"),
            ControlMethod.Mow => ("mow", shortLived ? "annual or biennial at the right time" : "runner or root-sprout plant"),
            ControlMethod.Smother => ("smother", "any low plant, full term"),
            ControlMethod.Deadhead => ("deadhead", "any"),
            ControlMethod.Girdle => ("girdle", "tree"),
            ControlMethod.CutBelowWater => ("cut_below_water", "reed, cattail, flag"),
            ControlMethod.Herbicide => ("cut_stump_or_foliar_by_label", woody ? "woody" : "herb"),
            ControlMethod.Burn => ("burn_by_trained_crew", woody ? "woody seedlings" : "herb"),
            ControlMethod.LeaveAndWatch => ("leave_and_watch", "any"),
            _ => ("report_first", "any"),
        };
        return rows.GetValueOrDefault((word, group));
    }
}
