using System.Text.Json;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using FsCheck.Xunit;

namespace CommonGround.Planning.Tests.GapFilling;

public class GapSuggestionsTests
{
    private static readonly GrowingSite AnyGround = new(null, null, null);
    private static readonly Dictionary<string, int> Nowhere = [];

    [Fact]
    public void The_worked_example_of_a_sunny_bed_comes_out()
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(Root(), "shared", "worked-examples",
            "planning-gap-suggestions.json")));
        var (input, expected) = (document.RootElement.GetProperty("input"),
            document.RootElement.GetProperty("expected").GetProperty("suggestions"));
        var season = input.GetProperty("season").Deserialize<Season>(WorkedCase.Json)!;
        var site = input.GetProperty("site").Deserialize<GrowingSite>(WorkedCase.Json)!;
        var catalogue = input.GetProperty("catalogue").Deserialize<WorkedCase[]>(WorkedCase.Json)!.Select(c => c.Taxon());
        var present = input.GetProperty("present").Deserialize<HashSet<string>>()!;
        var inFlower = input.GetProperty("inFlower").Deserialize<int[]>()!;
        var nearby = input.GetProperty("placesNearby").Deserialize<Dictionary<string, int>>()!;

        var found = GapSuggestions.For(catalogue, present, inFlower, season, site, nearby, 100);

        var wanted = expected.EnumerateArray().ToList();
        found.Select(s => s.Taxon.ScientificName).ShouldBe(wanted.Select(w => w.GetProperty("name").GetString()));
        foreach (var (suggestion, want) in found.Zip(wanted))
        {
            suggestion.Closes.ShouldBe(want.GetProperty("closes").Deserialize<int[]>(), suggestion.Taxon.ScientificName);
            suggestion.Helps.ShouldBe(want.GetProperty("helps").Deserialize<int[]>(), suggestion.Taxon.ScientificName);
            suggestion.PlacesNearby.ShouldBe(want.GetProperty("placesNearby").GetInt32(), suggestion.Taxon.ScientificName);
        }
    }

    [Property]
    public void The_order_of_the_catalogue_does_not_matter(int seed)
    {
        var random = new Random(seed);
        var (catalogue, present, inFlower, site) = Any(random);
        var first = GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, 10);
        random.Shuffle(catalogue);
        var second = GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, 10);
        second.Select(s => s.Taxon.ScientificName).ShouldBe(first.Select(s => s.Taxon.ScientificName));
    }

    [Property]
    public void Nothing_present_introduced_unwanted_toxic_weedy_or_unsuited_is_suggested(int seed)
    {
        var (catalogue, present, inFlower, site) = Any(new Random(seed));
        foreach (var suggestion in GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, 1000))
        {
            var taxon = suggestion.Taxon;
            present.ShouldNotContain(taxon.ScientificName);
            taxon.Nativity.ShouldBe(Nativity.Native);
            taxon.ImpactRank.ShouldBe(ImpactRank.Unranked);
            taxon.Toxicity.ShouldBeEmpty();
            (taxon.C ?? 10).ShouldBeGreaterThanOrEqualTo(2);
            taxon.Light.ShouldContain(site.Light!.Value);
            taxon.Moisture.ShouldContain(site.Moisture!.Value);
            taxon.HeightMaxMetres!.Value.ShouldBeLessThanOrEqualTo(site.TallestMetres!.Value);
        }
    }

    [Property]
    public void Every_suggestion_flowers_in_a_gap_that_those_before_it_left(int seed)
    {
        var (catalogue, present, inFlower, site) = Any(new Random(seed));
        var now = inFlower.ToArray();
        var suggestions = GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, 1000);
        foreach (var suggestion in suggestions)
        {
            suggestion.Helps.ShouldBe(Enumerable.Range(6, 14).Where(t => now[t] < 3 && suggestion.Taxon.Bloom!.Value.Contains(t)));
            suggestion.Helps.ShouldNotBeEmpty();
            suggestion.Closes.ShouldBe(suggestion.Helps.Where(t => now[t] == 2));
            Enumerable.Range(0, 24).Where(t => suggestion.Taxon.Bloom!.Value.Contains(t)).ToList().ForEach(t => now[t]++);
        }

        suggestions.DistinctBy(s => s.Taxon.ScientificName).Count().ShouldBe(suggestions.Count);
        GapSuggestions.For(catalogue, present.Concat(suggestions.Select(s => s.Taxon.ScientificName)).ToHashSet(), now, Season.Default,
            site, Nowhere, 1).ShouldBeEmpty();
    }

    [Property]
    public void More_asked_for_only_adds_at_the_end(int seed, byte few)
    {
        var (catalogue, present, inFlower, site) = Any(new Random(seed));
        var all = GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, 1000);
        var some = GapSuggestions.For(catalogue, present, inFlower, Season.Default, site, Nowhere, few + 1);
        some.Select(s => s.Taxon.ScientificName).ShouldBe(all.Take(few + 1).Select(s => s.Taxon.ScientificName));
    }

    [Property]
    public void Without_a_gap_there_is_nothing_to_suggest(int seed)
    {
        var random = new Random(seed);
        var (catalogue, present, _, _) = Any(random);
        int[] full = [.. Enumerable.Range(0, 24).Select(t => t is >= 6 and <= 19 ? random.Next(3, 9) : 0)];
        GapSuggestions.For(catalogue, present, full, Season.Default, AnyGround, Nowhere, 10).ShouldBeEmpty();
    }

    [Fact]
    public void Ground_nobody_described_rules_nothing_out_but_a_range_nobody_gave_does_not_suit_described_ground()
    {
        var plain = new CatalogueTaxon { ScientificName = "Planta ignota" };
        GapSuggestions.Suits(plain, AnyGround).ShouldBeTrue();
        GapSuggestions.Suits(plain, AnyGround with { Light = Light.Shade }).ShouldBeFalse();
        GapSuggestions.Suits(plain, AnyGround with { Moisture = Moisture.Dry }).ShouldBeFalse();
        GapSuggestions.Suits(plain, AnyGround with { TallestMetres = 1 }).ShouldBeFalse();
    }

    [Fact]
    public void Asking_for_none_or_for_another_year_is_a_mistake_of_the_program()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => GapSuggestions.For([], new HashSet<string>(), new int[24], Season.Default,
            AnyGround, Nowhere, 0));
        Should.Throw<ArgumentException>(() => GapSuggestions.For([], new HashSet<string>(), new int[12], Season.Default, AnyGround,
            Nowhere, 1));
    }

    private static (CatalogueTaxon[] Catalogue, HashSet<string> Present, int[] InFlower, GrowingSite Site) Any(Random random)
    {
        T[] Some<T>() where T : struct, Enum => [.. Enum.GetValues<T>().Where(_ => random.Next(2) == 0)];
        CatalogueTaxon[] catalogue = [.. Enumerable.Range(0, random.Next(1, 60)).Select(i => new CatalogueTaxon
        {
            ScientificName = $"Planta {(char)('a' + random.Next(26))}{i}", Nativity = (Nativity)random.Next(3),
                ImpactRank = random.Next(4) == 0 ? ImpactRank.Low : ImpactRank.Unranked,
            C = random.Next(4) == 0 ? null : random.Next(11), Toxicity = random.Next(5) == 0 ? "sap burns skin" : "",
            Light = Some<Light>(), Moisture = Some<Moisture>(), HeightMaxMetres = random.Next(5) == 0 ? null : random.NextDouble() * 3,
                PollinatorValue = random.Next(3) == 0 ? null : random.Next(3) / 2.0,
            Bloom = random.Next(5) == 0 ? null : new BloomWindow(random.Next(24), random.Next(24)),
        })];
        var present = catalogue.Where(_ => random.Next(5) == 0).Select(t => t.ScientificName).ToHashSet(StringComparer.Ordinal);
        int[] inFlower = [.. Enumerable.Range(0, 24).Select(_ => random.Next(6))];
        return (catalogue, present, inFlower, new GrowingSite((Light)random.Next(3), (Moisture)random.Next(4), 1 + random.NextDouble()));
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CommonGround.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("CommonGround.sln is above none of the folders.");
    }

    [Fact]
    public void With_a_record_of_visitors_the_one_that_feeds_more_bees_anew_goes_first()
    {
        // Two that close the same gaps; the pollinator value says one thing, the record another.
        CatalogueTaxon[] catalogue =
        [
            new() { ScientificName = "Flos primus", Nativity = Nativity.Native, Bloom = new(8, 9), PollinatorValue = 0.9, C = 5 },
            new() { ScientificName = "Flos secundus", Nativity = Nativity.Native, Bloom = new(8, 9), PollinatorValue = 0.1, C = 5 },
        ];
        var records = new Ecology.Pollinators.VisitorRecords([new("Andrena una", "", "bees", ""), new("Andrena altera", "", "bees", "")],
            [new("Flos primus", "Flos primus", "", [0]), new("Flos secundus", "Flos secundus", "", [0, 1])]);
        string First(Ecology.Pollinators.ForageIndex? forage) => GapSuggestions.For(catalogue, new HashSet<string>(), new int[24],
            Season.Default, AnyGround, Nowhere, 1, forage)[0].Taxon.ScientificName;
        First(null).ShouldBe("Flos primus");
        First(new(records, catalogue)).ShouldBe("Flos secundus");
    }
}
