using System.Numerics;

namespace CommonGround.Ecology.Identification;

/// <summary>
/// How likely an observer is to name each state of a character, for each taxon.
/// </summary>
/// <remarks>
/// A plant shows one of its taxon's states, each as often as the other. The observer names it rightly, or, with the character's error rate
/// e, any other of the k states, each as often: P(a) = (1 − e)·s(a) + e·(1 − s(a))/(k − 1), where s is the share of a among the taxon's
/// states. Of a taxon whose cell is unknown the plant is taken to be like the mean of those that are known, so a gap in the table
/// speaks neither for nor against it. Of a
/// character that the taxon does not have, a state is named by mistake only. See docs/measures.md#identification.
/// </remarks>
internal static class Likelihood
{
    /// <summary>P(state | taxon), taxa × states, row by row.</summary>
    public static double[] Of(CharacterMatrix matrix, int character)
    {
        var kind = matrix.Characters[character];
        var k = kind.States.Count;
        var named = new double[matrix.Taxa.Count * k];
        var usual = matrix.Usual(character);
        for (var t = 0; t < matrix.Taxa.Count; t++)
        {
            var bits = matrix[t, character];
            var each = bits is 0 or CharacterMatrix.NotThere ? 0 : 1.0 / BitOperations.PopCount(bits);
            for (var s = 0; s < k; s++)
            {
                var shown = bits == 0 ? usual[s] : (bits >> s & 1) * each;
                named[(t * k) + s] = ((1 - kind.ErrorRate) * shown) + (kind.ErrorRate * (1 - shown) / (k - 1));
            }
        }

        return named;
    }
}
