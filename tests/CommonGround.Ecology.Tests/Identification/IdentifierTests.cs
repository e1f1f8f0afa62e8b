using CommonGround.Ecology.Identification;

namespace CommonGround.Ecology.Tests.Identification;

public class IdentifierTests
{
    private static readonly FieldCharacter Leaves = new("leaves", "How do the leaves stand?",
        [new("opposite", "two at a node"), new("alternate", "one at a node")], 0.1);
    private static readonly FieldCharacter Rays = new("rays", "What colour are the rays?",
        [new("yellow", "yellow"), new("white", "white"), new("blue", "blue")], 0.05, NeedsFlower: true);
    private static readonly FieldCharacter Chaff = new("chaff", "Is there chaff between the florets?", [new("yes", "yes"), new("no", "no")],
        0.2, CostBits: 0.4);

    // Rows: an oxeye sunflower, a sunflower, a goldenrod, an aster. 0: unknown. The aster is white or blue.
    private static readonly ulong[,] Cells =
    {
        { 0b01, 0b001, 0b01 },
        { 0b10, 0b001, 0b01 },
        { 0b10, 0b001, 0b00 },
        { 0b10, 0b110, 0b10 },
    };

    private static Identifier Small => new(new CharacterMatrix([Leaves, Rays, Chaff], ["Heliopsis", "Helianthus", "Solidago", "Aster"],
        (t, c) => Cells[t, c]));

    private static readonly double[] Even = [1, 1, 1, 1];

    private static FieldAnswer Answer(string character, params string[] states) => new(character, states);

    [Fact]
    public void Two_taxa_and_one_answer_as_worked_by_hand()
    {
        var two = new Identifier(new CharacterMatrix([Leaves], ["a", "b"], (t, _) => 1UL << t));
        two.Posterior([Answer("leaves", "opposite")], [1, 1]).ShouldBe([0.9, 0.1], 1e-12);
        // 3 to 1 before: 0.3 · … as odds, 3 · 0.1 / 0.9 = 1 to 3.
        two.Posterior([Answer("leaves", "alternate")], [3, 1]).ShouldBe([0.25, 0.75], 1e-12);
        // The capacity of a binary symmetric channel with crossover 0.1 is 1 − H(0.1) = 0.531 bits
        // (Cover and Thomas, Elements of Information Theory, 2006, section 7.1.4).
        two.Next([0.5, 0.5], [])[0].GainBits.ShouldBe(0.531, 5e-4);
    }

    [Fact]
    public void A_small_matrix_as_worked_by_hand()
    {
        var found = Small.Posterior([Answer("leaves", "opposite"), Answer("rays", "yellow")], Even);
        // Heliopsis 0.9 · 0.95, the two others with yellow rays 0.1 · 0.95, the aster 0.1 · 0.05 / 2.
        double[] weights = [0.855, 0.095, 0.095, 0.0025];
        found.ShouldBe(weights.Select(w => w / weights.Sum()), 1e-12);
    }

    [Fact]
    public void One_of_several_states_adds_them_up_and_a_plant_with_several_shows_each_as_often()
    {
        var found = Small.Posterior([Answer("rays", "white", "blue")], Even);
        // The aster shows white or blue: 2 · (0.95 / 2 + 0.05 · 0.5 / 2) = 0.975; each other 2 · 0.05 / 2.
        double[] weights = [0.05, 0.05, 0.05, 0.975];
        found.ShouldBe(weights.Select(w => w / weights.Sum()), 1e-12);
    }

    [Fact]
    public void What_is_not_known_of_a_taxon_speaks_neither_for_nor_against_it()
    {
        // Chaff is unknown of the goldenrod; of the known three two have it, so it is like a plant with chaff in two thirds of cases.
        var identifier = Small;
        var found = identifier.Posterior([Answer("chaff", "yes")], Even);
        double usual = 2 / 3.0, unknown = (0.8 * usual) + (0.2 * (1 - usual));
        double[] weights = [0.8, 0.8, unknown, 0.2];
        found.ShouldBe(weights.Select(w => w / weights.Sum()), 1e-12);
        // The mean of the known: answered either way, it keeps its share of all.
        unknown.ShouldBe((0.8 + 0.8 + 0.2) / 3, 1e-12);
        identifier.Against(2, [Answer("chaff", "yes")]).ShouldBeEmpty();
        identifier.Unknown(2, [Answer("chaff", "yes")]).Count.ShouldBe(1);
    }

    [Fact]
    public void A_character_that_a_plant_does_not_have_is_named_by_mistake_only()
    {
        var two = new Identifier(new CharacterMatrix([Rays], ["aster", "grass"], (t, _) => t == 0 ? 0b110 : CharacterMatrix.NotThere));
        double[] weights = [0.4875, 0.025];
        two.Posterior([Answer("rays", "white")], [1, 1]).ShouldBe(weights.Select(w => w / weights.Sum()), 1e-12);
        two.Against(1, [Answer("rays", "white")]).Count.ShouldBe(1);
        // Seven and a half mistakes in a hundred: asked of both, the answer tells most of the one bit.
        two.Next([0.5, 0.5], [])[0].GainBits.ShouldBeInRange(0.7, 0.9);
    }

    [Fact]
    public void The_gain_is_the_entropy_now_less_the_one_expected_after_each_answer()
    {
        // The independent computation: by Bayes' rule itself, answer by answer.
        var chance = new Random(7);
        for (var round = 0; round < 200; round++)
        {
            var (identifier, prior) = Random(chance, taxa: 12, characters: 5);
            var now = identifier.Posterior([], prior);
            foreach (var question in identifier.Next(now, []))
            {
                var character = identifier.Matrix.Characters[question.Character];
                var expected = 0.0;
                foreach (var state in character.States)
                {
                    // P(answer) from its share of the joint probability, found with a taxon of known odds beside.
                    var answer = Answer(character.Id, state.Id);
                    var after = identifier.Posterior([answer], now);
                    var likely = Likely(identifier, question.Character, state.Id, now);
                    expected += likely * Entropy(after);
                }

                question.GainBits.ShouldBe(Entropy(now) - expected, 1e-9);
            }
        }
    }

    [Fact]
    public void Answers_in_any_order_give_one_result_and_it_sums_to_one()
    {
        var chance = new Random(11);
        for (var round = 0; round < 200; round++)
        {
            var (identifier, prior) = Random(chance, taxa: 20, characters: 6);
            var answers = identifier.Matrix.Characters.Select(c => Answer(c.Id, c.States[chance.Next(c.States.Count)].Id)).ToList();
            var found = identifier.Posterior(answers, prior);
            found.Sum().ShouldBe(1, 1e-12);
            answers.Reverse();
            identifier.Posterior(answers, prior).ShouldBe(found, 1e-12);
            // One after the other, each result the next prior.
            answers.Aggregate(identifier.Posterior([], prior), (p, a) => identifier.Posterior([a], p)).ShouldBe(found, 1e-9);
        }
    }

    [Fact]
    public void A_question_costs_and_what_only_a_flower_shows_waits_for_one()
    {
        var identifier = Small;
        var next = identifier.Next([0.25, 0.25, 0.25, 0.25], [Answer("leaves", "opposite")]);
        next.Select(q => identifier.Matrix.Characters[q.Character].Id).ShouldBe(["rays", "chaff"]);
        next[1].WorthBits.ShouldBe(next[1].GainBits - 0.4, 1e-12);
        identifier.Next([0.25, 0.25, 0.25, 0.25], [], cannotTell: ["leaves"], inFlower: false)
            .Select(q => identifier.Matrix.Characters[q.Character].Id).ShouldBe(["chaff"]);
    }

    [Fact]
    public void Answers_that_fit_nothing_are_named_in_pairs()
    {
        var identifier = Small;
        FieldAnswer opposite = Answer("leaves", "opposite"), white = Answer("rays", "white"), chaff = Answer("chaff", "yes");
        identifier.Exclusions([opposite, chaff]).ShouldBeEmpty();
        identifier.Exclusions([opposite, white, chaff]).ShouldBe([new(opposite, white), new(white, chaff)]);
        identifier.Against(0, [opposite, white, chaff]).ShouldBe([white]);
        identifier.For(0, [opposite, white, chaff]).ShouldBe([opposite, chaff]);
    }

    [Fact]
    public void A_newcomer_stays_possible_and_so_does_a_late_flower()
    {
        var prior = LocalPrior.Default;
        prior.Of(KnownFrom.Nowhere, null).ShouldBeGreaterThan(0);
        prior.Of(KnownFrom.Yard, true).ShouldBeGreaterThan(prior.Of(KnownFrom.Block, true));
        prior.Of(KnownFrom.Yard, false).ShouldBe(2, 1e-12);
        Should.Throw<InvalidOperationException>(() => new LocalPrior(Floor: 0).Of(KnownFrom.Nowhere, null));
    }

    [Fact]
    public void What_cannot_be_read_is_refused_in_words()
    {
        var identifier = Small;
        Should.Throw<ArgumentException>(() => identifier.Posterior([Answer("leafs", "opposite")], Even)).Message.ShouldContain("leafs");
        Should.Throw<ArgumentException>(() => identifier.Posterior([Answer("leaves", "round")], Even)).Message
            .ShouldContain("opposite, alternate");
        Should.Throw<ArgumentException>(() => identifier.Posterior([Answer("leaves")], Even)).Message.ShouldContain("no state");
        Should.Throw<ArgumentException>(() => identifier.Posterior([Answer("rays", "blue"), Answer("rays", "white")], Even)).Message
            .ShouldContain("twice");
        Should.Throw<ArgumentException>(() => identifier.Posterior([], [0, 0, 0, 0]));
        Should.Throw<ArgumentException>(() => identifier.Posterior([], [1, 1]));
        Should.Throw<ArgumentException>(() => new CharacterMatrix([Leaves], ["a"], (_, _) => 0b100));
        Should.Throw<ArgumentException>(() => new CharacterMatrix([Leaves], ["a", "a"], (_, _) => 1));
    }

    private static (Identifier Identifier, double[] Prior) Random(Random chance, int taxa, int characters)
    {
        var kinds = Enumerable.Range(0, characters).Select(c => new FieldCharacter($"c{c}", "?",
            [.. Enumerable.Range(0, chance.Next(2, 6)).Select(s => new CharacterState($"s{s}", "?"))], chance.NextDouble() * 0.3)).ToList();
        var cells = Enumerable.Range(0, taxa * characters).Select(i =>
            (ulong)chance.Next(0, 1 << kinds[i % characters].States.Count)).ToList();
        return (new(new CharacterMatrix(kinds, [.. Enumerable.Range(0, taxa).Select(t => $"t{t}")], (t, c) => cells[(t * characters) + c])),
            [.. Enumerable.Range(0, taxa).Select(_ => chance.NextDouble() + 0.01)]);
    }

    /// <summary>P(answer), by the definition in docs/measures.md, cell by cell.</summary>
    private static double Likely(Identifier identifier, int character, string state, double[] now)
    {
        var (matrix, kind) = (identifier.Matrix, identifier.Matrix.Characters[character]);
        var at = kind.States.Index().Single(s => s.Item.Id == state).Index;
        var known = Enumerable.Range(0, matrix.Taxa.Count).Where(t => matrix[t, character] != 0).ToList();
        double Shown(int t) => Enumerable.Range(0, kind.States.Count).Count(s => (matrix[t, character] >> s & 1) == 1) is var all and > 0
            ? (matrix[t, character] >> at & 1) / (double)all
            : known.Count == 0 ? 1.0 / kind.States.Count : known.Average(Shown);
        return Enumerable.Range(0, matrix.Taxa.Count).Sum(t => now[t] * (((1 - kind.ErrorRate) * Shown(t))
            + (kind.ErrorRate / (kind.States.Count - 1) * (1 - Shown(t)))));
    }

    private static double Entropy(IEnumerable<double> probabilities) => -probabilities.Where(p => p > 0).Sum(p => p * Math.Log2(p));
}
