using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Tests.Names;

public class NameIndexTests
{
    private static readonly NameIndex Index = new([
        Taxon("Symphyotrichum laeve", ["smooth blue aster"], "Aster laevis"),
        Taxon("Symphyotrichum oblongifolium", ["aromatic aster"], "Aster oblongifolius"),
        Taxon("Symphyotrichum novae-angliae", ["New England aster"], "Aster novae-angliae"),
        Taxon("Echinacea pallida", ["pale purple coneflower"]),
        Taxon("Echinacea purpurea", ["purple coneflower", "eastern purple coneflower"]),
        Taxon("Asclepias tuberosa", ["butterfly milkweed", "butterfly weed"]),
        Taxon("Asclepias incarnata", ["swamp milkweed"]),
        Taxon("Carex stricta", ["tussock sedge"]),
        Taxon("Lonicera × bella", ["Bell's honeysuckle"]),
        Taxon("Silphium integrifolium var. deamii", ["Deam's rosinweed"]),
    ]);

    private static CatalogueTaxon Taxon(string name, string[] common, params string[] synonyms) =>
        new() { ScientificName = name, CommonNames = common, Synonyms = synonyms };

    [Theory]
    [InlineData("Symphyotrichum laeve", "Symphyotrichum laeve")]
    [InlineData("symphyotrichum LAEVE", "Symphyotrichum laeve")]
    [InlineData("Symphyotrichum laeve (L.) Á. Löve & D. Löve", "Symphyotrichum laeve")]
    [InlineData("Aster laevis L.", "Symphyotrichum laeve")]
    [InlineData("Aster cf. laevis", "Symphyotrichum laeve")]
    [InlineData("  Áster   laevis ", "Symphyotrichum laeve")]
    [InlineData("Aster novae-angliae", "Symphyotrichum novae-angliae")]
    [InlineData("Carex stricta Lam. ex Willd.", "Carex stricta")]
    [InlineData("Lonicera x bella", "Lonicera × bella")]
    [InlineData("Lonicera ×bella Zabel", "Lonicera × bella")]
    [InlineData("Lonicera bella", "Lonicera × bella")]
    [InlineData("Silphium integrifolium Michx. var deamii L.M.Perry", "Silphium integrifolium var. deamii")]
    public void A_name_resolves_through_synonyms_and_habits_of_spelling(string written, string accepted) =>
        Index.Resolve(written).ShouldNotBeNull().ScientificName.ShouldBe(accepted);

    [Theory]
    [InlineData("")]
    [InlineData("Symphyotrichum")]
    [InlineData("Carex sp.")]
    [InlineData("Echinacea palida")]
    [InlineData("Echinacea purpurea 'Magnus'")]
    [InlineData("Silphium integrifolium")]
    [InlineData("smooth blue aster")]
    [InlineData("\ud800 ×")]
    public void A_name_that_is_not_listed_does_not_resolve(string written) => Index.Resolve(written).ShouldBeNull();

    [Theory]
    [InlineData("Echinacea palida", "Echinacea pallida")]
    [InlineData("Asclepias tuberoas", "Asclepias tuberosa")]
    [InlineData("Aster laevus", "Symphyotrichum laeve")]
    [InlineData("Carex strcta", "Carex stricta")]
    public void The_nearest_name_is_the_one_meant(string written, string meant)
    {
        var nearest = Index.Nearest(written, 3);
        nearest.Count.ShouldBe(3);
        nearest[0].ScientificName.ShouldBe(meant);
        nearest.Distinct().Count().ShouldBe(3);
    }

    [Theory]
    [InlineData("aro ast", "aromatic aster", NameKind.Common)]
    [InlineData("aster aro", "aromatic aster", NameKind.Common)]
    [InlineData("new eng", "New England aster", NameKind.Common)]
    [InlineData("nwe england ast", "New England aster", NameKind.Common)]
    [InlineData("ECHI PAL", "Echinacea pallida", NameKind.Scientific)]
    [InlineData("purple cone", "purple coneflower", NameKind.Common)]
    [InlineData("mlikweed", "swamp milkweed", NameKind.Common)]
    [InlineData("bells honey", "Bell's honeysuckle", NameKind.Common)]
    [InlineData("aster laev", "Aster laevis", NameKind.Synonym)]
    [InlineData("car", "Carex stricta", NameKind.Scientific)]
    public void The_first_suggestion_fits_what_is_typed(string typed, string name, NameKind kind)
    {
        var first = Index.Suggest(typed, 5)[0];
        (first.Matched, first.Kind).ShouldBe((name, kind));
    }

    [Fact]
    public void A_taxon_is_suggested_once_and_no_more_than_asked_for()
    {
        Index.Suggest("a", 50).Select(s => s.Taxon).ShouldBeUnique();
        Index.Suggest("a", 2).Count.ShouldBe(2);
        Index.Suggest("aster", 50).Count.ShouldBe(3);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" - ")]
    [InlineData("zzzzqqq")]
    [InlineData("a b c d e f g h i j k l")]
    [InlineData("\ud800")]
    public void Nothing_is_suggested_for_nothing(string typed) => Index.Suggest(typed, 5).ShouldBeEmpty();
}
