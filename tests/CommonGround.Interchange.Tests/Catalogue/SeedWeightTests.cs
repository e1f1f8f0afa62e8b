using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Tests.Catalogue;

/// <summary>Seeds per gram held against those of relatives: a placeholder stands out.</summary>
public class SeedWeightTests
{
    /// <summary>
    /// Plants whose seed truly differs from their relatives'. Each figure agrees within a factor of two with the Kew Seed Information
    /// Database (read 2019), an Illinois prairie trait list or the agency, as its source says, or the reason is plain from the fruit (from
    /// memory).
    /// </summary>
    private static readonly Dictionary<string, string> Justified = new(StringComparer.Ordinal)
    {
        ["Acer saccharinum"] = "the largest key of the maples, ripe in May",
        ["Aesculus glabra"] = "a nut among winged seeds",
        ["Aesculus hippocastanum"] = "a nut among winged seeds",
        ["Allium canadense"] = "bulblets are counted, not seed",
        ["Allium schoenoprasum"] = "small seed of a small onion; bulblets pull the genus down",
        ["Ambrosia trifida"] = "burs much larger than common ragweed's",
        ["Aruncus dioicus"] = "dust among cherries and roses",
        ["Bouteloua dactyloides"] = "burs, several seeds in each",
        ["Bouteloua gracilis"] = "naked florets; the burs of buffalo grass pull the genus down",
        ["Cardamine concatenata"] = "a large-seeded toothwort among bittercresses",
        ["Carex grayi"] = "the largest perigynia of the genus here",
        ["Carex intumescens"] = "bladders nearly as large as those of C. grayi",
        ["Carex jamesii"] = "a woodland sedge with few large fruits",
        ["Corylus americana"] = "a nut among birches and alders",
        ["Desmodium glutinosum"] = "large joints of a woodland tick trefoil",
        ["Euphorbia maculata"] = "a mat-forming annual with minute seed",
        ["Euphorbia marginata"] = "large seed of a tall annual",
        ["Galium boreale"] = "dry small fruit among bristly burs",
        ["Gymnocladus dioicus"] = "the largest seed of the family here",
        ["Penstemon grandiflorus"] = "the largest seed of the genus here",
        ["Populus deltoides"] = "larger seed than the aspens'",
        ["Prunus americana"] = "plum stones among cherry stones",
        ["Ranunculus sceleratus"] = "hundreds of minute fruits in a head",
        ["Ricinus communis"] = "a bean among spurges",
        ["Scirpus cyperinus"] = "dust among sedges",
        ["Tripsacum dactyloides"] = "hard joints of a quarter of an inch among grass seed",
    };

    [Fact]
    public void What_differs_from_its_relatives_is_listed_and_justified() =>
        ShippedCatalogue.Taxa.Where(t => SeedRelatives.IsOutlier(t, ShippedCatalogue.Taxa)).Select(t => t.ScientificName)
            .Order(StringComparer.Ordinal)
            .ShouldBe(Justified.Keys.Order(StringComparer.Ordinal));

    [Theory]
    [InlineData("Erigeron strigosus", 551)]
    [InlineData("Viburnum dentatum", 1270)]
    public void A_placeholder_of_the_national_table_would_stand_out(string name, double placeholder)
    {
        var wrong = ShippedCatalogue.Of(name) with { SeedsPerGram = placeholder };
        SeedRelatives.IsOutlier(wrong, ShippedCatalogue.Taxa).ShouldBeTrue();
        SeedRelatives.IsOutlier(ShippedCatalogue.Of(name), ShippedCatalogue.Taxa).ShouldBeFalse();
    }

    /// <summary>Counts printed by growers and by the trial of the Iowa and Minnesota mixes (common practice, from memory): seeds in a
    /// gram.</summary>
    [Theory]
    [InlineData("Erigeron strigosus", 28_000)]
    [InlineData("Rudbeckia hirta", 3_250)]
    [InlineData("Schizachyrium scoparium", 530)]
    [InlineData("Sporobolus heterolepis", 560)]
    [InlineData("Asclepias tuberosa", 152)]
    [InlineData("Dalea purpurea", 600)]
    public void Common_seed_is_within_a_third_of_what_growers_print(string name, double seeds) =>
        (ShippedCatalogue.Of(name).SeedsPerGram!.Value / seeds).ShouldBeInRange(0.67, 1.5);

    [Fact]
    public void A_taxon_without_relatives_cannot_be_judged()
    {
        var lone = new CatalogueTaxon { ScientificName = "Ginkgo biloba", Family = "Ginkgoaceae", SeedsPerGram = 1 };
        SeedRelatives.Compare(lone, [lone]).ShouldBeNull();
        SeedRelatives.IsOutlier(lone, [lone]).ShouldBeFalse();
    }
}
