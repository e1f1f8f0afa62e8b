using CommonGround.Ecology.Identification;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Identify;

/// <summary>A plant that it may be.</summary>
/// <param name="Probability">0 to 1, of the plants that the table knows.</param>
public sealed record Possible(CatalogueTaxon Taxon, double Probability, IReadOnlyList<FieldAnswer> Agrees,
    IReadOnlyList<FieldAnswer> Disagrees, IReadOnlyList<FieldAnswer> Unknown);

/// <summary>What comes of the answers.</summary>
/// <param name="Plants">The likeliest, the likeliest first.</param>
/// <param name="Genus">The genus that is likeliest with all its species, and how likely.</param>
/// <param name="Harmful">Deadly and skin-burning ones that it may be, or that one of the likeliest is taken for.</param>
/// <param name="Next">What to look at next, best first.</param>
/// <param name="Exclusions">Answers that no plant of the table shows together, where none goes with all.</param>
/// <param name="Known">Plants of the table.</param>
public sealed record Identified(IReadOnlyList<Possible> Plants, (string Name, double Probability) Genus,
    IReadOnlyList<CatalogueTaxon> Harmful, IReadOnlyList<FieldCharacter> Next, IReadOnlyList<Exclusion> Exclusions, int Known);

/// <summary>Which plant it may be, by what was seen, what grows in the neighbourhood and the time of year.</summary>
public sealed class IdentifyQueries(LiveCommunity live, FieldKeys keys, GroupClock clock)
{
    private const int Most = 6, Questions = 3;
    private const double Harm = 0.01, Likely = 0.1;

    /// <summary>Begun with while nothing is known: what everybody sees first.</summary>
    private static readonly string[] First = ["flower_colour", "life", "height", "leaf_place"];

    public async Task<Identified> OfAsync(IReadOnlyList<FieldAnswer> answers, IReadOnlyCollection<string> cannotTell, bool inFlower,
        bool organiser, CancellationToken cancel = default)
    {
        var figures = await live.FiguresAsync(organiser, cancel);
        var key = keys.Of(figures.Matrix.Taxa);
        var here = Plants.PlantQueries.Here(figures);
        var half = HalfMonth.Of(clock.Today);
        var prior = key.Taxa.Select((t, i) => LocalPrior.Default.Of(
            here[key.Places[i]].Yards > 0 ? KnownFrom.Neighbourhood : KnownFrom.Nowhere,
            inFlower && answers.Count > 0 && t.Bloom is { } bloom ? bloom.Contains(half) : null)).ToList();
        var found = key.Identifier.Posterior(answers, prior);
        var order = Enumerable.Range(0, found.Length).OrderByDescending(t => found[t]).ToList();
        var genus = key.Taxa.Index().GroupBy(t => t.Item.ScientificName.Split(' ')[0], StringComparer.Ordinal)
            .Select(g => (Name: g.Key, Probability: g.Sum(t => found[t.Index]))).MaxBy(g => g.Probability);
        return new([.. order.Take(Most).Select(t => Possible(key, t, found[t], answers))], genus,
            answers.Count == 0 ? [] : Harmful(key, order, found, answers),
            [.. key.Identifier.Next(found, answers, cannotTell, inFlower)
                .OrderBy(q => answers.Count == 0 ? Order(keys.Characters[q.Character].Id) : 0).Take(Questions)
                .Select(q => keys.Characters[q.Character])],
            key.Identifier.Exclusions(answers), key.Taxa.Count);
    }

    private static int Order(string character) => Array.IndexOf(First, character) is var at and >= 0 ? at : First.Length;

    private static Possible Possible(FieldKey key, int taxon, double probability, IReadOnlyList<FieldAnswer> answers) =>
        new(key.Taxa[taxon], probability, key.Identifier.For(taxon, answers), key.Identifier.Against(taxon, answers),
            key.Identifier.Unknown(taxon, answers));

    /// <summary>Whatever its rank: above one in a hundred, also for somebody who knows neither what grows here nor the season, or a
    /// look-alike of one that is likely.</summary>
    private static List<CatalogueTaxon> Harmful(FieldKey key, List<int> order, double[] found, IReadOnlyList<FieldAnswer> answers)
    {
        var taxa = key.Taxa;
        var anywhere = key.Identifier.Posterior(answers, [.. taxa.Select(_ => 1.0)]);
        var taken = order.Where(t => found[t] >= Likely).SelectMany(t => taxa[t].LookAlikes).ToHashSet(StringComparer.Ordinal);
        return [.. order.Where(t => Math.Max(found[t], anywhere[t]) >= Harm || taken.Contains(taxa[t].ScientificName)).Select(t => taxa[t])
            .Where(t => ToxicityGrades.Gravest(t) is ToxicityClass.DeadlyToPeople or ToxicityClass.HarmsSkinOrEyes)
            .OrderBy(t => ToxicityGrades.Gravest(t))];
    }
}
