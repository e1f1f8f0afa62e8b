using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class AfterOneLockTests
{
    [Fact]
    public void A_lock_keeps_the_mix_on_the_screen_and_a_limit_it_breaks_makes_another()
    {
        var request = QuarryFlora.Request(60);
        var shown = QuarryFlora.Solve(request, Effort.Quick).Mix.ShouldNotBeNull();
        var middle = shown.Taxa[shown.Taxa.Count / 2];
        var locked = request with
        {
            LockedAmounts = new Dictionary<string, PlantedAmount>(
            StringComparer.Ordinal)
            { [middle.Taxon.ScientificName] = middle.Amount }
        };
        var again = ConversionPlanner.Solve(locked, QuarryFlora.Around, QuarryFlora.Prices, Effort.Again, shown).Mix.ShouldNotBeNull();
        again.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount)
            .ShouldBe(shown.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount), ignoreOrder: true);
        again.Quality.ProvenBest.ShouldBeFalse();

        // What is not wanted any more cannot stay: the mix is chosen anew.
        var never = request with { Never = [middle.Taxon.ScientificName] };
        var other = ConversionPlanner.Solve(never, QuarryFlora.Around, QuarryFlora.Prices, Effort.Again, shown).Mix.ShouldNotBeNull();
        other.Taxa.ShouldNotContain(t => t.Taxon.ScientificName == middle.Taxon.ScientificName);
        MixChecks.Fails(MixMeasures.Lines(other), never, other.Method, thin: false).ShouldBeEmpty();
    }
}
