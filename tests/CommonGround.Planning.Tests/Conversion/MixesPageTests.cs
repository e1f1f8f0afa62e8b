using System.Globalization;
using System.Text;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>docs/mixes.md shows twelve mixes in full, for people to judge; it is written from the code.</summary>
public class MixesPageTests
{
    private const string Write = "COMMONGROUND_WRITE_MIXES";

    private static readonly (string Name, ConversionRequest Request)[] Sites =
    [
        ("Sunny, medium soil, 132 m²", QuarryFlora.Request(132)),
        ("Dry sand in the sun, 60 m²", QuarryFlora.Request(60, moisture: Moisture.Dry) with { SoilTexture = SoilTexture.Sand }),
        ("Wet, in the sun, 200 m²", QuarryFlora.Request(200, moisture: Moisture.Wet)),
        ("Shade, 80 m²", QuarryFlora.Request(80, Light.Shade)),
        ("Part shade, 12 m²", QuarryFlora.Request(12, Light.PartShade)),
        ("A sunny corner of 2 m²", QuarryFlora.Request(2)),
        ("A meadow of 5,000 m², seed only", QuarryFlora.Request(5000) with { Method = Method.Seed }),
        ("By a kerb, 20 m², to 0.6 m", QuarryFlora.Request(20) with { TallestMetres = 0.6, Kerb = true }),
        ("132 m² for $150", QuarryFlora.Request(132) with { Budget = 150 }),
        ("A bed of 6 m²", QuarryFlora.Request(6)),
        ("132 m² for $30: less ground this year", QuarryFlora.Request(132) with { Budget = 30 }),
        ("A moist swale, 40 m²", QuarryFlora.Request(40, moisture: Moisture.Moist)),
    ];

    [Fact]
    public void The_page_of_twelve_mixes_says_what_the_planner_says_today()
    {
        var path = Path.Combine(Repository.Root(), "docs", "mixes.md");
        var page = Page();
        if (Environment.GetEnvironmentVariable(Write) == "1") File.WriteAllText(path, page);
        File.ReadAllText(path).ReplaceLineEndings("\n")
            .ShouldBe(page, $"docs/mixes.md is stale. Write it anew: {Write}=1 dotnet test tests/CommonGround.Planning.Tests --filter "
            + $"MixesPageTests");
    }

    private static string Page()
    {
        var text = new StringBuilder();
        text.Append("# Twelve mixes\n\nWritten by a test from the planner and the catalogue; nobody edits this page. It is here to be "
            + "judged by people who plant.\n");
        text.Append(CultureInfo.InvariantCulture, $"To write it anew: `{Write}=1 dotnet test tests/CommonGround.Planning.Tests --filter "
            + $"MixesPageTests`. Prices are invented. How mixes are made: [measures](measures.md#mix).\n");
        text.Append(CultureInfo.InvariantCulture, $"Bees: {VisitorRecords.Caveat}\nIn flower: taxa in each half-month from early April to "
            + $"late October. Seeds are live seeds per square foot.\n");
        foreach (var (name, request) in Sites)
        {
            One(text, name, request);
        }

        return text.ToString();
    }

    private static void One(StringBuilder text, string name, ConversionRequest request)
    {
        text.Append(CultureInfo.InvariantCulture, $"\n## {name}\n\n");
        var outcome = QuarryFlora.Solve(request);
        if (outcome.None is { } none)
        {
            text.Append(string.Concat(none.Conflict.Concat(none.Relaxed).Select(w => $"- {w}\n")) + "\n");
            outcome = QuarryFlora.Solve(none.Request.ShouldNotBeNull());
        }

        var mix = outcome.Mix.ShouldNotBeNull();
        var quality = mix.Quality;
        var c = mix.Taxa.Where(t => t.Taxon.C is not null).Average(t => t.Taxon.C!.Value);
        text.Append(CultureInfo.InvariantCulture, $"{mix.Taxa.Count} taxa, "
            + $"{SeedRate.PerSquareFoot(mix.Taxa.Sum(t => t.SeedsPerSquareMetre)):0.#} seeds/ft², {mix.Taxa.Sum(t => t.Plugs)} plugs, "
            + $"${mix.Cost:0}, mean C {c:0.0}; ");
        text.Append(CultureInfo.InvariantCulture, $"bees {quality.Support} of {quality.BeesPossible} kinds ({mix.Visitors.BeesTwice} "
            + $"twice), visitors of all kinds {mix.Visitors.Visitors}; ");
        text.Append(CultureInfo.InvariantCulture, $"in flower {string.Join(' ', mix.InFlower.Skip(6).Take(14))}; "
            + $"{(quality.ProvenBest ? "proven" : $"gap {quality.Gap:P1}")}.\n");
        text.Append(string.Concat(mix.Advice.Select(a => $"- {a}\n")));
        text.Append("\n| taxon | role | seeds/ft² | plugs | g bought | $ | C | m | in flower | why |\n"
            + "|---|---|---|---|---|---|---|---|---|---|\n");
        foreach (var t in mix.Taxa)
        {
            var bloom = t.Taxon.Bloom is { } b && !t.Traits.IsGrass ? $"{b.Start}–{b.End}" : "";
            var seeds = t.SeedsPerSquareMetre > 0 ? SeedRate.PerSquareFoot(t.SeedsPerSquareMetre).ToString("0.00",
                CultureInfo.InvariantCulture) : "";
            text.Append(CultureInfo.InvariantCulture, $"| *{t.Taxon.ScientificName}*, {t.Taxon.DisplayName} | "
                + $"{RoleWords.Short(t.Traits.Role)} | {seeds} | {(t.Plugs > 0 ? t.Plugs : "")} | ");
            text.Append(CultureInfo.InvariantCulture, $"{(t.BoughtGrams > 0 ? t.BoughtGrams.ToString("0.0", CultureInfo.InvariantCulture) : "")} | {t.Cost:0.00} | {t.Taxon.C} | {t.Traits.HeightMaxMetres ?? t.Taxon.HeightMaxMetres} | {bloom} | {string.Join("; ", t.Reasons.Skip(1))} |\n");
        }
    }
}
